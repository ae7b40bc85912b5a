/**
 * Sky light through bare openings into black rooms, per cent of the horizontal sky light outside: mesh, sky patches,
 * window cells and sensor rows of the engine against a plain quadrature of the sky over the opening.
 */
import { describe, expect, it } from 'vitest';
import { type LitScene, lightUp } from '../../src/engine/light/balance.ts';
import { closedBox, daylightLx } from '../../src/engine/light/invariants.ts';
import type { SceneOpening } from '../../src/engine/light/scene.ts';
import { skyDirection } from '../../src/engine/light/sky/sun.ts';
import type { Vector3 } from '../../src/engine/types.ts';
import { checkTable, type LightRow } from './lightTable.ts';

/** Where the sun stands in the clear sky; +y is north, so it looks straight in at the façade. */
const SUN = { altitudeDeg: 40, azimuthDeg: 180 };
const SIZE_M: Vector3 = [4, 4, 3];

interface Opening {
  face: SceneOpening['face'];
  minM: Vector3;
  maxM: Vector3;
}
const ROOF: Opening = { face: 'ceiling', minM: [1.5, 1.5, 3], maxM: [2.5, 2.5, 3] };
const WINDOW: Opening = { face: 'front', minM: [1, 0, 1], maxM: [3, 0, 2] };
const WHOLE_WALL: Opening = { face: 'front', minM: [0, 0, 0], maxM: [4, 0, 3] };

/** Floor points by name: under the roof opening, and at depths behind the façade. */
const POINTS: Record<string, Vector3> = {
  middle: [2, 2, 0],
  side: [0.5, 2, 0],
  corner: [0.5, 0.5, 0],
  '.5 m': [2, 0.5, 0],
  '2 m': [2, 2, 0],
  '3.5 m': [2, 3.5, 0],
};
const NAMES = Object.keys(POINTS);

function blackRoom(opening: Opening): LitScene {
  const bare = { transmittance: 1, glazed: false, insideReflectance: 0, revealM: 0, exitanceLx: 0 };
  return lightUp({
    ...closedBox(SIZE_M, 0, 0),
    openings: [{ id: 'opening', kind: 'window', ...opening, ...bare }],
    sensors: NAMES.map((id) => ({ id, positionM: POINTS[id]!, normal: [0, 0, 1], halfAngleDeg: null })),
  });
}

const rooms = new Map([ROOF, WINDOW, WHOLE_WALL].map((opening) => [opening, blackRoom(opening)]));

function enginePct(opening: Opening, cieType: number, point: string): number {
  const light = {
    cieType,
    sunAltitudeDeg: SUN.altitudeDeg,
    sunAzimuthDeg: SUN.azimuthDeg,
    horizontalSkyLx: 100,
    directNormalLx: 0,
    sunDirection: skyDirection(SUN.altitudeDeg, SUN.azimuthDeg),
  };
  return daylightLx(rooms.get(opening)!, light)[NAMES.indexOf(point)]!;
}

/** Luminance of the sky, any scale. Source: ISO 15469:2004 for 1, 5, 12; (1 + 2 sin) / 3 for the traditional overcast. */
function luminance(cieType: number, [, y, z]: Vector3): number {
  if (cieType === 16) return (1 + 2 * z) / 3;
  const [a, b, c, d, e] = { 1: [4, -0.7, 0, -1, 0], 5: [0, -1, 0, -1, 0], 12: [-1, -0.32, 10, -3, 0.45] }[cieType]!;
  const altitude = (SUN.altitudeDeg * Math.PI) / 180;
  // The sun is due south.
  const cosine = z * Math.sin(altitude) - y * Math.cos(altitude);
  const chi = Math.acos(Math.min(1, cosine));
  const scatter = 1 + c! * (Math.exp(d! * chi) - Math.exp((d! * Math.PI) / 2)) + e! * cosine ** 2;
  return scatter * (1 + a! * Math.exp(b! / z));
}

/** Midpoint rule over the opening and over the whole sky. Steps: enough for a part in ten thousand. */
function quadraturePct(opening: Opening, cieType: number, [px, py, pz]: Vector3): number {
  const axis = opening.face === 'ceiling' ? 2 : 1;
  const [u, v] = axis === 2 ? [0, 1] : [0, 2];
  const side = (k: number) => opening.maxM[k]! - opening.minM[k]!;
  const steps = 160;
  let lx = 0;
  for (let i = 0; i < steps; i++) {
    for (let j = 0; j < steps; j++) {
      const q = [...opening.minM];
      q[u!]! += ((i + 0.5) / steps) * side(u!);
      q[v!]! += ((j + 0.5) / steps) * side(v!);
      const [dx, dy, dz] = [q[0]! - px, q[1]! - py, q[2]! - pz];
      const r = Math.hypot(dx, dy, dz);
      const toSky: Vector3 = [dx / r, dy / r, dz / r];
      lx += (luminance(cieType, toSky) * toSky[2] * Math.abs(toSky[axis])) / (r * r);
    }
  }
  return (100 * lx * side(u!) * side(v!)) / (steps * steps) / HORIZONTAL_LX.get(cieType)!;
}

function horizontalLx(cieType: number): number {
  const steps = 400;
  let lx = 0;
  for (let i = 0; i < steps; i++) {
    const zenith = ((i + 0.5) / steps) * (Math.PI / 2);
    for (let j = 0; j < steps; j++) {
      const round = ((j + 0.5) / steps) * 2 * Math.PI;
      const [s, z] = [Math.sin(zenith), Math.cos(zenith)];
      lx += luminance(cieType, [s * Math.cos(round), s * Math.sin(round), z]) * z * s;
    }
  }
  return (lx * Math.PI ** 2) / (steps * steps);
}

const HORIZONTAL_LX = new Map([5, 16, 1, 12].map((cieType) => [cieType, horizontalLx(cieType)]));

const PATCHES = 'the sky is kept as 577 even patches';
/** Skies in the order of the columns below. */
const SKIES: [name: string, cieType: number, within: number, cause: string][] = [
  ['uniform sky', 5, 2e-3, 'the sensor stands a millimetre above the floor'],
  ['traditional overcast sky', 16, 5e-3, PATCHES],
  ['overcast sky, type 1', 1, 5e-3, PATCHES],
  ['clear sky, type 12', 12, 2e-2, `${PATCHES}, steep at the sun`],
];

// biome-ignore format: a table
const TABLE: [name: string, Opening, point: string, expectedPct: [number, number, number, number]][] = [
  // Opening, place, sky component in per cent under: uniform, traditional overcast, type 1, type 12.
  ['roof 1 x 1 m', ROOF, 'middle', [3.4107, 4.359, 4.3559, 2.0195]],
  ['roof 1 x 1 m', ROOF, 'side', [2.2362, 2.6736, 2.7162, 1.2887]],
  ['roof 1 x 1 m', ROOF, 'corner', [1.5715, 1.7788, 1.8241, 0.65772]],
  ['façade 2 x 1 m', WINDOW, '.5 m', [6.9012, 8.183, 8.3194, 7.1129]],
  ['façade 2 x 1 m', WINDOW, '2 m', [4.3238, 3.9816, 4.0348, 14.384]],
  ['façade 2 x 1 m', WINDOW, '3.5 m', [1.4855, 1.1358, 1.0642, 4.9699]],
  ['façade 4 x 3 m', WHOLE_WALL, '.5 m', [39.158, 38.376, 38.362, 65.582]],
  ['façade 4 x 3 m', WHOLE_WALL, '2 m', [16.058, 14.251, 14.103, 40.71]],
  ['façade 4 x 3 m', WHOLE_WALL, '3.5 m', [6.6318, 5.2451, 5.0208, 20.569]],
];

const rows = TABLE.flatMap(([name, opening, point, expectedPct]) =>
  SKIES.map(([sky, cieType, within, cause], k): LightRow => {
    const what = `${name}, ${point}, ${sky}`;
    return [what, () => enginePct(opening, cieType, point), expectedPct[k]!, within, 'quadrature of the sky', cause];
  }),
);
checkTable('sky components of bare openings, per cent', rows);

describe('the expected sky components', () => {
  it('come out of a quadrature of the sky over the opening, to a part in ten thousand', () => {
    for (const [name, opening, point, expectedPct] of TABLE) {
      SKIES.forEach(([sky, cieType], k) => {
        const off = quadraturePct(opening, cieType, POINTS[point]!) / expectedPct[k]! - 1;
        expect(Math.abs(off), `${name}, ${point}, ${sky}`).toBeLessThan(1e-4);
      });
    }
  });
});
