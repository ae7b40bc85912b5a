/** The lines of the Light Map: worked out anew when field, lamps, sun or setpoint change, before the frame is drawn. */
import { useFrame, useThree } from '@react-three/fiber';
import { useEffect, useMemo, useRef } from 'react';
import { type BufferGeometry, Mesh } from 'three';
import type { FurnitureSpec } from '../../../engine/types.ts';
import { live } from '../../state/live.ts';
import { getApp } from '../../state/store.ts';
import { sunOnLevelLx } from '../light/sun.ts';
import { type SceneResources, useResources } from '../resources.ts';
import { lightLines } from './lightLines.ts';
import { lineGeometry } from './lineGeometry.ts';

/** Sunlight on level surfaces that differs by less than this factor is drawn with the same lines. Assumed: as the material. */
const SUN_STEP = 1.02;

/** Least width on the Big Screen, lines of 1080; the setpoint's is double. Value: `look`. */
const BIG_PX = 4;

/** What the lines depend on, as a text that changes exactly when they must. */
function keyOf({ view, uniforms }: SceneResources, sunLx: readonly number[]): string {
  const { inner, window } = view.lamps;
  return [live.fieldVersion, inner, window, uniforms.uSetpointLx.value, ...sunLx].join(' ');
}

export function LightLines({ furniture }: { furniture: readonly FurnitureSpec[] }) {
  const r = useResources();
  const invalidate = useThree((s) => s.invalidate);
  const drawn = useRef({ key: '', furniture: null as readonly FurnitureSpec[] | null });
  const mesh = useMemo(() => {
    const made = new Mesh<BufferGeometry>(undefined, r.line);
    made.frustumCulled = false;
    made.renderOrder = 3;
    return made;
  }, [r]);
  useEffect(() => {
    invalidate();
    return () => {
      mesh.geometry.dispose();
      r.lines = [];
    };
  }, [mesh, r, invalidate]);
  useFrame(({ gl }) => {
    r.line.uniforms.uRatio!.value = gl.getPixelRatio();
    r.line.uniforms.uLeastPx!.value = BIG_PX * (getApp().lecture?.scale ?? 0);
    gl.getDrawingBufferSize(r.line.uniforms.uViewPx!.value);
    if (!live.field) return;
    const level = sunOnLevelLx(r.uniforms).map((lx) =>
      Math.round(SUN_STEP ** Math.round(Math.log(lx) / Math.log(SUN_STEP))),
    );
    const key = keyOf(r, level);
    if (key === drawn.current.key && furniture === drawn.current.furniture) return;
    drawn.current = { key, furniture };
    const setpointLx = r.uniforms.uSetpointLx.value || null;
    r.lines = lightLines(live.field, { lamps: r.view.lamps, setpointLx, sunLx: [...new Set(level)], furniture });
    mesh.geometry.dispose();
    mesh.geometry = lineGeometry(r.lines);
  }, -1.5);
  return <primitive object={mesh} />;
}
