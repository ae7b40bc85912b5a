/** Floor, inner wall faces with their openings, reveals, frames and sills. */
import { onWall, wallLengthM } from '../../../engine/room/walls.ts';
import type { DoorSpec, RoomSpec, Vector3, WallId, WindowSpec } from '../../../engine/types.ts';
import type { AtlasSlot, FieldAtlas } from '../light/fieldAtlas.ts';
import { type Builder, box, CUBE, type LightFrom, type Paint, polygon } from './builder.ts';
import { MATERIAL, tinted } from './palette.ts';

/** Height at which the walls behind are cut, m; and the walls in front. Values: `look`; chosen so that the room opens to the eye. */
export const TALL_CUT_M = 2.74;
export const LOW_CUT_M = 0.42;
/** Wall thickness, m. Value: `look`; the picture's only, the light calculation has its own reveals. */
export const WALL_M = 0.26;

export function cutHeightM(room: RoomSpec, wall: WallId): number {
  const cut = wall === 'back' || wall === 'left' ? TALL_CUT_M : LOW_CUT_M;
  return Math.min(cut, room.heightM);
}

export interface Gap {
  fromM: number;
  toM: number;
  sillM: number;
  headM: number;
  window: WindowSpec | null;
  door: DoorSpec | null;
}

export function wallGaps(room: RoomSpec, wall: WallId): Gap[] {
  const windows: Gap[] = room.windows
    .filter((w) => w.wall === wall)
    .map((w) => ({ fromM: w.fromM, toM: w.fromM + w.widthM, sillM: w.sillM, headM: w.headM, window: w, door: null }));
  const doors: Gap[] = room.doors
    .filter((d) => d.wall === wall)
    .map((d) => ({ fromM: d.fromM, toM: d.fromM + d.widthM, sillM: 0, headM: d.headM, window: null, door: d }));
  return [...windows, ...doors].sort((a, b) => a.fromM - b.fromM);
}

/** Wall coordinates (along, into the wall, up) to room metres, and whether this mapping mirrors. */
export function wallFrame(
  room: RoomSpec,
  wall: WallId,
): { lengthM: number; at: (a: number, d: number, z: number) => Vector3; mirrored: boolean } {
  const at = (a: number, d: number, z: number): Vector3 => [...onWall(room, wall, a, d), z];
  return { lengthM: wallLengthM(room, wall), at, mirrored: wall === 'front' || wall === 'right' };
}

/** A quad given in wall coordinates, facing the room when listed as seen from inside for an unmirrored wall. */
export function wallQuad(b: Builder, frame: ReturnType<typeof wallFrame>, points: Vector3[], paint: Paint): void {
  const world = points.map(([a, d, z]) => frame.at(a, d, z));
  polygon(b, frame.mirrored ? world.reverse() : world, paint);
}

/** Rectangles of solid wall between 0 and `top`, as [from, to, low, high]. */
export function solidParts(gaps: Gap[], lengthM: number, top: number): [number, number, number, number][] {
  const parts: [number, number, number, number][] = [];
  let from = 0;
  for (const gap of gaps) {
    if (gap.fromM > from) parts.push([from, gap.fromM, 0, top]);
    if (gap.sillM > 0) parts.push([gap.fromM, gap.toM, 0, Math.min(gap.sillM, top)]);
    if (gap.headM < top) parts.push([gap.fromM, gap.toM, gap.headM, top]);
    from = gap.toM;
  }
  if (from < lengthM) parts.push([from, lengthM, 0, top]);
  return parts;
}

function lightOf(slot: AtlasSlot | undefined): LightFrom {
  return slot ? { kind: 'slot', slot } : CUBE;
}

export function buildFloor(b: Builder, atlas: FieldAtlas, room: RoomSpec, reflectance: number): void {
  const paint: Paint = { color: tinted(MATERIAL.floor, reflectance), light: lightOf(atlas.byKind.floor), map: true };
  polygon(
    b,
    [
      [0, 0, 0],
      [room.widthM, 0, 0],
      [room.widthM, room.depthM, 0],
      [0, room.depthM, 0],
    ],
    paint,
  );
}

export function buildInnerWall(b: Builder, atlas: FieldAtlas, room: RoomSpec, wall: WallId, reflectance: number): void {
  const frame = wallFrame(room, wall);
  const gaps = wallGaps(room, wall);
  const top = cutHeightM(room, wall);
  const paint: Paint = { color: tinted(MATERIAL.wall, reflectance), light: lightOf(atlas.byKind[wall]) };
  for (const [a0, a1, z0, z1] of solidParts(gaps, frame.lengthM, top)) {
    wallQuad(
      b,
      frame,
      [
        [a0, 0, z0],
        [a1, 0, z0],
        [a1, 0, z1],
        [a0, 0, z1],
      ],
      paint,
    );
  }
  for (const gap of gaps) {
    if (gap.window && gap.sillM < top) buildWindow(b, frame, gap, top, paint);
    if (gap.door) buildDoorway(b, frame, gap, top, paint);
  }
}

/** Sides, underside and bottom of an opening `deep` into the wall. */
function buildReveal(
  b: Builder,
  frame: ReturnType<typeof wallFrame>,
  gap: Gap,
  top: number,
  deep: number,
  wallPaint: Paint,
): void {
  const { fromM: a0, toM: a1, sillM: z0 } = gap;
  const z1 = Math.min(gap.headM, top);
  const paint: Paint = { color: wallPaint.color, light: CUBE };
  wallQuad(
    b,
    frame,
    [
      [a0, 0, z0],
      [a0, deep, z0],
      [a0, deep, z1],
      [a0, 0, z1],
    ].reverse() as Vector3[],
    paint,
  );
  wallQuad(
    b,
    frame,
    [
      [a1, 0, z0],
      [a1, deep, z0],
      [a1, deep, z1],
      [a1, 0, z1],
    ] as Vector3[],
    paint,
  );
  if (gap.headM <= top)
    wallQuad(
      b,
      frame,
      [
        [a0, 0, z1],
        [a0, deep, z1],
        [a1, deep, z1],
        [a1, 0, z1],
      ].reverse() as Vector3[],
      paint,
    );
  wallQuad(
    b,
    frame,
    [
      [a0, 0, z0],
      [a0, deep, z0],
      [a1, deep, z0],
      [a1, 0, z0],
    ].reverse() as Vector3[],
    gap.door ? { color: tinted(MATERIAL.floor, 0.4), light: CUBE } : paint,
  );
}

function wallBox(b: Builder, frame: ReturnType<typeof wallFrame>, from: Vector3, to: Vector3, paint: Paint): void {
  const p = frame.at(...from);
  const q = frame.at(...to);
  box(b, [Math.min(p[0], q[0]), Math.min(p[1], q[1]), p[2]], [Math.max(p[0], q[0]), Math.max(p[1], q[1]), q[2]], paint);
}

/** Width of frame members, m. Assumed: ordinary; they are drawn only, the glass share is the scenario's frame factor. */
const BAR_M = 0.055;

function buildWindow(b: Builder, frame: ReturnType<typeof wallFrame>, gap: Gap, top: number, wallPaint: Paint): void {
  const deep = Math.max(gap.window!.revealM, 0.06);
  buildReveal(b, frame, gap, top, deep, wallPaint);
  const bar: Paint = { color: MATERIAL.frame, light: CUBE };
  const z1 = Math.min(gap.headM, top);
  const cut = gap.headM > top;
  const d0 = deep - 0.05;
  const upright = (a: number) => wallBox(b, frame, [a - BAR_M / 2, d0, gap.sillM], [a + BAR_M / 2, deep, z1], bar);
  const level = (z: number) => wallBox(b, frame, [gap.fromM, d0, z - BAR_M / 2], [gap.toM, deep, z + BAR_M / 2], bar);
  const panes = Math.max(1, Math.round((gap.toM - gap.fromM) / 1.05));
  for (let i = 0; i <= panes; i++) {
    const inset = i === 0 ? BAR_M / 2 : i === panes ? -BAR_M / 2 : 0;
    upright(gap.fromM + inset + ((gap.toM - gap.fromM) * i) / panes);
  }
  level(gap.sillM + BAR_M / 2);
  const transom = gap.sillM + (gap.headM - gap.sillM) * 0.7;
  if (transom < z1) level(transom);
  if (!cut) level(z1 - BAR_M / 2);
  const board: Paint = { color: tinted(MATERIAL.wall, 0.82), light: CUBE };
  wallBox(b, frame, [gap.fromM - 0.06, -0.09, gap.sillM - 0.035], [gap.toM + 0.06, 0.01, gap.sillM], board);
}

function buildDoorway(b: Builder, frame: ReturnType<typeof wallFrame>, gap: Gap, top: number, wallPaint: Paint): void {
  buildReveal(b, frame, gap, top, WALL_M, wallPaint);
  const trim: Paint = { color: tinted(MATERIAL.door, 0.3), light: CUBE };
  const z1 = Math.min(gap.headM, top);
  wallBox(b, frame, [gap.fromM - 0.06, -0.02, 0], [gap.fromM, 0.01, z1], trim);
  wallBox(b, frame, [gap.toM, -0.02, 0], [gap.toM + 0.06, 0.01, z1], trim);
  if (gap.headM < top) wallBox(b, frame, [gap.fromM - 0.06, -0.02, z1], [gap.toM + 0.06, 0.01, z1 + 0.06], trim);
}

/** A blind hangs from the head as far as it is closed: fabric of the window's width, just inside the frame. */
export function buildBlinds(
  b: Builder,
  room: RoomSpec,
  blinds: readonly { windowId: string; closedShare: number }[],
): void {
  const paint: Paint = { color: tinted(MATERIAL.wall, 0.6), light: CUBE };
  for (const w of room.windows) {
    const share = blinds.find((blind) => blind.windowId === w.id)?.closedShare ?? 0;
    const top = Math.min(w.headM, cutHeightM(room, w.wall));
    const bottom = Math.max(w.headM - (w.headM - w.sillM) * share, w.sillM);
    if (share <= 0 || bottom >= top) continue;
    const d = Math.max(w.revealM, 0.06) - 0.07;
    const from: Vector3 = [w.fromM + 0.01, d, bottom];
    wallBox(b, wallFrame(room, w.wall), from, [w.fromM + w.widthM - 0.01, d + 0.012, top], paint);
  }
}

/** Leaf thickness, m. */
const LEAF_M = 0.045;

/** The leaf of a door, hinged at the side away from the viewer; open: swung into the room by 80 degrees. */
export function buildDoorLeaf(b: Builder, room: RoomSpec, door: DoorSpec, open: boolean): void {
  const frame = wallFrame(room, door.wall);
  const paint: Paint = { color: tinted(MATERIAL.door, 0.48), light: CUBE };
  const top = Math.min(door.headM, cutHeightM(room, door.wall)) - 0.01;
  const hinge = door.fromM + door.widthM;
  const swing = open ? (80 * Math.PI) / 180 : 0;
  const along = [-Math.cos(swing), -Math.sin(swing)] as const;
  const thick = [-Math.sin(swing), Math.cos(swing)] as const;
  const at = (u: number, v: number, z: number): Vector3 =>
    frame.at(hinge + along[0] * u + thick[0] * v, along[1] * u + thick[1] * v, z);
  const w = door.widthM - 0.01;
  const quad = (points: Vector3[]) => polygon(b, frame.mirrored ? points : points.reverse(), paint);
  const [v0, v1] = [0, LEAF_M];
  quad([at(0, v0, 0), at(w, v0, 0), at(w, v0, top), at(0, v0, top)].reverse());
  quad([at(0, v1, 0), at(w, v1, 0), at(w, v1, top), at(0, v1, top)]);
  quad([at(w, v0, 0), at(w, v1, 0), at(w, v1, top), at(w, v0, top)].reverse());
  quad([at(0, v0, 0), at(0, v1, 0), at(0, v1, top), at(0, v0, top)]);
  quad([at(0, v0, top), at(w, v0, top), at(w, v1, top), at(0, v1, top)].reverse());
}
