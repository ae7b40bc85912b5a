/** What changes in the plan: lamps, people, what the lens sees, where pulses arose and where somebody is to walk. */
import type { PersonView } from '../engine/frame.ts';
import type { LuminaireSpec, PointM } from '../engine/types.ts';
import type { RoomMoment } from './moment.ts';
import { outputOf, type Palette } from './palette.ts';
import type { PlanScale } from './planGeometry.ts';
import type { PlanPaper } from './planRoom.ts';
import { circle, course, HALO, line, n2, tag, text } from './svg.ts';

/** Closed outline of one half of a lens cell on the first surface hit: [x, y, z, …], room metres. */
export interface SightOutlineM {
  outlineM: readonly number[];
  masked: boolean;
}

/** Overlays, each left out when absent. */
export interface PlanExtras {
  marksM?: readonly PointM[];
  walkLinesM?: readonly (readonly PointM[])[];
  sightCells?: readonly SightOutlineM[];
}

/** A row gives light from this output on, share. Assumed: the faint first moment of a lamp's start does not count. */
const LIT_FROM = 0.02;
const BAR_PX = 11;

/** Lit: solid with rays; off: hollow. The colour only helps. */
export function lamps({ scenario, setup, frame }: RoomMoment, { scale, palette }: PlanPaper): string[] {
  const luminaires = setup.luminaires ?? scenario.room.luminaires;
  return luminaires.map((lamp) => oneLamp(lamp, frame.lamps[lamp.row] > LIT_FROM, scale, palette));
}

function oneLamp(lamp: LuminaireSpec, lit: boolean, scale: PlanScale, palette: Palette): string {
  const length = lamp.lengthM * scale.pxPerM;
  const half = BAR_PX / 2;
  const stroke = palette.channel[outputOf(lamp.row)];
  const rays = Array.from({ length: 7 }, (_, i) => {
    const x = n2(-length / 2 + ((i + 0.5) * length) / 7);
    return `M${x} ${-half - 4}v-7M${x} ${half + 4}v7`;
  });
  const bar = { x: -length / 2, y: -half, width: length, height: BAR_PX, rx: half };
  const place = `translate(${n2(scale.x(lamp.atM[0]))} ${n2(scale.y(lamp.atM[1]))}) rotate(${lamp.turnDeg})`;
  const drawn = lit
    ? line(rays.join(''), stroke, 2) + tag('rect', { ...bar, fill: stroke, stroke: '#FFFFFF' })
    : tag('rect', { ...bar, fill: '#FFFFFF', stroke, 'stroke-width': 2.4 });
  return tag('g', { transform: place }, drawn);
}

/** Offset of the letter from the head, px; the same for all, so that letters are found at once. Assumed: clear of the shoulders; more and it seems another's. */
export const LETTER_OFFSET_PX = 27;
/** Radius of the letter's disc, px. Assumed: holds a capital of 17 px. */
export const LETTER_R_PX = 12;

/** Stand-ins that are in the room, with their letters. */
export function people({ frame }: RoomMoment, paper: PlanPaper): string[] {
  return frame.people.filter((person) => person.present).map((person) => onePerson(person, paper));
}

/** Shoulders, arms forward and a head, turned to where the person looks. Sizes are shares of a metre of the plan. */
function onePerson({ id, atM, headingDeg }: PersonView, { scale, palette }: PlanPaper): string {
  const k = scale.pxPerM;
  const arm = (side: 1 | -1): string =>
    `M${n2(side * 0.22 * k)} ${n2(-0.02 * k)}q${n2(side * 0.06 * k)} ${n2(-0.2 * k)} ${n2(-side * 0.1 * k)} ${n2(-0.24 * k)}`;
  const edge = { stroke: '#FFFFFF', 'stroke-width': 1.5 };
  const body = [
    tag('ellipse', { rx: 0.25 * k, ry: 0.14 * k, fill: palette.figure, ...edge }),
    line(arm(-1) + arm(1), palette.figure, 0.08 * k, { 'stroke-linecap': 'round' }),
    circle(0, 0, 0.105 * k, { fill: palette.head, ...edge }),
  ];
  const [dx, dy] = [LETTER_OFFSET_PX, -LETTER_OFFSET_PX];
  return tag(
    'g',
    { transform: `translate(${n2(scale.x(atM[0]))} ${n2(scale.y(atM[1]))})` },
    [
      tag('g', { transform: `rotate(${n2(headingDeg)})` }, body.join('')),
      circle(dx, dy, LETTER_R_PX, { fill: palette.ink, ...edge }),
      text(dx, dy + 6, id, { 'text-anchor': 'middle', 'font-weight': 700, fill: '#FFFFFF' }),
    ].join(''),
  );
}

const toPx = (scale: PlanScale, points: readonly PointM[]): PointM[] =>
  points.map(([x, y]): PointM => [scale.x(x), scale.y(y)]);

/** Dashed Walk Lines, a dot where each ends. */
export function walkLines(lines: readonly (readonly PointM[])[], { scale, palette }: PlanPaper): string[] {
  return lines
    .filter((points) => points.length > 1)
    .flatMap((points) => {
      const [x, y] = toPx(scale, points).at(-1)!;
      const dashes = line(course(toPx(scale, points)), palette.ink, 2, { 'stroke-dasharray': '7 5' });
      return [dashes, circle(x, y, 4, { fill: palette.ink })];
    });
}

/** Short strokes where pulses arose, on a white edge. */
export function marks(placesM: readonly PointM[], { scale, palette }: PlanPaper): string[] {
  if (placesM.length === 0) return [];
  const d = toPx(scale, placesM)
    .map(([x, y]) => `M${n2(x - 3)} ${n2(y - 9)}l6 18`)
    .join('');
  return [line(d, HALO.stroke as string, 7), line(d, palette.ink, 3.2)];
}

/** Cells whose outline climbs higher than this lie on walls and would be drawn as long rays, m. Assumed: above desks and screens. */
const HIGHEST_M = 1.3;

/** Outlines of the lens cells on floor, desks and screens; masked ones dashed. */
export function sightMap(cells: readonly SightOutlineM[], { scale, palette }: PlanPaper): string[] {
  const path = (masked: boolean): string =>
    cells
      .filter((cell) => cell.masked === masked && cell.outlineM.every((z, i) => i % 3 !== 2 || z <= HIGHEST_M))
      .map((cell) => cellPath(cell.outlineM, scale))
      .join('');
  const clip = { 'clip-path': 'url(#floor)' };
  const [open, masked] = [path(false), path(true)];
  return [
    ...(open ? [line(open, palette.ink, 0.7, { ...clip, opacity: 0.45 })] : []),
    ...(masked ? [line(masked, palette.ink, 0.7, { ...clip, opacity: 0.45, 'stroke-dasharray': '2 3' })] : []),
  ];
}

function cellPath(outlineM: readonly number[], scale: PlanScale): string {
  let path = '';
  for (let i = 0; i + 2 < outlineM.length; i += 3) {
    path += `${i === 0 ? 'M' : 'L'}${scale.x(outlineM[i]!).toFixed(1)} ${scale.y(outlineM[i + 1]!).toFixed(1)}`;
  }
  return `${path}Z`;
}
