/**
 * Flat surfaces of the room that the sun or the cold outside keeps from the room's own temperature. The Warmth Map draws
 * them and sensing weighs bodies against them: one list for both.
 */
import { equivalentK, excessRadiance, glassInsideC, sunWarmedK } from './heat/contrast.ts';
import { THING_EMISSIVITY } from './heat/surfaces.ts';
import { glazingRatio } from './light/glass.ts';
import { cos, sin } from './math.ts';
import { roomBoxes } from './room/boxes.ts';
import { clipConvex, rectangle } from './room/clip.ts';
import { wallOpening } from './room/openings.ts';
import type { PointM, RoomSpec, Scenario, Setup, Vector3, WindowSpec } from './types.ts';
import { degToRad } from './units.ts';

export interface StillSurface {
  /** A window's id; for the sun, where it lies and through which window. */
  id: string;
  kind: 'sunFloor' | 'sunTop' | 'window';
  /** Radiance above that of the room's surfaces, W m-2 sr-1. */
  excess: number;
  /** Convex outline, corners in order: [x, y, z, x, y, z, …], room metres. */
  faceM: number[];
}

/** Sunlight that lies on a window in its sky, as the light stage has it. */
export interface SunNow {
  altitudeDeg: number;
  /** Bearing in the room, clockwise from +y. */
  bearingDeg: number;
  directNormalLx: number;
}

/** Surfaces nearer than this to the room are left out, K. Assumed: a fiftieth of what a person shows. */
const LEAST_SURFACE_K = 0.1;

export function flat(outline: readonly PointM[], z: number): number[] {
  return outline.flatMap(([x, y]) => [x, y, z]);
}

/** Part of a window below its blind; null when the blind is down. */
function openPart(window: WindowSpec, setup: Setup): WindowSpec | null {
  const closed = setup.blinds.find((b) => b.windowId === window.id)?.closedShare ?? 0;
  const headM = window.headM - closed * (window.headM - window.sillM);
  return headM > window.sillM + 1e-3 ? { ...window, headM } : null;
}

/** Radiance of a surface `excessK` from the room, part of which it sends back. */
function shown(excessK: number, setup: Setup): number {
  return THING_EMISSIVITY * excessRadiance(excessK, setup.radiantTemperatureC);
}

function panes({ room, site }: Scenario, setup: Setup): StillSurface[] {
  const { outsideAirC } = site;
  if (outsideAirC === undefined) return [];
  const excess = shown(glassInsideC(setup.airTemperatureC, outsideAirC) - setup.radiantTemperatureC, setup);
  return room.windows.flatMap((window) => {
    const open = openPart(window, setup);
    if (!open) return [];
    const { originM: o, uM: u, vM: v } = wallOpening(room, open);
    const corner = (a: number, b: number) => [0, 1, 2].map((k) => o[k]! + u[k]! * a + v[k]! * b);
    const faceM = [...corner(0, 0), ...corner(1, 0), ...corner(1, 1), ...corner(0, 1)];
    return [{ id: window.id, kind: 'window' as const, excess, faceM }];
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

function sunny({ room, site }: Scenario, setup: Setup, sun: SunNow): StillSurface[] {
  if (sun.directNormalLx === 0 || sun.altitudeDeg <= Math.max(0, site.obstructionAltitudeDeg)) return [];
  const tops = roomBoxes(room, setup.furniture).filter((box) => box.part === 'top');
  return room.windows.flatMap((window) => {
    const open = openPart(window, setup);
    if (!open) return [];
    const lx = sunLxOn(room, open, sun);
    const surface = (where: string, outline: PointM[], zM: number, reflectance: number): StillSurface[] => {
      if (outline.length === 0) return [];
      const kind = zM > 0 ? 'sunTop' : 'sunFloor';
      const excess = shown(sunWarmedK(lx, reflectance), setup);
      return [{ id: `${where} ${window.id}`, kind, excess, faceM: flat(outline, zM) }];
    };
    return [
      ...surface('floor', sunOnLevel(room, open, sun, 0), 0, setup.reflectance.floor),
      ...tops.flatMap(({ furnitureId, minM, maxM, reflectance }) => {
        const top = rectangle(minM[0], minM[1], maxM[0], maxM[1]);
        return surface(furnitureId, clipConvex(sunOnLevel(room, open, sun, maxM[2]), top), maxM[2], reflectance);
      }),
    ];
  });
}

/** Cold or warm glass, and what the sun lies on. */
export function stillSurfaces(scenario: Scenario, setup: Setup, sun: SunNow): StillSurface[] {
  return [...panes(scenario, setup), ...sunny(scenario, setup, sun)].filter(
    ({ excess }) => Math.abs(equivalentK(excess, setup.radiantTemperatureC)) >= LEAST_SURFACE_K,
  );
}
