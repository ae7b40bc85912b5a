/** From the section's metres to the paper, and the words for its parts. Pure. */
import type { SectionCell, SideSection } from '../../../engine/detection/sideSection.ts';
import {
  type FurnitureSpec,
  NUMBERS_PER_PART,
  PARTS_PER_BODY,
  type PointM,
  type RoomSpec,
  type WallId,
} from '../../../engine/types.ts';
import { furnitureName, sectionMetres, sectionWords } from '../../../report/text/section.ts';

/** Room for row names at the left, and around the drawing, px. */
const SIDE_PX = 112;
const RIGHT_PX = 16;
const TOP_PX = 16;
/** Height of a row of distances below the floor, px. */
const ROW_PX = 21;
/** Under this width the names of the rows stand over them, px. */
const NARROW_PX = 460;

export interface SectionScale {
  pxPerM: number;
  /** Names of the rows stand over them. */
  narrow: boolean;
  widthPx: number;
  heightPx: number;
  x: (alongM: number) => number;
  y: (upM: number) => number;
}

/** The largest section that fits the width and height. */
export function sectionScale(section: SideSection, widthPx: number, mostPx: number): SectionScale {
  const spanM = Math.max(0.5, section.alongM[1] - section.alongM[0]);
  const narrow = widthPx < NARROW_PX;
  const side = narrow ? RIGHT_PX : SIDE_PX;
  const rowsPx = ROW_PX * (narrow ? 4 : 2) + 8;
  const free = widthPx - side - RIGHT_PX;
  const pxPerM = Math.max(8, Math.min(free / spanM, (mostPx - TOP_PX - rowsPx) / section.heightM));
  const left = side + (free - spanM * pxPerM) / 2;
  const floorPx = TOP_PX + section.heightM * pxPerM;
  return {
    pxPerM,
    narrow,
    widthPx,
    heightPx: floorPx + rowsPx,
    x: (alongM) => left + (alongM - section.alongM[0]) * pxPerM,
    y: (upM) => floorPx - upM * pxPerM,
  };
}

/** Base lines of the two rows and of their names, px. */
export function rowLines(scale: SectionScale): { name: number; row: number }[] {
  const first = scale.y(0) + ROW_PX;
  return [0, 1].map((k) =>
    scale.narrow
      ? { name: first + 2 * k * ROW_PX, row: first + (2 * k + 1) * ROW_PX }
      : { name: first + k * ROW_PX, row: first + k * ROW_PX },
  );
}

/** Which wall the plane meets at a signed distance from the detector. */
export function wallAt(room: RoomSpec, eyeM: PointM, bearingDeg: number, alongM: number): WallId {
  const rad = (bearingDeg * Math.PI) / 180;
  const x = eyeM[0] + Math.sin(rad) * alongM;
  const y = eyeM[1] + Math.cos(rad) * alongM;
  const off: [WallId, number][] = [
    ['left', Math.abs(x)],
    ['right', Math.abs(room.widthM - x)],
    ['front', Math.abs(y)],
    ['back', Math.abs(room.depthM - y)],
  ];
  return off.reduce((best, next) => (next[1] < best[1] ? next : best))[0];
}

export interface RowNumber {
  x: number;
  text: string;
}

/** Distances of the middles of the cells that have room beside their neighbours, px; only inside the walls. */
export function rowNumbers(section: SideSection, scale: SectionScale, which: 'floorM' | 'deskM'): RowNumber[] {
  const [from, to] = section.alongM;
  const middles = section.cells
    .map((cell) => (cell[which][0] + cell[which][1]) / 2)
    .filter((m) => m > from && m < to)
    .sort((a, b) => Math.abs(a) - Math.abs(b));
  const kept: RowNumber[] = [];
  for (const m of middles) {
    const x = scale.x(m);
    // Three figures of 14 px and a gap.
    if (kept.every((other) => Math.abs(other.x - x) >= 29)) kept.push({ x, text: sectionMetres(m) });
  }
  return kept;
}

/** How near to an edge an end counts as lying on it, m. */
const TOUCH_M = 0.02;

/** What a cell's outer edge ends on. */
export function endsOn(cell: SectionCell, section: SideSection, furniture: readonly FurnitureSpec[]): string {
  if (cell.onFloor) return sectionWords.floorWord;
  const [along, up] = Math.abs(cell.edgesRad[0]) > Math.abs(cell.edgesRad[1]) ? cell.endsM : cell.endsM.slice(2);
  const box = section.boxes.find(
    ({ alongM, upM }) =>
      along! > alongM[0] - TOUCH_M && along! < alongM[1] + TOUCH_M && up! > upM[0] - TOUCH_M && up! < upM[1] + TOUCH_M,
  );
  const piece = furniture.find((f) => f.id === box?.furnitureId);
  if (piece) return furnitureName[piece.kind];
  return up! < TOUCH_M ? sectionWords.floorWord : sectionWords.wallAt(sectionMetres(up!));
}

/** Bodies farther than this from the plane are not drawn in it, m. Assumed: somebody's reach. */
const NEAR_M = 0.6;

export interface SectionFigure {
  /** Ellipses: along, up, half axes, turn from along towards up. */
  ellipses: { along: number; up: number; a: number; b: number; turnRad: number }[];
  along: number;
  topM: number;
}

/** A body's ellipsoids thrown square onto the plane; null when it stands too far from it. */
export function figureInSection(
  parts: ArrayLike<number>,
  body: number,
  eyeM: PointM,
  bearingDeg: number,
): SectionFigure | null {
  const rad = (bearingDeg * Math.PI) / 180;
  const [s, c] = [Math.sin(rad), Math.cos(rad)];
  const ellipses: SectionFigure['ellipses'] = [];
  let [off, along, topM] = [0, 0, 0];
  for (let part = 0; part < PARTS_PER_BODY; part++) {
    const k = (body * PARTS_PER_BODY + part) * NUMBERS_PER_PART;
    let [aa, az, zz] = [0, 0, 0];
    for (let axis = k + 3; axis < k + NUMBERS_PER_PART; axis += 3) {
      const a = parts[axis]! * s + parts[axis + 1]! * c;
      aa += a * a;
      az += a * parts[axis + 2]!;
      zz += parts[axis + 2]! ** 2;
    }
    if (aa + zz === 0) continue;
    const [dx, dy] = [parts[k]! - eyeM[0], parts[k + 1]! - eyeM[1]];
    const at = { along: dx * s + dy * c, up: parts[k + 2]! };
    const spread = Math.hypot((aa - zz) / 2, az);
    const half = (v: number) => Math.sqrt(Math.max(0, v));
    const middle = (aa + zz) / 2;
    const ellipse = { a: half(middle + spread), b: half(middle - spread), turnRad: Math.atan2(2 * az, aa - zz) / 2 };
    ellipses.push({ ...at, ...ellipse });
    off += dx * c - dy * s;
    along += at.along;
    topM = Math.max(topM, at.up + half(zz));
  }
  const n = ellipses.length;
  return n === 0 || Math.abs(off / n) > NEAR_M ? null : { ellipses, along: along / n, topM };
}
