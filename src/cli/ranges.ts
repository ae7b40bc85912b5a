/** `ranges [DETECTOR]`: detection ranges as a table, measured by walking and sitting in an empty room. */
import { lensFacets } from '../engine/detection/lens.ts';
import type { DetectorModel } from '../engine/types.ts';
import { medianTowardM, type ShareAt, sharesByRadius } from '../exercise/reach/measures.ts';
import { loadDetector } from '../scenario/load.ts';
import { type Args, readArgs } from './args.ts';
import { diskLibrary } from './files.ts';
import { OWN_DETECTOR } from './labRows.ts';
import { complain } from './stories.ts';

/** One list of the table: what it holds unless told, in quick, and what makes sense. */
interface Choice {
  name: string;
  unit: string;
  whole: readonly number[];
  quick: readonly number[];
  least: number;
  most: number;
}

const HEIGHTS: Choice = { name: 'heights', unit: 'm', whole: [2.5, 3, 4], quick: [3], least: 2.2, most: 6 };
const TEMPERATURES: Choice = {
  name: 'temperatures',
  unit: '°C',
  whole: [20, 25, 30, 32, 34],
  quick: [20, 30],
  least: 5,
  most: 40,
};
const SPEEDS: Choice = { name: 'speeds', unit: 'm/s', whole: [0.3, 1, 1.5], quick: [1], least: 0.1, most: 3 };

interface Order {
  model: DetectorModel;
  heightsM: number[];
  temperaturesC: number[];
  speedsMps: number[];
}

/** "2.5,3" as numbers; what is wrong with it goes to `sentences`. */
function listOf(args: Args, choice: Choice, sentences: string[]): number[] {
  const text = args.values.get(choice.name);
  if (text === undefined) return [...(args.flags.has('quick') ? choice.quick : choice.whole)];
  const numbers = text.split(',').map((part) => (part.trim() === '' ? Number.NaN : Number(part)));
  const { name, unit, least, most } = choice;
  if (numbers.some((n) => !(n >= least && n <= most))) {
    sentences.push(`--${name} expects numbers from ${least} to ${most} ${unit} with commas between, but is "${text}".`);
  }
  return numbers;
}

/** Null after having complained. */
function readOrder(words: readonly string[]): Order | null {
  const read = readArgs(
    words,
    [HEIGHTS, TEMPERATURES, SPEEDS].map((choice) => choice.name),
    ['quick'],
  );
  if (!read.ok) {
    complain([read.sentence]);
    return null;
  }
  const [id = OWN_DETECTOR, ...more] = read.args.plain;
  const sentences: string[] = [];
  const order = {
    heightsM: listOf(read.args, HEIGHTS, sentences),
    temperaturesC: listOf(read.args, TEMPERATURES, sentences),
    speedsMps: listOf(read.args, SPEEDS, sentences),
  };
  if (more.length > 0) sentences.push(`Expected at most one DETECTOR, but there is "${more[0]}" too.`);
  const loaded = loadDetector(diskLibrary(), id);
  if (!loaded.ok) sentences.push(...loaded.sentences);
  else sentences.push(...flawsOf(id, loaded.value));
  complain(sentences);
  return sentences.length === 0 && loaded.ok ? { model: loaded.value, ...order } : null;
}

/** A lens that reads well may still be one that cannot be built. */
function flawsOf(id: string, model: DetectorModel): string[] {
  try {
    lensFacets(model);
    return [];
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return [`detectors/${id}.json: ${error.message}.`];
  }
}

/** The table's heads: each walk once for each speed; sitting has none. Lights off: switch-on rule; on: hold rule. */
export function columnsOf(speedsMps: readonly number[]): string[] {
  const walks = ['across', 'toward off', 'toward on'].flatMap((measure) =>
    speedsMps.map((speed) => `${measure} ${speed.toFixed(1)}`),
  );
  return ['height m', 'room °C', ...walks, 'seated'];
}

/** Nearly all attempts, and half of them. Source: the stated definition of a range, and the usual middle of a slope. */
const NEARLY_ALL = 0.9;
const HALF = 0.5;

/** "24 / 26": diameters up to where nearly all attempts are seen at every step, and the last at which half of them are. */
export function diameters(shares: readonly ShareAt[]): string {
  const gap = shares.findIndex(({ share }) => share < NEARLY_ALL);
  const allM = gap === 0 ? 0 : (shares.at(gap < 0 ? -1 : gap - 1)?.radiusM ?? 0);
  const halfM = shares.reduce((furthest, { radiusM, share }) => (share >= HALF ? radiusM : furthest), 0);
  return `${2 * allM} / ${2 * halfM}`;
}

/** One line, in the order of the columns; `told` hears before each measure. */
function cellsOf(
  order: Order,
  mountingHeightM: number,
  roomTemperatureC: number,
  told: (what: string) => void,
): string[] {
  const { model, speedsMps } = order;
  const conditions = { model, mountingHeightM, roomTemperatureC };
  const measured = (what: string, measure: (speedMps: number) => string) =>
    speedsMps.map((speedMps) => {
      told(`${what} at ${speedMps} m/s`);
      return measure(speedMps);
    });
  const toward = (level: 'switchOn' | 'hold') => (speedMps: number) =>
    (2 * medianTowardM(conditions, level, speedMps)).toFixed(1);
  const cells = [
    ...measured('across', (speedMps) =>
      diameters(sharesByRadius({ ...conditions, movement: 'walkingAcross', speedMps })),
    ),
    ...measured('toward, lights off', toward('switchOn')),
    ...measured('toward, lights on', toward('hold')),
  ];
  told('seated');
  const seated = diameters(sharesByRadius({ ...conditions, movement: 'seated' }));
  return [mountingHeightM.toFixed(1), roomTemperatureC.toFixed(0), ...cells, seated];
}

function row(columns: readonly string[], cells: readonly string[]): string {
  return `| ${cells.map((cell, i) => cell.padStart(columns[i]!.length)).join(' | ')} |`;
}

/** Prints the table as it is measured; how far it has come goes to stderr, over itself where that is a screen. */
function printTable(order: Order): void {
  const columns = columnsOf(order.speedsMps);
  const rows = order.heightsM.flatMap((heightM) => order.temperaturesC.map((roomC) => ({ heightM, roomC })));
  const all = rows.length * (3 * order.speedsMps.length + 1);
  let begun = 0;
  const onScreen = process.stderr.isTTY === true;
  const clear = () => onScreen && process.stderr.write('\r\x1b[K');
  console.log(row(columns, columns));
  console.log(`|${columns.map((column) => `${'-'.repeat(column.length + 1)}:`).join('|')}|`);
  for (const { heightM, roomC } of rows) {
    const cells = cellsOf(order, heightM, roomC, (what) => {
      clear();
      begun++;
      if (onScreen) process.stderr.write(`${begun} of ${all}: ${heightM} m, ${roomC} °C, ${what}`);
    });
    clear();
    console.log(row(columns, cells));
    if (!onScreen) process.stderr.write(`${begun} of ${all} measured\n`);
  }
}

/** Prints the table; 0, or 1 after having said what was wrong. */
export function ranges(words: string[]): number {
  const order = readOrder(words);
  if (!order) return 1;
  console.log(`${order.model.id}: diameters in metres around the detector; walking speeds in m/s.`);
  console.log(EXPLAINED);
  printTable(order);
  return 0;
}

const EXPLAINED = `One person of 1.75 m in office clothing, an empty room, 24 attempts at each step of 1 m (seated: 0.5 m).
Across and seated: at least 90 % seen at every step from the middle out / last step at which half are seen.
Seated: one reach of an arm while the lights are on. Toward: median of 24 walks that begin 15 m away, lights off or on.
`;
