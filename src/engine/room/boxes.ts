/** Furniture as axis-parallel boxes: the one geometry that light, detection and the picture all use. */
import type { FurnitureSpec, RoomSpec, Vector3 } from '../types.ts';

export interface Box {
  furnitureId: string;
  /** 'top' carries the furniture's own reflectance; 'body' is its frame, legs or back. */
  part: 'top' | 'body';
  minM: Vector3;
  maxM: Vector3;
  reflectance: number;
  /** Glass lets light through and stops heat radiation (soda-lime glass is opaque at 8-14 um). */
  glass: boolean;
}

/** Thickness of desk and table tops, m. Assumed: thicker shades more floor, by under 1 % of desk lux. */
const TOP_THICKNESS_M = 0.03;
/** Thickness of screens, glass screens and whiteboards, m. Assumed: they are thin; only their face matters. */
const SHEET_THICKNESS_M = 0.04;
/** Seat height of a chair, m. Assumed: ordinary office chair; also the height at which Stand-ins sit. */
export const SEAT_HEIGHT_M = 0.46;
/** Reflectance of chairs. Assumed: dark fabric. */
const CHAIR_REFLECTANCE = 0.28;

/** A box in the furniture's own frame: x along its width, y along its depth, origin at its centre on the floor. */
interface LocalBox {
  part: 'top' | 'body';
  x: [number, number];
  y: [number, number];
  z: [number, number];
  reflectance?: number;
}

function localBoxes(f: FurnitureSpec): LocalBox[] {
  const w = f.widthM / 2;
  const d = f.depthM / 2;
  const h = f.heightM;
  const sheet = SHEET_THICKNESS_M / 2;
  switch (f.kind) {
    case 'desk':
    case 'table':
      return [{ part: 'top', x: [-w, w], y: [-d, d], z: [h - TOP_THICKNESS_M, h] }];
    case 'chair':
      return [
        {
          part: 'body',
          x: [-w, w],
          y: [-d, d],
          z: [SEAT_HEIGHT_M - 0.06, SEAT_HEIGHT_M],
          reflectance: CHAIR_REFLECTANCE,
        },
        { part: 'body', x: [-w, w], y: [-d, -d + 0.05], z: [SEAT_HEIGHT_M + 0.1, h], reflectance: CHAIR_REFLECTANCE },
      ];
    case 'screen':
    case 'glassScreen':
      return [{ part: 'body', x: [-w, w], y: [-sheet, sheet], z: [0, h] }];
    case 'whiteboard':
      return [{ part: 'body', x: [-w, w], y: [-sheet, sheet], z: [h - 1.2, h] }];
    case 'shelf':
    case 'cabinet':
    case 'plant':
      return [{ part: 'body', x: [-w, w], y: [-d, d], z: [0, h] }];
  }
}

/** Quarter turns clockwise in plan. */
function turned(box: LocalBox, turnDeg: FurnitureSpec['turnDeg']): LocalBox {
  const { x, y } = box;
  switch (turnDeg) {
    case 0:
      return box;
    case 90:
      return { ...box, x: y, y: [-x[1], -x[0]] };
    case 180:
      return { ...box, x: [-x[1], -x[0]], y: [-y[1], -y[0]] };
    case 270:
      return { ...box, x: [-y[1], -y[0]], y: x };
  }
}

export function furnitureBoxes(f: FurnitureSpec): Box[] {
  return localBoxes(f).map((local) => {
    const { x, y, z, part, reflectance } = turned(local, f.turnDeg);
    return {
      furnitureId: f.id,
      part,
      minM: [f.atM[0] + x[0], f.atM[1] + y[0], z[0]],
      maxM: [f.atM[0] + x[1], f.atM[1] + y[1], z[1]],
      reflectance: reflectance ?? f.reflectance,
      glass: f.kind === 'glassScreen',
    };
  });
}

/** Every box of the room, clipped to the room so that nothing stands outside it. Boxes squeezed to nothing are left out. */
export function roomBoxes(room: Pick<RoomSpec, 'widthM' | 'depthM' | 'heightM'>, furniture: FurnitureSpec[]): Box[] {
  const limit: Vector3 = [room.widthM, room.depthM, room.heightM];
  const inside = (v: Vector3): Vector3 => [
    Math.min(Math.max(v[0], 0), limit[0]),
    Math.min(Math.max(v[1], 0), limit[1]),
    Math.min(Math.max(v[2], 0), limit[2]),
  ];
  return furniture
    .flatMap(furnitureBoxes)
    .map((box) => ({ ...box, minM: inside(box.minM), maxM: inside(box.maxM) }))
    .filter((box) => box.maxM.every((max, axis) => max - (box.minM[axis] ?? 0) > 1e-6));
}
