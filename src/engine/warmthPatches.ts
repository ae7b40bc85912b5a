/** Still things that a thermal camera tells from the room: radiators, sun on floor and desk tops, glass to the outside. */
import { sceneDistanceM } from './detection/scene.ts';
import type { Surroundings } from './detection/types.ts';
import { equivalentK, excessRadiance, glassInsideC, sunWarmedK } from './heat/contrast.ts';
import { THING_EMISSIVITY } from './heat/surfaces.ts';
import { glazingRatio } from './light/glass.ts';
import { cos, hypot3, sin } from './math.ts';
import { staticWarmPatches } from './people/people.ts';
import { roomBoxes } from './room/boxes.ts';
import { clipConvex, rectangle } from './room/clip.ts';
import { wallOpening } from './room/openings.ts';
import type { PointM, RoomSpec, Scenario, Setup, Vector3, WindowSpec } from './types.ts';
import { degToRad } from './units.ts';

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

/** Sunlight that lies on a window in its sky, as the light stage has it. */
export interface SunNow {
  altitudeDeg: number;
  /** Bearing in the room, clockwise from +y. */
  bearingDeg: number;
  directNormalLx: number;
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

function flat(outline: readonly PointM[], z: number): number[] {
  return outline.flatMap(([x, y]) => [x, y, z]);
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

/** Part of a window below its blind; null when the blind is down. */
function openPart(window: WindowSpec, setup: Setup): WindowSpec | null {
  const closed = setup.blinds.find((b) => b.windowId === window.id)?.closedShare ?? 0;
  const headM = window.headM - closed * (window.headM - window.sillM);
  return headM > window.sillM + 1e-3 ? { ...window, headM } : null;
}

function panes({ room, site }: Scenario, setup: Setup, s: Surroundings): WarmthPatch[] {
  const { outsideAirC } = site;
  if (outsideAirC === undefined) return [];
  const roomC = setup.radiantTemperatureC;
  const glassK = glassInsideC(setup.airTemperatureC, outsideAirC) - roomC;
  const contrastK = equivalentK(THING_EMISSIVITY * excessRadiance(glassK, roomC), roomC);
  return room.windows.flatMap((window) => {
    const open = openPart(window, setup);
    if (!open) return [];
    const { originM: o, uM: u, vM: v } = wallOpening(room, open);
    const corner = (a: number, b: number) => [0, 1, 2].map((k) => o[k]! + u[k]! * a + v[k]! * b);
    const face = [...corner(0, 0), ...corner(1, 0), ...corner(1, 1), ...corner(0, 1)];
    const facesM = [face];
    return [
      {
        id: window.id,
        kind: 'window' as const,
        contrastK,
        facesM,
        middleM: middleOf(face),
        seenShare: seenShareOf(s, facesM),
      },
    ];
  });
}

/** What the sun lights at height `zM` through a window and its reveal: both rims of the wall cut the beam. */
export function sunOnLevel(room: RoomSpec, window: WindowSpec, sun: SunNow, zM: number): PointM[] {
  const altitude = degToRad(sun.altitudeDeg);
  const bearing = degToRad(sun.bearingDeg);
  const to: Vector3 = [sin(bearing) * cos(altitude), cos(bearing) * cos(altitude), sin(altitude)];
  const { originM, uM, vM, normal } = wallOpening(room, window);
  if (window.headM <= zM || to[2] <= 0 || to[0] * normal[0] + to[1] * normal[1] >= 0) return [];
  const rim = (outM: number): PointM[] => {
    const at = (a: number, b: number): PointM => {
      const height = Math.max(originM[2] + vM[2] * b, zM) - zM;
      const x = originM[0] + uM[0] * a - normal[0] * outM;
      const y = originM[1] + uM[1] * a - normal[1] * outM;
      return [x - (to[0] / to[2]) * height, y - (to[1] / to[2]) * height];
    };
    return [at(0, 0), at(1, 0), at(1, 1), at(0, 1)];
  };
  const through = clipConvex(rim(0), rim(window.revealM));
  return clipConvex(through, rectangle(0, 0, room.widthM, room.depthM));
}

function sunLxOn(room: RoomSpec, window: WindowSpec, sun: SunNow): number {
  const { normal } = wallOpening(room, window);
  const altitude = degToRad(sun.altitudeDeg);
  const bearing = degToRad(sun.bearingDeg);
  const facing = -(sin(bearing) * normal[0] + cos(bearing) * normal[1]) * cos(altitude);
  const through = window.transmittance * window.frameFactor * window.dirtFactor * glazingRatio(facing);
  return sun.directNormalLx * through * sin(altitude);
}

function sunny({ room, site }: Scenario, setup: Setup, sun: SunNow, s: Surroundings): WarmthPatch[] {
  if (sun.altitudeDeg <= Math.max(0, site.obstructionAltitudeDeg)) return [];
  const roomC = setup.radiantTemperatureC;
  const tops = roomBoxes(room, setup.furniture).filter((box) => box.part === 'top');
  return room.windows.flatMap((window) => {
    const open = openPart(window, setup);
    if (!open) return [];
    const lx = sunLxOn(room, open, sun);
    const patch = (id: string, outline: PointM[], zM: number, reflectance: number): WarmthPatch[] => {
      if (outline.length === 0) return [];
      const excess = excessRadiance(sunWarmedK(lx, reflectance), roomC);
      const contrastK = equivalentK(THING_EMISSIVITY * excess, roomC);
      const facesM = [flat(outline, zM)];
      const kind = zM > 0 ? ('sunTop' as const) : ('sunFloor' as const);
      const base = { id: `${id} ${window.id}`, kind, contrastK, facesM };
      return [{ ...base, middleM: middleOf(facesM[0]!), seenShare: seenShareOf(s, facesM) }];
    };
    return [
      ...patch('floor', sunOnLevel(room, open, sun, 0), 0, setup.reflectance.floor),
      ...tops.flatMap(({ furnitureId, minM, maxM, reflectance }) => {
        const top = rectangle(minM[0], minM[1], maxM[0], maxM[1]);
        return patch(furnitureId, clipConvex(sunOnLevel(room, open, sun, maxM[2]), top), maxM[2], reflectance);
      }),
    ];
  });
}

/** Everything still that differs from the room by LEAST_PATCH_K or more. */
export function warmthPatches(scenario: Scenario, setup: Setup, sun: SunNow, s: Surroundings): WarmthPatch[] {
  const all = [...radiators(setup, s), ...panes(scenario, setup, s), ...sunny(scenario, setup, sun, s)];
  return all.filter((patch) => Math.abs(patch.contrastK) >= LEAST_PATCH_K);
}
