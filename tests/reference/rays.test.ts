/** Rays of the engine and of the path tracer against an open library's, in the furnished reference room. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { referenceScene } from '../../src/cli/rooms.ts';
import type { ReferenceRoom } from '../../src/cli/roomsFile.ts';
import { buildMesh } from '../../src/engine/light/mesh.ts';
import { hit as engineHit, traceElement } from '../../src/engine/light/trace.ts';
import { meshCast } from './meshRays.ts';
import { randomFrom, slabCast, type V } from './pathTracer.ts';

const RAYS = 8000;
const rooms = JSON.parse(readFileSync(new URL('./rooms.json', import.meta.url), 'utf8')) as ReferenceRoom[];
const room = rooms.find(({ boxes }) => boxes.length > 0)!;

/** Rays from anywhere free in the room in any direction. */
function randomRays(seed: number): [from: V, along: V][] {
  const random = randomFrom(seed);
  const rays: [V, V][] = [];
  while (rays.length < RAYS) {
    const from = room.size_m.map((side) => random() * side) as V;
    const z = 2 * random() - 1;
    const round = 2 * Math.PI * random();
    const along: V = [Math.sqrt(1 - z * z) * Math.cos(round), Math.sqrt(1 - z * z) * Math.sin(round), z];
    const inside = room.boxes.some((b) => from.every((x, k) => x > b.min_m[k]! && x < b.max_m[k]!));
    if (!inside) rays.push([from, along]);
  }
  return rays;
}

const rays = randomRays(3);
const library = meshCast(room);

describe('rays against three-mesh-bvh', () => {
  it('of the path tracer meet the same surface at the same place', () => {
    const slabs = slabCast(room);
    for (const [from, along] of rays) {
      const expected = library(from, along);
      const got = slabs(from, along);
      expect(Math.hypot(...got.at.map((x, k) => x - expected.at[k]!))).toBeLessThan(1e-9);
      expect([got.normal, got.reflectance, got.opening]).toEqual([
        expected.normal,
        expected.reflectance,
        expected.opening,
      ]);
    }
  });

  it('of the engine meet the same surface at the same place', () => {
    const mesh = buildMesh(referenceScene(room));
    for (const [from, along] of rays) {
      const expected = library(from, along);
      traceElement(mesh, ...from, ...along);
      expect(
        Math.hypot(engineHit.x - expected.at[0], engineHit.y - expected.at[1], engineHit.z - expected.at[2]),
      ).toBeLessThan(1e-6);
      const { fixedAxis, sign } = mesh.surfaces[engineHit.surface]!;
      expect(expected.normal[fixedAxis]).toBe(sign);
    }
  });
});
