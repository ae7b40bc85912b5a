/** Words of the light instruments: lux meters, the detector's view, and the help for the desk factor. */
import type { LightSource, SeenPart } from '../../engine/light/detectorParts.ts';
import type { ProbeReading } from '../../engine/light/probePlace.ts';
import type { PointM, RoomSpec, RowId } from '../../engine/types.ts';
import { grouped, metres } from './format.ts';

/** Lux as a hand-held meter shows it: three figures, tenths only under 10 lx. */
export function meterNumber(lx: number): string {
  if (lx < 9.95) return (Math.round(Math.max(0, lx) * 10) / 10).toFixed(1);
  const step = lx < 999.5 ? 1 : lx < 9995 ? 10 : 100;
  return grouped(Math.round(lx / step) * step);
}

export function meterText(lx: number): string {
  return `${meterNumber(lx)} lx`;
}

/** Whole lux that add up to the rounded sum: what is lost by rounding goes to the parts that lost most. */
export function wholeParts(parts: readonly number[]): number[] {
  const total = Math.round(parts.reduce((sum, lx) => sum + lx, 0));
  const whole = parts.map(Math.floor);
  const order = parts.map((lx, i) => ({ i, rest: lx - Math.floor(lx) })).sort((a, b) => b.rest - a.rest);
  for (let left = total - whole.reduce((sum, lx) => sum + lx, 0), k = 0; left > 0; left--, k++) whole[order[k]!.i]!++;
  return whole;
}

const COMPASS = ['back wall', 'right wall', 'front wall', 'left wall'];

/** "the back wall", "between the back wall and the right wall" */
function towards(headingDeg: number): string {
  const quarter = headingDeg / 90;
  const near = Math.round(quarter);
  if (Math.abs(quarter - near) < 0.2) return `the ${COMPASS[near % 4]}`;
  return `between the ${COMPASS[Math.floor(quarter) % 4]} and the ${COMPASS[Math.ceil(quarter) % 4]}`;
}

/** Where a meter is in words. `room` gives names of desks that lie within half a metre. */
export function placeWords(atM: PointM, heightM: number, room: Pick<RoomSpec, 'deskPoints'> | null): string {
  const near = (room?.deskPoints ?? []).find(
    (d) => Math.hypot(d.atM[0] - atM[0], d.atM[1] - atM[1]) < 0.5 && Math.abs(d.heightM - heightM) < 0.1,
  );
  const height = heightM < 0.01 ? 'on the floor' : `${metres(heightM)} up`;
  const place = `${metres(atM[0])} from the left wall, ${metres(atM[1])} from the front wall, ${height}`;
  return near ? `at ${near.label}, ${place}` : place;
}

export function lookWords(tiltDeg: number, headingDeg: number): string {
  if (tiltDeg === 0) return 'facing up';
  if (tiltDeg === 180) return 'facing down';
  if (tiltDeg === 90) return `upright, facing ${towards(headingDeg)}`;
  return `tilted ${tiltDeg}° from facing up, towards ${towards(headingDeg)}`;
}

/** What a reading is made of, largest first: "daylight 310, Inner row 170" … */
export function splitWords(r: ProbeReading): string {
  const parts: [string, number][] = [
    [r.sunLx > 0 ? `daylight ${meterNumber(r.daylightLx)}, of it sun ${meterNumber(r.sunLx)}` : '', r.daylightLx],
    ['Inner row', r.innerRowLx],
    ['Window row', r.windowRowLx],
    ['open doors', r.doorLx],
  ];
  const told = parts.filter(([, lx]) => lx >= 0.05).sort((a, b) => b[1] - a[1]);
  return told
    .map(([name, lx]) => (name.startsWith('daylight') ? name : `${name || 'daylight'} ${meterNumber(lx)}`))
    .join(' · ');
}

export const rowName: Record<RowId, string> = { inner: 'Inner row', window: 'Window row' };

export function probeName({ kind, id }: { kind: 'meter' | 'eye'; id: string }): string {
  return kind === 'eye' ? luxWords.eye(id) : luxWords.meter(id);
}

/** A desk factor: 2.9, 3.05 */
export function factorText(factor: number): string {
  return String(Math.round(factor * 100) / 100);
}

export const luxWords = {
  region: 'Lux meter',
  intro: 'Lay a lux meter anywhere. It reads the light at its place; the detector reads the light that comes up to it.',
  list: 'Lux meters in the room',
  addMeter: 'Lay one down',
  addEye: 'Hold one at an eye',
  remove: 'Take it away',
  meter: (id: string): string => `Lux meter ${id}`,
  eye: (id: string): string => `Eye ${id}`,
  measuring: 'measuring…',
  covered: 'inside something: no reading',
  tap: 'Tap a place',
  layDown: 'Lay it flat here',
  across: 'Left to right',
  deep: 'Front to back',
  height: 'Height',
  tilt: 'Tilt',
  heading: 'Heading',
  seated: 'Seated eye, 1.2 m',
  standing: 'Standing eye, 1.65 m',
  keys: 'Arrow keys move it 0.25 m, Page Up and Page Down lift it.',
  pad: 'Place of the lux meter',
  degrees: (deg: number): string => `${Math.round(deg)}°`,
  inWords: 'Lux meters',
  noneInWords: 'No lux meter is out. They are in the Kit Bag.',
  sentence: (name: string, value: string, place: string, look: string, split: string): string =>
    `${name}: ${value}, ${place}, ${look}.${split ? ` Made of: ${split}.` : ''}`,
};

export const seenName: Record<SeenPart, string> = {
  floor: 'Floor',
  desks: 'Desks and tables',
  furniture: 'Other furniture',
  walls: 'Walls and doors',
  window: 'Window itself',
  lamps: 'Lamps seen directly',
};

export function sourceName(source: LightSource, row: RowId): string {
  if (source === 'daylight') return 'Daylight';
  if (source === 'doors') return 'Open doors';
  const own = (source === 'innerRow') === (row === 'inner');
  return own ? `Own lamps (${rowName[row]})` : `The other row’s lamps`;
}

export const viewWords = {
  region: 'Detector’s view',
  intro:
    'What each photometer looks at from the ceiling. Inside the ring equal areas count alike; outside nothing counts.',
  photometer: 'Photometer',
  waiting: 'Looking…',
  picture: (row: RowId, largest: string): string =>
    `What the ${row} photometer sees, brighter is lighter. Most of its reading comes from: ${largest}.`,
  ring: 'Ring: the edge of what counts.',
  outlines: 'Solid line: window. Thin line: desk. Dashes: lamp.',
  looks: 'What it looks at',
  looksOf: (row: string): string => `The ${row.toLowerCase()} photometer looks at`,
  inWords: 'What the ceiling readings are made of',
  whose: 'Whose light that is',
  sum: 'Ceiling reading',
  scale: (bright: string): string => `White: ${bright} cd/m²; black: a thousandth of it`,
  shares: (name: string, list: string, sum: string): string => `${name}: ${list}. Together ${sum}.`,
};

export const factorWords = {
  region: 'Desk factor',
  row: 'Row',
  step1: 'Lay the lux meter on the poorest desk of this row.',
  put: (label: string): string => `Lay one on ${label}`,
  poorest: (label: string, lux: string): string => `Poorest now: ${label}, ${lux}.`,
  step2: 'Compare it with the ceiling reading of this row.',
  onDesk: 'on the desk',
  onCeiling: 'ceiling reading',
  step3: 'Desk reading ÷ ceiling reading is the desk factor.',
  factorNow: (now: string): string => `In use now: ${now}.`,
  use: (factor: string): string => `Use this factor, ${factor}`,
  inUse: (factor: string): string => `This factor is in use: ${factor}`,
  limits: (factor: string): string => `${factor} is outside 0.5 to 20 and cannot be used.`,
  takeLight: 'Take present light as setpoint',
  takeNote: 'The daylight estimate of this moment becomes the setpoint of this row.',
  noReading: 'No reading yet.',
  fits: 'Daylight, no lamps of its own, no sun on the meter: a good moment.',
  hide: 'Hide these hints',
  show: 'Show hints',
  warn: {
    dark: 'Nearly all of this light is lamp light. Lamps light the desk more than the ceiling: with this factor the row will think daylight enough too early.',
    own: (share: string): string =>
      `This row’s own lamps give ${share} of what the meter reads. The factor is for daylight: switch the row off first.`,
    other: (share: string): string => `The other row’s lamps give ${share} of what the meter reads.`,
    sun: (share: string): string =>
      `The sun falls on the meter: ${share} of the reading. A patch of sun is gone in an hour; wait, or lay it beside the patch.`,
    sunBelow:
      'The sun lies on what the photometer looks at. Its reading is high for now, and the factor would be too small.',
    tilted: 'The meter does not lie flat. Desk light is measured facing up.',
    elsewhere: 'The meter does not lie on a desk of this row.',
  },
};
