/** Three pips on the detector's rim, always the same size on screen: filled = now, ring = not now. */
import { useFrame, useThree } from '@react-three/fiber';
import { useEffect, useMemo } from 'react';
import { BufferAttribute, BufferGeometry, Color, ShaderMaterial } from 'three';
import type { DetectorMount } from '../../engine/types.ts';
import { live } from '../state/live.ts';
import { useApp } from '../state/store.ts';
import { pipPlaces } from './model/fittings.ts';
import { useGeometry } from './RoomMesh.tsx';

/** Diameter on screen, px. Value: `look`, seen from the back of a class. */
const PIP_PX = 8;

function createMaterial(): ShaderMaterial {
  return new ShaderMaterial({
    transparent: true,
    depthTest: false,
    uniforms: { uInk: { value: new Color() }, uGround: { value: new Color() }, uPx: { value: PIP_PX } },
    vertexShader: /* glsl */ `
      attribute float lit; varying float vLit; uniform float uPx;
      void main() { vLit = lit; gl_PointSize = uPx; gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0); }`,
    fragmentShader: /* glsl */ `
      varying float vLit; uniform vec3 uInk; uniform vec3 uGround; uniform float uPx;
      void main() {
        float d = length(gl_PointCoord - 0.5) * uPx;
        float edge = uPx * 0.5;
        vec3 c = mix(uGround, uInk, max(vLit, smoothstep(edge - 2.2, edge - 1.4, d)));
        gl_FragColor = vec4(c, 1.0 - smoothstep(edge - 1.0, edge, d));
      }`,
  });
}

export function Pips({ mount }: { mount: DetectorMount }) {
  const theme = useApp((s) => s.theme);
  const dpr = useThree((s) => s.viewport.dpr);
  const material = useMemo(createMaterial, []);
  useEffect(() => () => material.dispose(), [material]);
  const geometry = useGeometry(() => {
    const g = new BufferGeometry();
    g.setAttribute('position', new BufferAttribute(new Float32Array(pipPlaces(mount).flat()), 3));
    g.setAttribute('lit', new BufferAttribute(new Float32Array(3), 1));
    return g;
  }, [mount]);
  useEffect(() => {
    material.uniforms.uInk!.value.setStyle(theme === 'day' ? '#1B2530' : '#F3F1EA', '');
    material.uniforms.uGround!.value.setStyle(theme === 'day' ? '#FBFAF7' : '#1B2530', '');
    material.uniforms.uPx!.value = PIP_PX * dpr;
  }, [material, theme, dpr]);
  useFrame(() => {
    if (!geometry || !live.frame) return;
    const lit = geometry.getAttribute('lit') as BufferAttribute;
    const { movement, light, air } = live.frame.pips;
    const next = [movement, light, air];
    next.forEach((on, k) => {
      if (lit.getX(k) === (on ? 1 : 0)) return;
      lit.setX(k, on ? 1 : 0);
      lit.needsUpdate = true;
    });
  });
  return geometry && <points geometry={geometry} material={material} frustumCulled={false} renderOrder={8} />;
}
