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

/** Two balls of 10 cm whose middles are 12 cm apart along x: they meet in a crease 8 cm from the axis. */
function twoBalls(): Float64Array {
  const parts = new Float64Array(NUMBERS);
  [-0.06, 0.06].forEach((x, part) => {
    const f = part * NUMBERS_PER_PART;
    parts[f] = x;
    for (const axis of [0, 1, 2]) parts[f + 3 + axis * 4] = 0.1;
  });
  return parts;
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

  it('has outward unit normals', () => {
    for (let k = 0; k < BODY_POINTS; k++) {
      const part = Math.floor(k / (BODY_POINTS / PARTS_PER_BODY));
      if (parts[part * NUMBERS_PER_PART + 3] === 0 && parts[part * NUMBERS_PER_PART + 4] === 0) continue;
      const n = [normals[k * 3]!, normals[k * 3 + 1]!, normals[k * 3 + 2]!];
      expect(Math.hypot(...n)).toBeCloseTo(1, 3);
    }
  });

  it('fills the crease where two parts meet', () => {
    const p = new Float32Array(BODY_POINTS * 3);
    blendBody(twoBalls(), 0, p, new Float32Array(BODY_POINTS * 3), 0);
    let crease = 0;
    for (let k = 0; k < BODY_POINTS; k++) {
      if (Math.abs(p[k * 3]!) < 0.015) crease = Math.max(crease, Math.hypot(p[k * 3 + 1]!, p[k * 3 + 2]!));
    }
    // Both distances are equal in the middle: the blend stands 2 cm x ln 2 off, 9.7 cm from the axis instead of 8.
    expect(crease).toBeGreaterThan(0.09);
    expect(crease).toBeLessThan(0.1);
  });
});
