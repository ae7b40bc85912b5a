/** Stand-ins and moving warm things: one mesh, rewritten only where a body moved. */
import { useFrame } from '@react-three/fiber';
import { useEffect, useMemo, useRef } from 'react';
import { BufferAttribute, BufferGeometry, DynamicDrawUsage } from 'three';
import { NUMBERS_PER_PART, PARTS_PER_BODY } from '../../engine/types.ts';
import type { WarmthView } from '../../engine/warmth.ts';
import { live } from '../state/live.ts';
import { useApp } from '../state/store.ts';
import { MATERIAL } from './model/palette.ts';
import { BODY_POINTS, BODY_TRIANGLES, blendBody } from './people/blend.ts';
import { writeContrast } from './people/contrast.ts';
import { useResources } from './resources.ts';

/** Bodies drawn at most: people and warm things of the largest room. Source: the product's limits, 8 and 4. */
const MOST_BODIES = 12;
const NUMBERS = PARTS_PER_BODY * NUMBERS_PER_PART;

interface Bodies {
  geometry: BufferGeometry;
  /** What each body looked like when it was last written. */
  drawn: Float32Array;
  /** How many of them are people; what follows are things. */
  people: number;
}

function createBodies(): Bodies {
  const geometry = new BufferGeometry();
  for (const [name, size] of [
    ['position', 3],
    ['normal', 3],
    ['color', 3],
    ['contrast', 2],
  ] as const) {
    const attribute = new BufferAttribute(new Float32Array(MOST_BODIES * BODY_POINTS * size), size);
    attribute.setUsage(DynamicDrawUsage);
    geometry.setAttribute(name, attribute);
  }
  const indices = new Uint32Array(MOST_BODIES * BODY_TRIANGLES.length);
  for (let body = 0; body < MOST_BODIES; body++) {
    BODY_TRIANGLES.forEach((k, i) => {
      indices[body * BODY_TRIANGLES.length + i] = k + body * BODY_POINTS;
    });
  }
  geometry.setIndex(new BufferAttribute(indices, 1));
  geometry.setDrawRange(0, 0);
  return { geometry, drawn: new Float32Array(MOST_BODIES * NUMBERS).fill(Number.NaN), people: -1 };
}

/** People first, then things: told apart by colour alone, a dog has no letter. */
function paintBodies(bodies: Bodies, people: number): void {
  if (bodies.people === people) return;
  bodies.people = people;
  const color = bodies.geometry.getAttribute('color') as BufferAttribute;
  const firstThing = people * BODY_POINTS;
  for (let k = 0; k < color.count; k++) {
    const [r, g, b] = k < firstThing ? MATERIAL.figure : MATERIAL.thing;
    color.setXYZ(k, r, g, b);
  }
  color.needsUpdate = true;
}

function changed(drawn: Float32Array, parts: Float32Array, at: number): boolean {
  for (let k = at; k < at + NUMBERS; k++) if (drawn[k] !== parts[k]) return true;
  return false;
}

function writeBodies({ geometry, drawn }: Bodies, parts: Float32Array, count: number): void {
  const position = geometry.getAttribute('position') as BufferAttribute;
  const normal = geometry.getAttribute('normal') as BufferAttribute;
  let wrote = false;
  for (let body = 0; body < count; body++) {
    const at = body * NUMBERS;
    if (!changed(drawn, parts, at)) continue;
    drawn.set(parts.subarray(at, at + NUMBERS), at);
    blendBody(parts, at, position.array as Float32Array, normal.array as Float32Array, body * BODY_POINTS);
    wrote = true;
  }
  geometry.setDrawRange(0, count * BODY_TRIANGLES.length);
  if (!wrote) return;
  position.needsUpdate = true;
  normal.needsUpdate = true;
}

export function People() {
  const r = useResources();
  const bodies = useMemo(createBodies, []);
  const warm = useApp((s) => s.overlay === 'warmth');
  const contrastOf = useRef<WarmthView | null>(null);
  useEffect(() => () => bodies.geometry.dispose(), [bodies]);
  useFrame(() => {
    if (!live.frame) return;
    if (warm && live.warmth && contrastOf.current !== live.warmth) {
      contrastOf.current = live.warmth;
      writeContrast(bodies.geometry, live.warmth);
    }
    paintBodies(bodies, live.frame.people.filter((p) => p.present).length);
    writeBodies(bodies, r.view.parts, Math.min(r.view.bodyCount, MOST_BODIES));
  }, -1);
  return <mesh geometry={bodies.geometry} material={warm ? r.warmFigure : r.figure} frustumCulled={false} />;
}
