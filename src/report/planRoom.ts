/** What stands still in the plan: cut walls, windows, doors, furniture, and the sun on the floor. */
import { corridorStrip } from '../engine/room/corridor.ts';
import type { FurnitureSpec, PointM, RoomSpec, WallId } from '../engine/types.ts';
import type { RoomMoment } from './moment.ts';
import type { Palette } from './palette.ts';
import { type PlanScale, sunPatchesM, WALL_M, wallEnds } from './planGeometry.ts';
import { HALO, line, n2, outline, tag, text } from './svg.ts';
import { en } from './text/en.ts';

/** Least thickness of a screen on paper, m. Assumed: thinner cannot be seen. */
const SHEET_M = 0.05;

export interface PlanPaper {
  scale: PlanScale;
  palette: Palette;
}

export interface FloorPx {
  x: number;
  y: number;
  width: number;
  height: number;
}

/** The floor between the walls, px. */
export function floorBox(room: RoomSpec, scale: PlanScale): FloorPx {
  const width = room.widthM * scale.pxPerM;
  const height = room.depthM * scale.pxPerM;
  return { x: scale.x(0), y: scale.y(room.depthM), width, height };
}

/** Floor of the corridors in which somebody walks, dashed where it goes on. */
export function corridors(room: RoomSpec, used: readonly WallId[], { scale, palette }: PlanPaper): string[] {
  return used.map((wall) => {
    const { minM, maxM } = corridorStrip(room, wall);
    const [x, y] = [scale.x(minM[0]), scale.y(maxM[1])];
    const size = { width: scale.x(maxM[0]) - x, height: scale.y(minM[1]) - y };
    return tag('rect', { x, y, ...size, fill: '#FFFFFF', stroke: palette.soft, 'stroke-dasharray': '7 5' });
  });
}

/** Cut walls in ink, and the floor, which everything else is cut at. */
export function walls(room: RoomSpec, { scale, palette }: PlanPaper): string[] {
  const wall = WALL_M * scale.pxPerM;
  const floor = floorBox(room, scale);
  const { x, y, width, height } = floor;
  return [
    tag('clipPath', { id: 'floor' }, tag('rect', { ...floor })),
    tag('rect', {
      x: x - wall,
      y: y - wall,
      width: width + 2 * wall,
      height: height + 2 * wall,
      fill: palette.ink,
    }),
    tag('rect', { ...floor, fill: '#FFFFFF' }),
  ];
}

/** The patches, cut at the walls. */
export function sunOnFloor(moment: RoomMoment, { scale, palette }: PlanPaper): string[] {
  const { scenario, setup, frame } = moment;
  const patches = sunPatchesM(scenario, setup.blinds, frame.sun).map((patch) =>
    patch.map(([x, y]): PointM => [scale.x(x), scale.y(y)]),
  );
  if (patches.length === 0) return [];
  const d = patches.map(outline).join('');
  if (palette.sun) return [tag('path', { d, fill: palette.sun, 'clip-path': 'url(#floor)' })];
  const named = sunName(patches, floorBox(moment.scenario.room, scale));
  return [
    line(d, palette.soft, 1.8, { 'stroke-dasharray': '2 5', 'clip-path': 'url(#floor)' }),
    ...(named ? [text(...named, en.draw.sun, { 'text-anchor': 'middle', fill: palette.soft, ...HALO })] : []),
  ];
}

/** Middle of the first patch that lies well inside the floor; null when none does. */
function sunName(patches: readonly (readonly PointM[])[], floor: FloorPx): PointM | null {
  const inside = ([x, y]: PointM): boolean =>
    x > floor.x + 24 && x < floor.x + floor.width - 24 && y > floor.y + 20 && y < floor.y + floor.height - 10;
  const middles = patches.map((patch): PointM => {
    const [a, , c] = patch;
    return [(a![0] + c![0]) / 2, (a![1] + c![1]) / 2];
  });
  return middles.find(inside) ?? null;
}

/** Rectangle of an opening through its wall, px. */
function throughWall(room: RoomSpec, scale: PlanScale, o: { wall: WallId; fromM: number; widthM: number }) {
  const [a, b] = wallEnds(room, o);
  const wall = WALL_M * scale.pxPerM;
  const along = o.wall === 'back' || o.wall === 'front';
  const x = Math.min(scale.x(a[0]), scale.x(b[0])) - (o.wall === 'left' ? wall : 0);
  const y = Math.min(scale.y(a[1]), scale.y(b[1])) - (o.wall === 'back' ? wall : 0);
  const length = o.widthM * scale.pxPerM;
  return { x, y, width: along ? length : wall, height: along ? wall : length };
}

/** Frames with a line of glass; a thick dashed line where a blind is down. */
export function windows({ scenario, setup }: RoomMoment, { scale, palette }: PlanPaper): string[] {
  const { room } = scenario;
  return room.windows.flatMap((window) => {
    const box = throughWall(room, scale, window);
    const along = window.wall === 'back' || window.wall === 'front';
    const middle = along
      ? `M${n2(box.x)} ${n2(box.y + box.height / 2)}h${n2(box.width)}`
      : `M${n2(box.x + box.width / 2)} ${n2(box.y)}v${n2(box.height)}`;
    const closed = setup.blinds.find((b) => b.windowId === window.id)?.closedShare ?? 0;
    const glass =
      closed > 0 ? line(middle, palette.ink, 5, { 'stroke-dasharray': '7 4' }) : line(middle, palette.ink, 1.5);
    return [tag('rect', { ...box, fill: '#FFFFFF', stroke: palette.ink, 'stroke-width': 1.5 }), glass];
  });
}

/** Doorways with their leaf as it stands and the way it swings. */
export function doors({ scenario, setup }: RoomMoment, { scale, palette }: PlanPaper): string[] {
  const { room } = scenario;
  return room.doors.flatMap((door) => {
    const open = setup.doors.find((d) => d.doorId === door.id)?.open ?? door.openAtStart;
    const [a, b] = wallEnds(room, door);
    const inward = door.wall === 'left' || door.wall === 'front' ? 1 : -1;
    const along = door.wall === 'back' || door.wall === 'front';
    // The leaf hangs at the far end of the opening and swings into the room.
    const swung: PointM = along ? [b[0], b[1] + inward * door.widthM] : [b[0] + inward * door.widthM, b[1]];
    const at = (p: PointM): string => `${n2(scale.x(p[0]))} ${n2(scale.y(p[1]))}`;
    const r = n2(door.widthM * scale.pxPerM);
    const sweep = (along ? inward > 0 : inward < 0) ? 0 : 1;
    const ajar = open ? swung : a;
    return [
      tag('rect', { ...throughWall(room, scale, door), fill: '#FFFFFF' }),
      line(`M${at(a)}A${r} ${r} 0 0 ${sweep === 1 ? 0 : 1} ${at(swung)}`, palette.soft, 1.3, {
        'stroke-dasharray': '3 4',
      }),
      line(`M${at(b)}L${at(ajar)}`, palette.ink, 4),
    ];
  });
}

/** Chairs first: they stand half under the tables. */
export function furniture(pieces: readonly FurnitureSpec[], paper: PlanPaper): string[] {
  const chairs = pieces.filter((piece) => piece.kind === 'chair');
  return [...chairs, ...pieces.filter((piece) => piece.kind !== 'chair')].map((piece) => onePiece(piece, paper));
}

function onePiece(piece: FurnitureSpec, { scale, palette }: PlanPaper): string {
  const w = piece.widthM * scale.pxPerM;
  const d = piece.depthM * scale.pxPerM;
  const stroke = { stroke: palette.ink, 'stroke-width': 1.4 };
  const box = { x: -w / 2, y: -d / 2, width: w, height: d };
  const sheet = { x: -w / 2, y: (-SHEET_M * scale.pxPerM) / 2, width: w, height: SHEET_M * scale.pxPerM };
  const place = `translate(${n2(scale.x(piece.atM[0]))} ${n2(scale.y(piece.atM[1]))}) rotate(${piece.turnDeg})`;
  const glassy = { fill: '#FFFFFF', 'fill-opacity': 0.72, ...stroke };
  switch (piece.kind) {
    case 'chair': {
      const seat = tag('rect', { ...box, rx: Math.min(w, d) * 0.28, fill: '#FFFFFF', ...stroke });
      const back = line(`M${n2(-w * 0.36)} ${n2(d / 2 - 3)}h${n2(w * 0.72)}`, palette.ink, 1.4);
      return tag('g', { transform: place }, seat + back);
    }
    case 'screen':
    case 'whiteboard':
      return tag('rect', { ...sheet, fill: palette.ink, transform: place });
    case 'glassScreen':
      return tag('rect', { ...sheet, fill: '#FFFFFF', ...stroke, 'stroke-dasharray': '4 2', transform: place });
    case 'shelf': {
      const boards = line(
        `M${n2(-w / 6)} ${n2(-d / 2)}v${n2(d)}M${n2(w / 6)} ${n2(-d / 2)}v${n2(d)}`,
        palette.ink,
        1.2,
      );
      return tag('g', { transform: place }, tag('rect', { ...box, ...glassy }) + boards);
    }
    case 'plant': {
      const leaf = { cy: -w * 0.3, rx: w * 0.16, ry: w * 0.26, fill: '#FFFFFF', ...stroke };
      const leaves = [0, 60, 120, 180, 240, 300].map((deg) => tag('ellipse', { ...leaf, transform: `rotate(${deg})` }));
      return tag('g', { transform: place }, leaves.join(''));
    }
    default:
      return tag('rect', { ...box, ...glassy, transform: place });
  }
}
