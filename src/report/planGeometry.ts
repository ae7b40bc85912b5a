/** Room metres to plan pixels and back; the flat patches of sun. */
import { CORRIDOR_M } from '../engine/room/corridor.ts';
import { type Floor, onWall } from '../engine/room/walls.ts';
import type { PointM, RoomSpec, Scenario, Setup, WallId, WindowSpec } from '../engine/types.ts';

export interface PlanScale {
  pxPerM: number;
  /** Room origin (front left corner) in px. */
  originX: number;
  originY: number;
  x: (xM: number) => number;
  y: (yM: number) => number;
}

/** Thickness of the cut walls on paper, m. Assumed: reads as a wall at every size; not the wall's own thickness. */
export const WALL_M = 0.26;

/** What is drawn outside the room on its left, right, front and back, m: a wall, or a corridor behind it. */
function marginsM(corridors: readonly WallId[]): Record<WallId, number> {
  const m = (wall: WallId) => (corridors.includes(wall) ? CORRIDOR_M : WALL_M);
  return { left: m('left'), right: m('right'), front: m('front'), back: m('back') };
}

/** Width and depth of the whole plan: the room, its walls and the corridors that are used, m. */
export function planSizeM(room: Pick<RoomSpec, 'widthM' | 'depthM'>, corridors: readonly WallId[]): [number, number] {
  const { left, right, front, back } = marginsM(corridors);
  return [room.widthM + left + right, room.depthM + front + back];
}

/** The largest plan that fits the box, walls included; `corridors`: walls outside which somebody walks. */
export function planScale(
  room: Pick<RoomSpec, 'widthM' | 'depthM'>,
  widthPx: number,
  heightPx: number,
  corridors: readonly WallId[] = [],
): PlanScale {
  const [wholeW, wholeD] = planSizeM(room, corridors);
  const { left, right, front, back } = marginsM(corridors);
  const pxPerM = Math.max(1, Math.min(widthPx / wholeW, heightPx / wholeD));
  const originX = (widthPx - room.widthM * pxPerM + (left - right) * pxPerM) / 2;
  const originY = (heightPx + room.depthM * pxPerM + (back - front) * pxPerM) / 2;
  return { pxPerM, originX, originY, x: (xM) => originX + xM * pxPerM, y: (yM) => originY - yM * pxPerM };
}

export function toRoom(scale: PlanScale, xPx: number, yPx: number): PointM {
  return [(xPx - scale.originX) / scale.pxPerM, (scale.originY - yPx) / scale.pxPerM];
}

/** Ends of a stretch of a wall in plan, on its inner face. */
export function wallEnds(room: Floor, o: { wall: WallId; fromM: number; widthM: number }): [PointM, PointM] {
  return [onWall(room, o.wall, o.fromM), onWall(room, o.wall, o.fromM + o.widthM)];
}

export interface SunPlace {
  altitudeDeg: number;
  bearingDeg: number;
  directNormalLx: number;
}

/** Sun under this altitude throws no patch worth drawing: its light runs flat along the room, deg. Assumed. */
const LOWEST_SUN_DEG = 1;
/** Under this direct light a patch cannot be seen beside the sky's light, lx. Assumed. */
const LEAST_DIRECT_LX = 500;

/** Floor outline of the sun through a window, room metres; null when the sun is not on it. Drawing only. */
export function sunPatch(
  room: Pick<RoomSpec, 'widthM' | 'depthM'>,
  window: WindowSpec,
  sun: SunPlace,
): PointM[] | null {
  if (sun.altitudeDeg < LOWEST_SUN_DEG || sun.directNormalLx < LEAST_DIRECT_LX) return null;
  const rad = Math.PI / 180;
  const toSunX = Math.sin(sun.bearingDeg * rad);
  const toSunY = Math.cos(sun.bearingDeg * rad);
  const outward = { back: [0, 1], front: [0, -1], left: [-1, 0], right: [1, 0] }[window.wall] as [number, number];
  if (toSunX * outward[0] + toSunY * outward[1] <= 0.02) return null;
  const run = 1 / Math.tan(sun.altitudeDeg * rad);
  const [a, b] = wallEnds(room, window);
  const shadow = (p: PointM, zM: number): PointM => [p[0] - toSunX * run * zM, p[1] - toSunY * run * zM];
  return [shadow(a, window.sillM), shadow(b, window.sillM), shadow(b, window.headM), shadow(a, window.headM)];
}

/**
 * Flat patches where the sun falls on the floor, room metres: through what the blinds leave free (they come down from
 * the top), none while the sun stands behind what is built opposite. Pure geometry: what furniture and the depth of
 * the reveals shade is left out, about the reveal's depth at each edge.
 */
export function sunPatchesM(
  { room, site }: Pick<Scenario, 'room' | 'site'>,
  blinds: Setup['blinds'],
  sun: SunPlace,
): PointM[][] {
  if (sun.altitudeDeg < site.obstructionAltitudeDeg) return [];
  return room.windows.flatMap((window) => {
    const closed = blinds.find((b) => b.windowId === window.id)?.closedShare ?? 0;
    const headM = window.headM - closed * (window.headM - window.sillM);
    const patch = headM > window.sillM ? sunPatch(room, { ...window, headM }, sun) : null;
    return patch ? [patch] : [];
  });
}
