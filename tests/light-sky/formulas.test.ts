import { describe, expect, it } from 'vitest';
import { profileAngleRad, slatBeamFraction, slatDiffuseOpenness } from '../../src/engine/light/blinds.ts';
import { polygonFactor, viewFactorParallel, viewFactorPerpendicular } from '../../src/engine/light/factors.ts';
import { glazingDiffuseRatio, glazingRatio } from '../../src/engine/light/glass.ts';
import { closedBox } from '../../src/engine/light/invariants.ts';
import { lampAtPoint } from '../../src/engine/light/lampLight.ts';
import { lampIntensity } from '../../src/engine/light/lamps.ts';
import { buildMesh } from '../../src/engine/light/mesh.ts';
import type { SceneLamp } from '../../src/engine/light/scene.ts';

/** A plain repeatable sequence in [0, 1). */
function dice(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) | 0;
    return (state >>> 0) / 4294967296;
  };
}

describe('glass', () => {
  it('passes straight light whole, grazing light not at all, and less with every degree', () => {
    expect(glazingRatio(1)).toBeCloseTo(1, 14);
    expect(glazingRatio(0)).toBe(0);
    expect(glazingRatio(-0.3)).toBe(0);
    let before = 1;
    for (let deg = 1; deg < 90; deg++) {
      const now = glazingRatio(Math.cos((deg * Math.PI) / 180));
      expect(now).toBeLessThan(before);
      before = now;
    }
  });

  it('follows the open polynomial for clear glazing within 0.035', () => {
    // The open-source program Radiance uses a polynomial for clear glazing: 0.989, 0.974, 0.900, 0.756, 0.473.
    const other = { 30: 0.989, 45: 0.974, 60: 0.9, 70: 0.756, 80: 0.473 };
    for (const [deg, value] of Object.entries(other)) {
      expect(Math.abs(glazingRatio(Math.cos((Number(deg) * Math.PI) / 180)) - value)).toBeLessThan(0.035);
    }
    expect(glazingDiffuseRatio()).toBeCloseTo(0.9217, 3);
  });
});

describe('slats', () => {
  it('pass the share of random rays that miss them', () => {
    const random = dice(20261125);
    const width = 1.25;
    for (const [tiltDeg, profileDeg] of [
      [0, 30],
      [-20, 40],
      [10, 15],
      [35, -10],
    ] as const) {
      const tilt = (tiltDeg * Math.PI) / 180;
      const profile = (profileDeg * Math.PI) / 180;
      // In the plane across: a slat from (0, 0) inward to w (cos, sin); the ray falls inward by tan(profile).
      const depth = width * Math.cos(tilt);
      const rise = width * Math.sin(tilt);
      let through = 0;
      const rays = 20_000;
      for (let k = 0; k < rays; k++) {
        const startY = random();
        const fall = -depth * Math.tan(profile);
        // It misses every slat when no whole number lies between its heights over the slat at both ends.
        const low = Math.min(startY, startY + fall - rise);
        const high = Math.max(startY, startY + fall - rise);
        if (Math.floor(low) === Math.floor(high)) through++;
      }
      expect(slatBeamFraction(width, tilt, profile)).toBeCloseTo(through / rays, 1.7);
    }
  });

  it('are closed to light that comes along the facade and open to light along the slats', () => {
    expect(slatBeamFraction(1.2, 0, Math.PI / 2)).toBe(0);
    expect(slatBeamFraction(1.2, -0.4, 0.4)).toBeCloseTo(1, 12);
    expect(slatDiffuseOpenness(0, 0.3)).toBe(1);
    expect(slatDiffuseOpenness(1, Math.PI / 2)).toBeCloseTo(0, 12);
    expect(profileAngleRad(0.5, 0)).toBeCloseTo(0.5, 14);
    expect(profileAngleRad(0.5, 1.2)).toBeGreaterThan(0.5);
  });
});

describe('lamps', () => {
  it.each(['lambert', 'cosine3', 'batwing'] as const)(
    '%s sends out one lumen per lumen, all of it downwards',
    (kind) => {
      // Midpoint rule over the cosine; the flux of a ring is 2 pi I d(cos).
      const steps = 2000;
      let flux = 0;
      for (let i = 0; i < steps; i++) flux += (lampIntensity(kind, (i + 0.5) / steps) * 2 * Math.PI) / steps;
      expect(flux).toBeCloseTo(1, 6);
      expect(lampIntensity(kind, 0)).toBe(0);
      expect(lampIntensity(kind, -0.5)).toBe(0);
    },
  );

  it('batwing is brighter to the side than straight down', () => {
    const peak = Math.max(
      ...Array.from({ length: 90 }, (_, d) => lampIntensity('batwing', Math.cos((d * Math.PI) / 180))),
    );
    expect(peak / lampIntensity('batwing', 1)).toBeCloseTo(1.24, 2);
  });

  it('in parts agree with the exact polygon within 0.9 percent, near and far', () => {
    const empty = buildMesh(closedBox([1, 1, 1], 0, 0));
    for (const distance of [0.4, 0.6, 1.19, 1.3, 2.2, 4]) {
      for (const [x, y] of [
        [0, 0],
        [0.4, 0.1],
        [1.5, 0.8],
      ] as const) {
        const corners = [-0.3, -0.3, 0.3, -0.3, 0.3, 0.3, -0.3, 0.3];
        const polygon = [0, 2, 4, 6].flatMap((i) => [corners[i]! + x, corners[i + 1]! + y, distance]);
        const exact = (3600 / 0.36) * polygonFactor(polygon, 0, 0, 0, 0, 0, 1);
        const lamp: SceneLamp = {
          centreM: [x, y, distance],
          sizeM: [0.6, 0.6],
          downLm: 3600,
          upLm: 0,
          distribution: 'lambert',
        };
        const error = lampAtPoint(empty, lamp, 0, 0, 0, (_x, _y, z) => z, 1) / exact - 1;
        // Worst 0.87 %, aside of a near lamp, where its few far parts stand in for a strongly slanted square.
        expect(Math.abs(error), `${distance} m below, offset ${x}, ${y}`).toBeLessThan(0.009);
      }
    }
  });
});

describe('factors', () => {
  it('of six faces of a box add up to one', () => {
    for (const [a, b, c] of [
      [9, 6, 3],
      [4, 4, 3],
      [1, 7, 2.4],
    ] as const) {
      const row =
        viewFactorParallel(a, b, c) + 2 * viewFactorPerpendicular(a, b, c) + 2 * viewFactorPerpendicular(b, a, c);
      expect(Math.abs(row - 1)).toBeLessThan(1e-12);
      const there = a * b * viewFactorPerpendicular(a, b, c);
      const back = a * c * viewFactorPerpendicular(a, c, b);
      expect(Math.abs(there / back - 1)).toBeLessThan(1e-12);
    }
  });

  it('of polygons round a point fill its half sphere', () => {
    // A box without its floor, seen from anywhere on the floor, facing any way up.
    const at = (x: number, y: number, z: number) => [x * 4, y * 3, z * 2.5];
    const faces = [
      [at(0, 0, 1), at(1, 0, 1), at(1, 1, 1), at(0, 1, 1)],
      [at(0, 0, 0), at(1, 0, 0), at(1, 0, 1), at(0, 0, 1)],
      [at(0, 1, 0), at(1, 1, 0), at(1, 1, 1), at(0, 1, 1)],
      [at(0, 0, 0), at(0, 1, 0), at(0, 1, 1), at(0, 0, 1)],
      [at(1, 0, 0), at(1, 1, 0), at(1, 1, 1), at(1, 0, 1)],
      [at(0, 0, 0), at(1, 0, 0), at(1, 1, 0), at(0, 1, 0)],
    ];
    const random = dice(7);
    for (let k = 0; k < 50; k++) {
      const point = [0.2 + 3.6 * random(), 0.2 + 2.6 * random(), 0.1 + 2.2 * random()] as const;
      const tilt = [random() - 0.5, random() - 0.5, random() - 0.5];
      const length = Math.hypot(...tilt);
      const [nx, ny, nz] = tilt.map((v) => v / length) as [number, number, number];
      const sum = faces.reduce((total, face) => total + polygonFactor(face.flat(), ...point, nx, ny, nz), 0);
      expect(Math.abs(sum - 1)).toBeLessThan(1e-12);
    }
  });

  it('count nothing below the horizon and nothing edge-on', () => {
    const square = [-1, -1, -2, 1, -1, -2, 1, 1, -2, -1, 1, -2];
    expect(polygonFactor(square, 0, 0, 0, 0, 0, 1)).toBe(0);
    expect(polygonFactor(square, 0, 0, 0, 0, 0, -1)).toBeGreaterThan(0.2);
    expect(polygonFactor([1, 0, 0, 2, 0, 0, 2, 1, 0, 1, 1, 0], 0, 0, 0, 0.6, 0, 0.8)).toBeCloseTo(0, 14);
    expect(() => polygonFactor(new Float64Array(3 * 65), 0, 0, 0, 0, 0, 1)).toThrow('at most 64');
  });

  it('agree with plain summation over small pieces for random tilted rectangles', () => {
    const random = dice(99);
    for (let k = 0; k < 20; k++) {
      const origin = [random() * 4 - 2, random() * 4 - 2, 1.5 + random()];
      const u = [0.8 + random(), random() - 0.5, random() - 0.5];
      const v = [random() - 0.5, 0.8 + random(), random() - 0.5];
      const add = (s: number, t: number) => origin.map((o, i) => o + s * u[i]! + t * v[i]!) as [number, number, number];
      const cross = [u[1]! * v[2]! - u[2]! * v[1]!, u[2]! * v[0]! - u[0]! * v[2]!, u[0]! * v[1]! - u[1]! * v[0]!];
      const pieces = 120;
      let sum = 0;
      for (let i = 0; i < pieces; i++) {
        for (let j = 0; j < pieces; j++) {
          const [x, y, z] = add((i + 0.5) / pieces, (j + 0.5) / pieces);
          const r2 = x * x + y * y + z * z;
          const facing = Math.abs(x * cross[0]! + y * cross[1]! + z * cross[2]!);
          if (z > 0) sum += (z * facing) / (r2 * r2 * Math.PI * pieces * pieces);
        }
      }
      const corners = [...add(0, 0), ...add(1, 0), ...add(1, 1), ...add(0, 1)];
      expect(Math.abs(polygonFactor(corners, 0, 0, 0, 0, 0, 1) - sum)).toBeLessThan(2e-4);
    }
  });
});
