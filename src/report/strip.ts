/** The strip chart as SVG text: what was seen, the heat signal, the estimates against their levels, the three outputs. */
import type { TraceEvent } from '../engine/trace.ts';
import type { Scenario, Tick } from '../engine/types.ts';
import type { Moment } from './moment.ts';
import { type Palette, SCREEN_PALETTE } from './palette.ts';
import { bandRows, emptyBands } from './stripBands.ts';
import { axis, estimateRow, nowFlag, seenRow, signalRow } from './stripRows.ts';
import { drawing, group, n2 } from './svg.ts';
import { clockAt } from './text/format.ts';
import type { Grow } from './traces.ts';
import { roomInWords } from './words.ts';

export interface StripData {
  scenario: Scenario;
  events: readonly TraceEvent[];
  /** [lowest, highest] of each tick, µV. */
  signalUv: Grow;
  /** One value a second, lx. */
  innerEstimateLx: Grow;
  windowEstimateLx: Grow;
}

export interface StripBox {
  x: number;
  y: number;
  widthPx: number;
  fromTick: Tick;
  /** The run is known up to here. */
  toTick: Tick;
}

/** Where time and the rows lie in one drawing. */
export interface StripFrame {
  palette: Palette;
  scenario: Scenario;
  fromTick: Tick;
  nowTick: Tick;
  /** Right edge of the axis; after now lies what time alone would do. */
  endTick: Tick;
  plotPx: number;
  rows: StripRows;
  xOf: (tick: Tick) => number;
}

interface Span {
  topPx: number;
  bottomPx: number;
}

export interface StripRows {
  seen: Span;
  signal: Span | null;
  estimate: Span;
  bandTops: readonly [number, number, number];
  bandPx: number;
  heightPx: number;
}

const FULL: StripRows = {
  seen: { topPx: 44, bottomPx: 70 },
  signal: { topPx: 84, bottomPx: 144 },
  estimate: { topPx: 162, bottomPx: 322 },
  bandTops: [372, 428, 484],
  bandPx: 22,
  heightPx: 516,
};

/** An answer sheet has no heat signal, and bands high enough to draw in. */
const BLANK: StripRows = {
  seen: { topPx: 44, bottomPx: 74 },
  signal: null,
  estimate: { topPx: 92, bottomPx: 262 },
  bandTops: [288, 346, 404],
  bandPx: 40,
  heightPx: 456,
};

/** Room for the names of the rows, left, and of the levels, right, px. Assumed: the longest name beside "10 000 lx"; less and they run together. */
export const STRIP_LABELS_PX = 164;
/** Assumed: "off 07:00:10 ▸" at 17 px; less and it leaves the page. */
export const STRIP_LEVELS_PX = 128;
/** Time to come beside the time that was, share. Assumed: enough for an edge with its words. */
const AHEAD_SHARE = 0.16;

function frameFor(data: StripData, box: StripBox, palette: Palette, blank: boolean): StripFrame {
  const { fromTick, toTick } = box;
  const endTick = blank ? toTick : Math.round(toTick + (toTick - fromTick) * AHEAD_SHARE);
  const plotPx = box.widthPx - STRIP_LABELS_PX - STRIP_LEVELS_PX;
  const k = plotPx / (endTick - fromTick);
  const xOf = (tick: Tick): number => (tick - fromTick) * k;
  const rows = blank ? BLANK : FULL;
  return { palette, scenario: data.scenario, fromTick, nowTick: toTick, endTick, plotPx, rows, xOf };
}

export interface StripGroup {
  svg: string;
  heightPx: number;
}

/** What happened up to the moment, which stands at the now-line; a group of its own. */
export function stripGroup(data: StripData, moment: Moment, box: StripBox, palette: Palette): StripGroup {
  const frame = frameFor(data, box, palette, false);
  const { thresholdsUv } = moment.frame;
  const plot = [
    ...axis(frame),
    ...seenRow(data.events, frame),
    ...signalRow(data.signalUv, thresholdsUv.hold, frame),
    ...estimateRow(data, moment.frame.light, frame),
    ...bandRows(data.events, moment.frame, frame),
    ...nowFlag(frame),
  ];
  return placed(plot, box, frame);
}

/** Answer sheet: what is given, and three bands to draw in. `moment` is where the sheet begins. */
export function blankStripGroup(data: StripData, moment: Moment, box: StripBox, palette: Palette): StripGroup {
  const frame = frameFor(data, box, palette, true);
  const plot = [
    ...axis(frame),
    ...seenRow(data.events, frame),
    ...estimateRow(data, moment.frame.light, frame),
    ...emptyBands(frame),
  ];
  return placed(plot, box, frame);
}

function placed(plot: string[], box: StripBox, frame: StripFrame): StripGroup {
  const at = `translate(${n2(box.x + STRIP_LABELS_PX)} ${n2(box.y)})`;
  return { svg: group({ transform: at }, plot), heightPx: frame.rows.heightPx };
}

const MARGIN_PX = 24;

/** The strip alone, as a whole drawing. */
export function stripSvg(
  data: StripData,
  moment: Moment,
  span: Pick<StripBox, 'fromTick' | 'toTick'>,
  palette: Palette = SCREEN_PALETTE,
): string {
  const { title, start } = moment.scenario;
  const strip = stripGroup(data, moment, { x: MARGIN_PX, y: MARGIN_PX, widthPx: 1080, ...span }, palette);
  const sheet = { widthPx: 1080 + 2 * MARGIN_PX, heightPx: strip.heightPx + 2 * MARGIN_PX, ink: palette.ink };
  const name = `${title}, ${clockAt(span.fromTick, start)} to ${clockAt(span.toTick, start)}`;
  return drawing(sheet, name, roomInWords(moment).join(' '), [strip.svg]);
}
