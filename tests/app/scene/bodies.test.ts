import { describe, expect, it } from 'vitest';
import { BODY_POINTS, blendBody, bodyTopM } from '../../../src/app/scene/people/blend.ts';
import { createPeople, poseBodies } from '../../../src/engine/people/people.ts';
import { type BodyBuffer, NUMBERS_PER_PART, PARTS_PER_BODY, type PersonSpec } from '../../../src/engine/types.ts';

const NUMBERS = PARTS_PER_BODY * NUMBERS_PER_PART;

function standing(): BodyBuffer {
  const spec: PersonSpec = {
    id: 'A',
    heightM: 1.78,
    clothingClo: 1,
    cameFromC: 20,
    atM: [3, 2],
    headingDeg: 40,
    outsideAtStart: false,
    plan: [{ act: 'stand' }],
  };
  const buffer: BodyBuffer = {
    count: 0,
    owner: new Int32Array(2).fill(-1),
    poseKey: new Float64Array(2),
    parts: new Float64Array(2 * NUMBERS),
    partKind: new Uint8Array(2 * PARTS_PER_BODY),
  };
  poseBodies(createPeople([spec]), [], 0, 0, buffer);
  return buffer;
}

/** How far inside the nearest ellipsoid a point lies, as a share of the way to its surface (0 = on or outside). */
function depthShare(parts: Float64Array, p: readonly number[]): number {
  let deepest = 0;
  for (let part = 0; part < PARTS_PER_BODY; part++) {
    const f = part * NUMBERS_PER_PART;
    let square = 0;
    for (let axis = 0; axis < 3; axis++) {
      const a = f + 3 + axis * 3;
      const length2 = parts[a]! ** 2 + parts[a + 1]! ** 2 + parts[a + 2]! ** 2;
      if (length2 === 0) {
        square = Infinity;
        break;
      }
      const along = [0, 1, 2].reduce((sum, k) => sum + (p[k]! - parts[f + k]!) * parts[a + k]!, 0) / length2;
      square += along * along;
    }
    if (square < 1) deepest = Math.max(deepest, 1 - Math.sqrt(square));
  }
  return deepest;
}

describe('the drawn body', () => {
  const { count, parts } = standing();
  const positions = new Float32Array(BODY_POINTS * 3);
  const normals = new Float32Array(BODY_POINTS * 3);
  blendBody(parts, 0, positions, normals, 0);

  it('is one body as tall as the Stand-in', () => {
    expect(count).toBe(1);
    expect(bodyTopM(parts, 0)).toBeGreaterThan(1.7);
    expect(bodyTopM(parts, 0)).toBeLessThan(1.86);
  });

  it('covers the ellipsoids that sensing uses and goes at most 5 cm beyond them', () => {
    for (let k = 0; k < BODY_POINTS; k++) {
      const part = Math.floor(k / (BODY_POINTS / PARTS_PER_BODY));
      const f = part * NUMBERS_PER_PART;
      const p = [positions[k * 3]!, positions[k * 3 + 1]!, positions[k * 3 + 2]!];
      const reach = Math.hypot(
        ...[3, 6, 9].map((a) => Math.hypot(parts[f + a]!, parts[f + a + 1]!, parts[f + a + 2]!)),
      );
      const far = Math.hypot(p[0]! - parts[f]!, p[1]! - parts[f + 1]!, p[2]! - parts[f + 2]!);
      expect(far).toBeLessThan(reach + 0.051);
    }
  });

  it('shows no seam: points that are seen lie on the blended surface, not inside a neighbour', () => {
    let seen = 0;
    let inside = 0;
    for (let k = 0; k < BODY_POINTS; k++) {
      const p = [positions[k * 3]!, positions[k * 3 + 1]!, positions[k * 3 + 2]!];
      seen++;
      if (depthShare(parts, p) > 0.3) inside++;
    }
    // Deep points are the buried ends of limbs; the rest was moved out to the common surface.
    expect(inside / seen).toBeLessThan(0.25);
  });

  it('has outward unit normals', () => {
    for (let k = 0; k < BODY_POINTS; k++) {
      const part = Math.floor(k / (BODY_POINTS / PARTS_PER_BODY));
      if (parts[part * NUMBERS_PER_PART + 3] === 0 && parts[part * NUMBERS_PER_PART + 4] === 0) continue;
      const n = [normals[k * 3]!, normals[k * 3 + 1]!, normals[k * 3 + 2]!];
      expect(Math.hypot(...n)).toBeCloseTo(1, 3);
    }
  });
});
