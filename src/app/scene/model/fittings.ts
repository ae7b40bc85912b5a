/** What hangs and what is screwed on: lamps, rails, drop-lines, detector, air grille, wall buttons. */
import type { DetectorMount, LuminaireSpec, RoomSpec, Vector3 } from '../../../engine/types.ts';
import { type Builder, box, CUBE, cone, type Paint, placed, turnedAt } from './builder.ts';
import { MATERIAL, tinted } from './palette.ts';
import { cutHeightM, wallFrame } from './shell.ts';

/** Bar section of a lamp as drawn, m: slim, so that it hides no people. Value: `look`. */
const LAMP_WIDTH_M = 0.07;
const LAMP_THICK_M = 0.06;
/** The detector is drawn this much larger than it is. Value: `look`; said in the help text. */
export const DETECTOR_SCALE = 2.2;
/** Real radius of the detector's disc, m. Assumed: ordinary ceiling device. */
export const DETECTOR_RADIUS_M = 0.055;

/** Half the drawn length along x and y. */
export function lampHalf(l: LuminaireSpec): [number, number] {
  const half = l.lengthM / 2;
  return l.turnDeg === 0 ? [half, LAMP_WIDTH_M / 2] : [LAMP_WIDTH_M / 2, half];
}

/** Lamp bars; `own` carries the row for the lamp material: 0 inner, 1 window. */
export function buildLamps(b: Builder, room: RoomSpec): void {
  for (const l of room.luminaires) {
    const [hx, hy] = lampHalf(l);
    const paint: Paint = { color: MATERIAL.lampOff, light: CUBE, own: l.row === 'window' ? 1 : 0 };
    const [x, y] = l.atM;
    box(b, [x - hx, y - hy, l.heightM], [x + hx, y + hy, l.heightM + LAMP_THICK_M], paint);
  }
}

/** Thin lines as pairs of points: rails at the ceiling above each row, drop-lines of lamps and detector. */
export function hangingLines(room: RoomSpec, mount: DetectorMount): number[] {
  const lines: number[] = [];
  const ceiling = room.heightM;
  const line = (a: Vector3, c: Vector3) => lines.push(...a, ...c);
  const rails = new Map<string, { along: 0 | 1; across: number; min: number; max: number }>();
  for (const l of room.luminaires) {
    const along = l.turnDeg === 0 ? 0 : 1;
    const across = l.atM[1 - along]!;
    const key = `${along}:${across.toFixed(2)}`;
    const rail = rails.get(key) ?? { along, across, min: Infinity, max: -Infinity };
    rail.min = Math.min(rail.min, l.atM[along]! - l.lengthM / 2);
    rail.max = Math.max(rail.max, l.atM[along]! + l.lengthM / 2);
    rails.set(key, rail as { along: 0 | 1; across: number; min: number; max: number });
    for (const s of [-0.32, 0.32]) {
      const p: [number, number] = [l.atM[0], l.atM[1]];
      p[along] += s * l.lengthM;
      if (ceiling - l.heightM > 0.1) line([p[0], p[1], l.heightM + LAMP_THICK_M], [p[0], p[1], ceiling]);
    }
  }
  for (const { along, across, min, max } of rails.values()) {
    const a = min - 0.25;
    const z = max + 0.25;
    if (along === 0) line([a, across, ceiling], [z, across, ceiling]);
    else line([across, a, ceiling], [across, z, ceiling]);
  }
  const [dx, dy] = mount.atM;
  line([dx, 0, ceiling], [dx, room.depthM, ceiling]);
  line([dx, dy, mount.heightM], [dx, dy, ceiling]);
  return lines;
}

/** Ceiling outline as pairs of points. */
export function ceilingOutline(room: RoomSpec): number[] {
  const { widthM: w, depthM: d, heightM: h } = room;
  return [0, 0, h, w, 0, h, w, 0, h, w, d, h, w, d, h, 0, d, h, 0, d, h, 0, 0, h];
}

/** Plain disc with a finely segmented dome below it. */
export function buildDetector(b: Builder, mount: DetectorMount): void {
  const r = DETECTOR_RADIUS_M * DETECTOR_SCALE;
  const white: Paint = { color: MATERIAL.detector, light: CUBE };
  const shade: Paint = { color: tinted(MATERIAL.detector, 0.62), light: CUBE };
  const [x, y] = mount.atM;
  const z = mount.heightM;
  const thick = 0.035 * DETECTOR_SCALE;
  cone(b, [x, y], [r, z - thick], [r, z], 28, white, { top: white, bottom: white });
  const rim: Paint = { color: [0.03, 0.035, 0.04], light: CUBE };
  cone(b, [x, y], [r * 1.03, z - thick - 0.006], [r * 1.03, z - thick + 0.012], 28, rim, { bottom: rim, top: rim });
  const rings = 5;
  const dome = r * 0.7;
  for (let k = 0; k < rings; k++) {
    const a0 = (k / rings) * (Math.PI / 2);
    const a1 = ((k + 1) / rings) * (Math.PI / 2);
    const z0 = z - thick - dome * Math.sin(a1);
    const z1 = z - thick - dome * Math.sin(a0);
    cone(b, [x, y], [dome * Math.cos(a1), z0], [dome * Math.cos(a0), z1], 20, k % 2 === 0 ? white : shade);
  }
}

/** Places of the three pips on the rim: outer = movement, middle = light side, inner = air. */
export function pipPlaces(mount: DetectorMount): Vector3[] {
  const r = DETECTOR_RADIUS_M * DETECTOR_SCALE * 1.02;
  const z = mount.heightM - 0.02 * DETECTOR_SCALE;
  return [-0.95, 0, 0.95].map((turn) => {
    const a = -Math.PI / 2 + 0.4 + turn;
    return [mount.atM[0] + r * Math.cos(a), mount.atM[1] + r * Math.sin(a), z];
  });
}

/** Middle of the air grille on the left wall, room metres: behind the door if there is one on that wall. */
export function grillePlace(room: RoomSpec): Vector3 {
  const door = room.doors.find((d) => d.wall === 'left');
  const y = door ? Math.min(door.fromM + door.widthM + 0.9, room.depthM - 0.9) : room.depthM * 0.6;
  return [0, y, Math.min(2.35, cutHeightM(room, 'left') - 0.3)];
}

function buildGrille(b: Builder, room: RoomSpec): void {
  const [, y, z] = grillePlace(room);
  const rim: Paint = { color: tinted(MATERIAL.frame, 0.3), light: CUBE };
  const dark: Paint = { color: MATERIAL.grille, light: CUBE, share: 0.5 };
  box(b, [0, y - 0.3, z - 0.13], [0.025, y + 0.3, z + 0.13], dark);
  for (let k = 0; k < 5; k++) {
    const zz = z - 0.11 + k * 0.052;
    box(b, [0.02, y - 0.28, zz], [0.04, y + 0.28, zz + 0.018], rim);
  }
}

/** Two push buttons on a plate, on the handle side of the first door. */
function buildButtons(b: Builder, room: RoomSpec): void {
  const door = room.doors[0];
  if (!door || cutHeightM(room, door.wall) < 1.3) return;
  const frame = wallFrame(room, door.wall);
  const along = door.fromM > 0.35 ? door.fromM - 0.22 : door.fromM + door.widthM + 0.22;
  const white: Paint = { color: tinted(MATERIAL.paper, 0.8), light: CUBE };
  const grey: Paint = { color: tinted(MATERIAL.frame, 0.45), light: CUBE };
  const piece = (a0: number, a1: number, d: number, z0: number, z1: number, paint: Paint) => {
    const p = frame.at(along + a0, 0.01, z0);
    const q = frame.at(along + a1, -d, z1);
    box(b, [Math.min(p[0], q[0]), Math.min(p[1], q[1]), z0], [Math.max(p[0], q[0]), Math.max(p[1], q[1]), z1], paint);
  };
  piece(-0.05, 0.05, 0.012, 0.98, 1.16, white);
  piece(-0.035, 0.035, 0.02, 0.995, 1.06, grey);
  piece(-0.035, 0.035, 0.02, 1.08, 1.145, grey);
}

/** A radiator under each window, a curtain beside one: plain bodies for the warm things that stand still. */
export function buildWarmThings(
  b: Builder,
  things: readonly { kind: string; atM: readonly [number, number]; heightM: number }[],
): void {
  const white: Paint = { color: tinted(MATERIAL.paper, 0.7), light: CUBE };
  const dark: Paint = { color: MATERIAL.leg, light: CUBE };
  for (const t of things) {
    placed(b, turnedAt(t.atM[0], t.atM[1], 0, 0), () => {
      if (t.kind === 'radiator') box(b, [-0.5, -0.05, 0.12], [0.5, 0.05, Math.max(t.heightM, 0.5)], white);
      else if (t.kind === 'fan') {
        cone(b, [0, 0], [0.16, 0], [0.14, 0.03], 16, dark, { top: dark });
        cone(b, [0, 0], [0.02, 0.03], [0.02, t.heightM], 8, dark);
      } else if (t.kind === 'warmAirOutlet') box(b, [-0.25, -0.25, t.heightM - 0.03], [0.25, 0.25, t.heightM], dark);
    });
  }
}

export function buildFittings(b: Builder, room: RoomSpec, mount: DetectorMount): void {
  buildDetector(b, mount);
  buildGrille(b, room);
  buildButtons(b, room);
}
