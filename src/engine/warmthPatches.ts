/** Still things that a thermal camera tells from the room: radiators, sun on floor and desk tops, glass to the outside. */
import { sceneDistanceM } from './detection/scene.ts';
import type { Surroundings } from './detection/types.ts';
import { equivalentK, excessRadiance } from './heat/contrast.ts';
import { hypot3 } from './math.ts';
import { staticWarmPatches } from './people/people.ts';
import { rectangle } from './room/clip.ts';
import { flat, type SunNow, stillSurfaces } from './stillSurfaces.ts';
import type { Scenario, Setup, Vector3 } from './types.ts';

export interface WarmthPatch {
  /** A radiator's or window's id; for the sun, where it lies and through which window. */
  id: string;
  kind: 'radiator' | 'sunFloor' | 'sunTop' | 'window';
  contrastK: number;
  /** Flat outlines of what is drawn, corners in order: [x, y, z, x, y, z, …], room metres. */
  facesM: number[][];
  /** Where its number belongs. */
  middleM: Vector3;
  /** Share of it that the detector sees past furniture and screens, 0-1. */
  seenShare: number;
}

/** Smaller differences are not drawn, K. Assumed: half a kelvin, about what a hand-held thermal camera shows clearly. */
export const LEAST_PATCH_K = 0.5;
/** Rays end on a patch when they reach it to within this, m. Assumed: thicker than a screen, thinner than a reveal. */
const REACHED_M = 0.06;

/** Shares of the way from the middle to each corner that are tried. */
const TRIED = [0.3, 0.65, 0.92];

function reaches(s: Surroundings, p: Vector3): boolean {
  const [dx, dy, dz] = [p[0] - s.eyeM[0], p[1] - s.eyeM[1], p[2] - s.eyeM[2]];
  const far = hypot3(dx, dy, dz);
  return far > 0 && dz < 0 && sceneDistanceM(s, dx / far, dy / far, dz / far) > far - REACHED_M;
}

function middleOf(face: readonly number[]): Vector3 {
  const n = face.length / 3;
  const sum: Vector3 = [0, 0, 0];
  for (let k = 0; k < face.length; k++) sum[k % 3]! += face[k]! / n;
  return sum;
}

/** Share of points spread over the faces to which nothing bars the way from the detector. */
export function seenShareOf(s: Surroundings, facesM: readonly number[][]): number {
  let seen = 0;
  let tried = 0;
  for (const face of facesM) {
    const m = middleOf(face);
    for (let k = 0; k < face.length; k += 3) {
      for (const share of TRIED) {
        tried++;
        if (reaches(s, [0, 1, 2].map((a) => m[a]! + (face[k + a]! - m[a]!) * share) as Vector3)) seen++;
      }
    }
  }
  return tried === 0 ? 0 : seen / tried;
}

/** The four sides and the top of a box. */
function boxFaces(a: Vector3, b: Vector3): number[][] {
  const side = (x0: number, y0: number, x1: number, y1: number) => [
    ...[x0, y0, a[2], x1, y1, a[2]],
    ...[x1, y1, b[2], x0, y0, b[2]],
  ];
  return [
    flat(rectangle(a[0], a[1], b[0], b[1]), b[2]),
    side(a[0], a[1], b[0], a[1]),
    side(b[0], a[1], b[0], b[1]),
    side(b[0], b[1], a[0], b[1]),
    side(a[0], b[1], a[0], a[1]),
  ];
}

function radiators(setup: Setup, s: Surroundings): WarmthPatch[] {
  const roomC = setup.radiantTemperatureC;
  return staticWarmPatches(setup.warmThings).map(({ id, minM, maxM, excessK }) => {
    const facesM = boxFaces(minM, maxM);
    return {
      id,
      kind: 'radiator' as const,
      contrastK: equivalentK(excessRadiance(excessK, roomC), roomC),
      facesM,
      middleM: [(minM[0] + maxM[0]) / 2, (minM[1] + maxM[1]) / 2, maxM[2]] as Vector3,
      seenShare: Math.max(...facesM.map((face) => seenShareOf(s, [face]))),
    };
  });
}

/** Glass and sun, as sensing has them behind bodies. */
function surfaces(scenario: Scenario, setup: Setup, sun: SunNow, s: Surroundings): WarmthPatch[] {
  return stillSurfaces(scenario, setup, sun).map(({ id, kind, excess, faceM }) => ({
    id,
    kind,
    contrastK: equivalentK(excess, setup.radiantTemperatureC),
    facesM: [faceM],
    middleM: middleOf(faceM),
    seenShare: seenShareOf(s, [faceM]),
  }));
}

/** Everything still that differs from the room by LEAST_PATCH_K or more. */
export function warmthPatches(scenario: Scenario, setup: Setup, sun: SunNow, s: Surroundings): WarmthPatch[] {
  const all = [...radiators(setup, s), ...surfaces(scenario, setup, sun, s)];
  return all.filter((patch) => Math.abs(patch.contrastK) >= LEAST_PATCH_K);
}
