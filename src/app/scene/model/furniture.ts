/** Furniture: the engine's boxes, drawn with the detail that makes them readable. */
import { furnitureBoxes, SEAT_HEIGHT_M } from '../../../engine/room/boxes.ts';
import type { FurnitureKind, FurnitureSpec, Vector3 } from '../../../engine/types.ts';
import { type Builder, box, CUBE, cone, type LightFrom, type Paint, placed, polygon, turnedAt } from './builder.ts';
import { buildPlant, buildShelf } from './furnitureDetail.ts';
import { MATERIAL, type Rgb, tinted } from './palette.ts';

/** Quarter turns clockwise, as a counter-clockwise angle. */
export function turnRad(f: Pick<FurnitureSpec, 'turnDeg'>): number {
  return (-f.turnDeg * Math.PI) / 180;
}

/** A point of the furniture's own frame in the room. */
function toRoom(f: FurnitureSpec, x: number, y: number): [number, number] {
  const a = turnRad(f);
  return [f.atM[0] + x * Math.cos(a) - y * Math.sin(a), f.atM[1] + x * Math.sin(a) + y * Math.cos(a)];
}

function own(f: FurnitureSpec): LightFrom {
  return { kind: 'furniture', furnitureId: f.id };
}

/** Which side of a desk is used: the side of the nearest chair within 1.2 m; +1 = local +y, -1 = local -y. */
export function usedSide(desk: FurnitureSpec, all: readonly FurnitureSpec[]): 1 | -1 | 0 {
  let side: 1 | -1 | 0 = 0;
  let best = 1.2;
  for (const chair of all) {
    if (chair.kind !== 'chair') continue;
    for (const s of [1, -1] as const) {
      const [x, y] = toRoom(desk, 0, (s * desk.depthM) / 2);
      const away = Math.hypot(chair.atM[0] - x, chair.atM[1] - y);
      if (away < best) {
        best = away;
        side = s;
      }
    }
  }
  return side;
}

function legs(b: Builder, f: FurnitureSpec, index: number): void {
  // Legs take the floor's light at their foot: it knows the shade under the top.
  const paint: Paint = { color: MATERIAL.leg, light: CUBE, share: 0.55, own: index };
  const x = f.widthM / 2 - 0.07;
  const y = f.depthM / 2 - 0.07;
  for (const sx of [-1, 1]) {
    for (const sy of [-1, 1]) {
      box(b, [sx * x - 0.022, sy * y - 0.022, 0], [sx * x + 0.022, sy * y + 0.022, f.heightM - 0.03], (side) =>
        side === 'top' || side === 'bottom' ? null : paint,
      );
    }
  }
}

function deskTop(b: Builder, f: FurnitureSpec, index: number): void {
  const [w, d] = [f.widthM / 2, f.depthM / 2];
  const top: Paint = { color: tinted(MATERIAL.deskTop, f.reflectance), light: own(f), own: index, map: true };
  const edge: Paint = { ...top, light: CUBE, map: false };
  box(b, [-w, -d, f.heightM - 0.03], [w, d, f.heightM], (side) => (side === 'top' ? top : edge));
}

/** A flat thing lying on the top at local (x, y), lit as the top is. */
function lying(
  b: Builder,
  f: FurnitureSpec,
  index: number,
  at: [number, number],
  size: Vector3,
  color: Rgb,
  turn = 0,
): void {
  // Lies in the top's light, so it takes the top's colour on the Light Map.
  const paint: Paint = { color, light: own(f), own: index, map: true };
  const side: Paint = { color, light: CUBE, own: index };
  placed(b, turnedAt(at[0], at[1], f.heightM, turn), () => {
    box(b, [-size[0] / 2, -size[1] / 2, 0], [size[0] / 2, size[1] / 2, size[2]], (s) =>
      s === 'bottom' ? null : s === 'top' ? paint : side,
    );
  });
}

function monitor(b: Builder, f: FurnitureSpec, index: number, side: 1 | -1): void {
  const paint: Paint = { color: MATERIAL.screenDark, light: CUBE, own: index };
  const stand: Paint = { color: MATERIAL.leg, light: CUBE, own: index };
  const x = f.widthM > 1.3 ? -0.12 * side : 0;
  placed(b, turnedAt(x, -side * (f.depthM / 2 - 0.2), f.heightM, side > 0 ? Math.PI : 0), () => {
    box(b, [-0.11, -0.08, 0], [0.11, 0.08, 0.012], stand);
    box(b, [-0.025, 0.01, 0.01], [0.025, 0.04, 0.2], stand);
    box(b, [-0.28, -0.02, 0.1], [0.28, 0.015, 0.43], paint);
  });
}

function buildDesk(b: Builder, f: FurnitureSpec, index: number, all: readonly FurnitureSpec[]): void {
  deskTop(b, f, index);
  legs(b, f, index);
  const side = usedSide(f, all);
  if (side === 0) return;
  monitor(b, f, index, side);
  const near = side * (f.depthM / 2 - 0.24);
  const x = f.widthM > 1.3 ? -0.12 * side : 0;
  lying(b, f, index, [x, near], [0.42, 0.14, 0.018], MATERIAL.keyboard);
  if (f.widthM >= 1.2)
    lying(b, f, index, [x + side * 0.5, near + side * 0.02], [0.21, 0.297, 0.012], MATERIAL.paper, 0.2 + index);
  if (index % 2 === 1 && f.widthM >= 1.4)
    lying(b, f, index, [x - side * 0.42, near], [0.2, 0.26, 0.05], MATERIAL.panel, 0.3);
}

/** A table as wide as deep has a round top in the picture. */
export function drawnRound(f: FurnitureSpec): boolean {
  return f.kind === 'table' && Math.abs(f.widthM - f.depthM) < 0.05;
}

function buildTable(b: Builder, f: FurnitureSpec, index: number): void {
  if (!drawnRound(f)) {
    deskTop(b, f, index);
    legs(b, f, index);
  } else {
    const top: Paint = { color: tinted(MATERIAL.deskTop, f.reflectance), light: own(f), own: index, map: true };
    const edge: Paint = { ...top, light: CUBE, map: false };
    const post: Paint = { color: tinted(MATERIAL.deskTop, 0.35), light: CUBE, share: 0.55, own: index };
    const r = f.widthM / 2;
    cone(b, [0, 0], [r, f.heightM - 0.03], [r, f.heightM], 40, edge, { top });
    cone(b, [0, 0], [0.07, 0.03], [0.05, f.heightM - 0.03], 12, post);
    cone(b, [0, 0], [0.3, 0], [0.24, 0.035], 24, post, { top: post });
  }
  lying(b, f, index, [-0.16, -0.1], [0.21, 0.297, 0.01], MATERIAL.paper, 0.4);
}

function buildChair(b: Builder, f: FurnitureSpec, index: number): void {
  const cloth: Paint = { color: MATERIAL.chair, light: own(f), own: index };
  const metal: Paint = { color: MATERIAL.leg, light: CUBE, share: 0.55, own: index };
  const [w, d] = [f.widthM / 2, f.depthM / 2];
  const s = SEAT_HEIGHT_M;
  const seat: Vector3[] = roundedOutline(w * 0.94, d * 0.94, 0.09);
  prism(b, seat, s - 0.055, s, cloth, { ...cloth, light: CUBE });
  const back: Vector3[] = [
    [-w * 0.86, -d, s + 0.12],
    [w * 0.86, -d, s + 0.12],
    [w * 0.78, -d - 0.03, f.heightM],
    [-w * 0.78, -d - 0.03, f.heightM],
  ];
  const thick = 0.035;
  const front = back.map(([x, y, z]) => [x, y + thick, z] as Vector3);
  const cube: Paint = { ...cloth, light: CUBE };
  polygon(b, back, cube);
  polygon(b, [front[1]!, front[0]!, front[3]!, front[2]!], cube);
  polygon(b, [back[1]!, front[1]!, front[2]!, back[2]!], cube);
  polygon(b, [front[0]!, back[0]!, back[3]!, front[3]!], cube);
  polygon(b, [back[3]!, back[2]!, front[2]!, front[3]!], cube);
  box(b, [-0.02, -d - 0.005, s - 0.05], [0.02, -d + 0.02, s + 0.2], metal);
  cone(b, [0, 0], [0.025, 0.08], [0.025, s - 0.05], 8, metal);
  for (let k = 0; k < 5; k++) {
    placed(b, turnedAt(0, 0, 0, (k / 5) * 2 * Math.PI + 0.3), () => {
      box(b, [0, -0.018, 0.05], [0.27, 0.018, 0.085], metal);
      box(b, [0.235, -0.022, 0], [0.28, 0.022, 0.05], metal);
    });
  }
}

function roundedOutline(w: number, d: number, r: number): Vector3[] {
  const points: Vector3[] = [];
  const corners = [
    [w - r, d - r, 0],
    [-w + r, d - r, 1],
    [-w + r, -d + r, 2],
    [w - r, -d + r, 3],
  ] as const;
  for (const [x, y, q] of corners) {
    for (let k = 0; k <= 3; k++) {
      const a = ((q + k / 3) * Math.PI) / 2;
      points.push([x + r * Math.cos(a), y + r * Math.sin(a), 0]);
    }
  }
  return points;
}

function prism(b: Builder, outline: Vector3[], z0: number, z1: number, top: Paint, side: Paint): void {
  polygon(
    b,
    outline.map(([x, y]) => [x, y, z1] as Vector3),
    top,
  );
  outline.forEach((p, i) => {
    const q = outline[(i + 1) % outline.length]!;
    polygon(
      b,
      [
        [p[0], p[1], z0],
        [q[0], q[1], z0],
        [q[0], q[1], z1],
        [p[0], p[1], z1],
      ],
      side,
    );
  });
}

/** Straight from the engine's boxes: screens, whiteboards, cabinets. */
function buildPlain(b: Builder, f: FurnitureSpec, index: number, material: Rgb): void {
  for (const piece of furnitureBoxes(f)) {
    const paint: Paint = { color: tinted(material, piece.reflectance), light: own(f), own: index };
    box(b, piece.minM, piece.maxM, paint);
  }
}

/** Hangs on a wall that is cut away (front or right): it goes with its wall. */
function onCutWall(f: FurnitureSpec, room: { widthM: number }): boolean {
  return f.kind === 'whiteboard' && (f.atM[1] < 0.15 || f.atM[0] > room.widthM - 0.15);
}

/** Draws a piece into the builder. Glass screens are drawn elsewhere (they let light through). */
export function buildFurniture(
  b: Builder,
  f: FurnitureSpec,
  index: number,
  all: readonly FurnitureSpec[],
  room: { widthM: number },
): void {
  if (onCutWall(f, room)) return;
  const detailed = DETAILED[f.kind];
  if (detailed) placed(b, turnedAt(f.atM[0], f.atM[1], 0, turnRad(f)), () => detailed(b, f, index, all));
  else if (f.kind === 'screen') buildPlain(b, f, index, MATERIAL.panel);
  else if (f.kind === 'whiteboard') buildPlain(b, f, index, MATERIAL.board);
  else if (f.kind === 'cabinet') buildPlain(b, f, index, MATERIAL.shelf);
}

type Detail = (b: Builder, f: FurnitureSpec, index: number, all: readonly FurnitureSpec[]) => void;

/** Pieces drawn in their own frame. */
const DETAILED: Partial<Record<FurnitureKind, Detail>> = {
  desk: buildDesk,
  table: buildTable,
  chair: buildChair,
  shelf: buildShelf,
  plant: buildPlant,
};
