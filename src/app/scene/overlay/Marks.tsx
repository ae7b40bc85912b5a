/** Marks of the Sight Map: where pulses arose, as short ticks across the way walked, with a paper edge; gone after 2 s. */
import { useFrame, useThree } from '@react-three/fiber';
import { useEffect, useMemo } from 'react';
import { BufferAttribute, BufferGeometry, DoubleSide, DynamicDrawUsage, ShaderMaterial } from 'three';
import { ticksToSeconds } from '../../../engine/units.ts';
import type { PulseMark } from '../../../host/messages.ts';
import { live } from '../../state/live.ts';

/** Marks drawn at most, and how long a mark stays whole and then fades, s of room time. Values: `look`. */
const MOST_MARKS = 120;
const WHOLE_S = 12;
const FADE_S = 2;
/** Half length and half widths (ink, paper), m on the floor. Values: `look`, at the station's distance. */
const HALF_LENGTH_M = 0.15;
const HALF_INK_M = 0.022;
const HALF_PAPER_M = 0.042;
const LIFT_M = 0.012;

function createGeometry(): BufferGeometry {
  const geometry = new BufferGeometry();
  const set = (name: string, size: number) => {
    const attribute = new BufferAttribute(new Float32Array(MOST_MARKS * 4 * size), size);
    attribute.setUsage(DynamicDrawUsage);
    geometry.setAttribute(name, attribute);
  };
  set('position', 3);
  set('corner', 2);
  set('strength', 1);
  geometry.setIndex(Array.from({ length: MOST_MARKS }, (_, k) => [0, 1, 2, 0, 2, 3].map((i) => k * 4 + i)).flat());
  geometry.setDrawRange(0, 0);
  return geometry;
}

function createMaterial(): ShaderMaterial {
  return new ShaderMaterial({
    transparent: true,
    depthWrite: false,
    side: DoubleSide,
    vertexShader: /* glsl */ `
      attribute vec2 corner; attribute float strength; varying vec2 vCorner; varying float vStrength;
      void main() { vCorner = corner; vStrength = strength; gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0); }`,
    fragmentShader: /* glsl */ `
      varying vec2 vCorner; varying float vStrength;
      void main() {
        float ink = step(abs(vCorner.y), ${(HALF_INK_M / HALF_PAPER_M).toFixed(3)}) * step(abs(vCorner.x), ${(1 - (HALF_PAPER_M - HALF_INK_M) / HALF_LENGTH_M).toFixed(3)});
        gl_FragColor = vec4(mix(vec3(0.984, 0.98, 0.969), vec3(0.106, 0.145, 0.188), ink), vStrength);
      }`,
  });
}

/** Marks nearer than this tell no direction, m; and of marks nearer than the second only the newest is drawn. Assumed: a
 *  quarter of a step; several pulses arise at one place. */
const STEP_M = 0.2;
const SAME_M = 0.07;

function apart(a: PulseMark, b: PulseMark): number {
  return Math.hypot(a.atM[0] - b.atM[0], a.atM[1] - b.atM[1]);
}

/** Marks to draw at a tick, oldest first: recent, and none on top of a newer one. */
export function recentMarks(marks: readonly PulseMark[], nowTick: number): PulseMark[] {
  const chosen: PulseMark[] = [];
  for (let k = marks.length - 1; k >= 0 && chosen.length < MOST_MARKS; k--) {
    const mark = marks[k]!;
    if (mark.tick > nowTick) continue;
    if (ticksToSeconds(nowTick - mark.tick) >= WHOLE_S + FADE_S) break;
    if (chosen.every((c) => apart(c, mark) > SAME_M)) chosen.push(mark);
  }
  return chosen.reverse();
}

/** Direction walked at a mark: from the last mark a step before it to the first a step after. */
export function wayAt(marks: readonly PulseMark[], k: number): [number, number] {
  const here = marks[k]!;
  let before = k;
  let after = k;
  while (before > 0 && apart(marks[before]!, here) < STEP_M) before--;
  while (after < marks.length - 1 && apart(marks[after]!, here) < STEP_M) after++;
  const [a, b] = [marks[before]!.atM, marks[after]!.atM];
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const length = Math.hypot(dx, dy);
  return length > 0.02 ? [dx / length, dy / length] : [1, 0];
}

function writeMarks(geometry: BufferGeometry, nowTick: number): void {
  const [position, corner, strength] = ['position', 'corner', 'strength'].map(
    (n) => geometry.getAttribute(n) as BufferAttribute,
  );
  const recent = recentMarks(live.marks, nowTick);
  recent.forEach((mark, k) => {
    const [wx, wy] = wayAt(recent, k);
    const ageS = ticksToSeconds(nowTick - mark.tick);
    const left = Math.min(Math.max((WHOLE_S + FADE_S - ageS) / FADE_S, 0), 1);
    [
      [-1, -1],
      [1, -1],
      [1, 1],
      [-1, 1],
    ].forEach(([u, v], i) => {
      const x = mark.atM[0] - wy * u! * HALF_LENGTH_M + wx * v! * HALF_PAPER_M;
      const y = mark.atM[1] + wx * u! * HALF_LENGTH_M + wy * v! * HALF_PAPER_M;
      position!.setXYZ(k * 4 + i, x, y, LIFT_M);
      corner!.setXY(k * 4 + i, u!, v!);
      strength!.setX(k * 4 + i, left);
    });
  });
  for (const attribute of [position, corner, strength]) attribute!.needsUpdate = true;
  geometry.setDrawRange(0, recent.length * 6);
}

export function Marks() {
  const geometry = useMemo(createGeometry, []);
  const material = useMemo(createMaterial, []);
  const invalidate = useThree((s) => s.invalidate);
  useEffect(() => {
    invalidate();
    return () => {
      geometry.dispose();
      material.dispose();
    };
  }, [geometry, material, invalidate]);
  useFrame(() => {
    if (live.frame) writeMarks(geometry, live.frame.tick);
  });
  return <mesh geometry={geometry} material={material} frustumCulled={false} renderOrder={3} />;
}
