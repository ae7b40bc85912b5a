/** Once per drawn frame: blends the last two engine frames, writes the uniforms, asks for another frame while something moves. */
import { useFrame, useThree } from '@react-three/fiber';
import { useCallback, useEffect, useMemo, useRef } from 'react';
import type { Frame } from '../../engine/frame.ts';
import { roomBoxes } from '../../engine/room/boxes.ts';
import type { FurnitureSpec, RoomSpec } from '../../engine/types.ts';
import { live, onLive } from '../state/live.ts';
import { useApp } from '../state/store.ts';
import { exposureAim } from './light/exposure.ts';
import { aimSun, placeSunBoxes } from './light/sun.ts';
import { TINT } from './light/uniforms.ts';
import { CUT_FACE, PRESENTATION } from './model/palette.ts';
import { reducedMotion } from './motion.ts';
import { type SceneResources, useResources } from './resources.ts';
import { advanceView } from './view.ts';

const smooth = (x: number) => {
  const t = Math.min(Math.max(x, 0), 1);
  return t * t * (3 - 2 * t);
};

/** Daylight inside takes the sky's hue, the sun's where it is mostly sun thrown back by the room, blue in twilight. */
function tintDaylight(r: SceneResources, frame: Frame): void {
  const { altitudeDeg, directNormalLx, outsideHorizontalLx } = frame.sun;
  const direct = directNormalLx * Math.max(Math.sin((altitudeDeg * Math.PI) / 180), 0);
  const sunShare = outsideHorizontalLx > 0 ? Math.min(direct / outsideHorizontalLx, 1) * 0.6 : 0;
  const tint = r.uniforms.uSkyTint.value.copy(TINT.sky).lerp(TINT.sun, sunShare);
  tint.lerp(TINT.twilight, smooth(-altitudeDeg / 5));
}

function writeUniforms(r: SceneResources, frame: Frame, setpointLx: number | null): void {
  const u = r.uniforms;
  u.uWeights.value.set(1, r.view.lamps.inner, r.view.lamps.window, 1);
  u.uExposure.value = r.view.exposure;
  u.uSetpointLx.value = setpointLx ?? 0;
  tintDaylight(r, frame);
}

/** Where the processor draws, a change waits this long for its picture, ms: the page paints its numbers first, and light
 *  that comes with a frame is in the same picture. Assumed: two screen refreshes. */
const NUMBERS_FIRST_MS = 32;
/** … and while the room is paused, where changes come from a hand that drags, each puts the picture off anew, but no longer
 *  than this, ms. Assumed: six screen refreshes, ten pictures a second; without end, quick hands would see none. */
const PUT_OFF_MS = 96;
/** … and pictures that differ in nothing but exposure are this far apart, ms. Assumed: drawn one after another they would
 *  keep the hand waiting for a second and a half after every change of light. */
const EXPOSURE_EVERY_MS = 250;

/** Asks for a picture after a while. A sooner wish replaces a later one; a later one puts off a sooner one as far as
 *  `putOffMs` after the first that still waits. */
function useLater(invalidate: () => void): (delayMs: number, putOffMs?: number) => void {
  const due = useRef({
    atMs: Number.POSITIVE_INFINITY,
    firstMs: 0,
    timer: undefined as ReturnType<typeof setTimeout> | undefined,
  });
  useEffect(() => () => clearTimeout(due.current.timer), []);
  return useCallback(
    (delayMs, putOffMs = 0) => {
      const wish = due.current;
      const nowMs = performance.now();
      if (wish.atMs === Number.POSITIVE_INFINITY) wish.firstMs = nowMs;
      const atMs = Math.min(nowMs + delayMs, Math.max(wish.atMs, wish.firstMs + putOffMs));
      if (atMs === wish.atMs) return;
      clearTimeout(wish.timer);
      wish.atMs = atMs;
      wish.timer = setTimeout(() => {
        wish.atMs = Number.POSITIVE_INFINITY;
        invalidate();
      }, atMs - nowMs);
    },
    [invalidate],
  );
}

export function Conductor({ room, furniture }: { room: RoomSpec; furniture: readonly FurnitureSpec[] }) {
  const r = useResources();
  const invalidate = useThree((s) => s.invalidate);
  const later = useLater(invalidate);
  const overlay = useApp((s) => s.overlay);
  const theme = useApp((s) => s.theme);
  const setpointLx = useApp((s) => s.settings?.innerSetpointLx ?? null);
  const blinds = useApp((s) => s.setup?.blinds);
  const numbers = useMemo(() => new Map(furniture.map((f, i) => [f.id, i])), [furniture]);
  const shown = useApp((s) => s.view === 'room');
  const running = useApp((s) => s.status.running);
  // Hidden behind another view nothing is drawn; coming back, at once.
  useEffect(() => {
    if (!shown) return;
    invalidate();
    return onLive(() => (r.software ? later(NUMBERS_FIRST_MS, running ? 0 : PUT_OFF_MS) : invalidate()));
  }, [r, invalidate, later, shown, running]);
  useEffect(() => {
    placeSunBoxes(r.uniforms, roomBoxes(room, [...furniture]), numbers);
    r.uniforms.uCorridorLx.value = Math.max(0, ...room.doors.map((d) => d.corridorLx));
  }, [r, room, furniture, numbers]);
  useEffect(() => {
    r.uniforms.uMapOn.value = overlay === 'light' ? 1 : 0;
    r.uniforms.uPlain.value = overlay === 'warmth' ? 1 : 0;
    r.uniforms.uGrey.value = overlay === 'light' ? 0.78 : 0;
    r.outside.uniforms.uTone!.value.set(...PRESENTATION[theme]);
    r.uniforms.uOutsideTone.value.set(...PRESENTATION[theme]);
    r.outside.uniforms.uCut!.value.set(CUT_FACE[theme]);
    // On the Light Map a glow would be read as lux.
    r.halo.uniforms.uHalo!.value = overlay === 'light' || overlay === 'warmth' ? 0 : theme === 'day' ? 0.5 : 0.6;
    invalidate();
  }, [r, overlay, theme, invalidate]);
  useFrame((_, deltaS) => {
    const frame = live.frame;
    if (!frame) return;
    const calm = reducedMotion();
    // After a rest the clock has run on; an easing begins with one ordinary frame.
    const stepS = r.view.restless ? Math.min(deltaS, 1) : 1 / 60;
    advanceView(r.view, performance.now(), stepS, exposureAim(r.meanLx, frame.lamps), {
      calm,
      stepped: r.software,
    });
    aimSun(r.uniforms, room, blinds ?? [], frame.sun);
    writeUniforms(r, frame, setpointLx);
    if (!r.view.restless || !shown) return;
    if (r.software && !r.view.moving) later(EXPOSURE_EVERY_MS);
    else invalidate();
  }, -2);
  return null;
}
