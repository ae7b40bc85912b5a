/** Rows of the strip above the bands; every row is drawn with the plot's left edge at x = 0. */
import { scaleLog } from 'd3-scale';
import type { Frame } from '../engine/frame.ts';
import type { TraceEvent } from '../engine/trace.ts';
import type { Tick } from '../engine/types.ts';
import type { StripData, StripFrame } from './strip.ts';
import { axisStepS } from './stripLayout.ts';
import { HALO, line, n2, tag, text } from './svg.ts';
import { en } from './text/en.ts';
import { clockAt, localSeconds, luxText } from './text/format.ts';
import { type Grow, linePath, signalPath, strokesPath } from './traces.ts';

/** Name of a row, left of the plot. */
export function rowLabel(y: number, label: string, fill: string, x = -16): string {
  return text(x, y, label, { 'text-anchor': 'end', 'font-weight': 650, fill });
}

/** Room that a clock needs on the axis, px. */
const CLOCK_PX = 110;

/** Local clock; seconds only where labels stand closer than a minute. */
export function axis(frame: StripFrame): string[] {
  const { fromTick, endTick, nowTick, plotPx, rows, palette, scenario, xOf } = frame;
  const stepS = axisStepS((endTick - fromTick) / 10, plotPx, CLOCK_PX);
  const startS = localSeconds(0, scenario.start);
  const out: string[] = [];
  if (palette.ahead && endTick > nowTick) {
    const x = xOf(nowTick);
    out.push(tag('rect', { x, y: 34, width: plotPx - x, height: rows.heightPx - 34, fill: palette.ahead }));
  }
  for (let s = Math.ceil((startS + fromTick / 10) / stepS) * stepS - startS; s * 10 <= endTick; s += stepS) {
    const x = xOf(s * 10);
    const clock = clockAt(s * 10, scenario.start);
    const underFlag = endTick > nowTick && Math.abs(x - xOf(nowTick)) < 70;
    out.push(
      line(`M${n2(x)} 34V${rows.heightPx}`, palette.rule, 1, palette.ahead ? {} : { 'stroke-dasharray': '1 4' }),
    );
    if (!underFlag) out.push(text(x, 22, stepS < 60 ? clock : clock.slice(0, 5), { 'text-anchor': 'middle' }));
  }
  return out;
}

/** Ticks at which movement restarted the delays: counted pulses, and movement that came from outside the lens. */
export function countedTicks(events: readonly TraceEvent[]): Tick[] {
  return events.flatMap((event) => {
    const counted = (event.kind === 'pulse' && event.counted) || (event.kind === 'seen' && event.by !== 'pulse');
    return counted ? [event.tick] : [];
  });
}

/** A stroke for each counted pulse. */
export function seenRow(events: readonly TraceEvent[], frame: StripFrame): string[] {
  const { fromTick, nowTick, rows, palette, plotPx, xOf } = frame;
  const { topPx, bottomPx } = rows.seen;
  const d = strokesPath(countedTicks(events), fromTick, nowTick, xOf(nowTick), topPx, bottomPx);
  return [
    rowLabel(bottomPx - 7, en.recorder.seen, palette.ink),
    line(`M0 ${bottomPx}h${n2(plotPx)}`, palette.rule, 1),
    ...(d ? [line(d, palette.ink, 2)] : []),
  ];
}

/** Signals taller than this many thresholds are cut off. Assumed: near walks reach many times the threshold; the shape near it matters. */
const SIGNAL_TOP = 2.2;

/** The strongest signal of all channels between its thresholds; nothing where the rows leave it out. */
export function signalRow(signalUv: Grow, thresholdUv: number, frame: StripFrame): string[] {
  const { fromTick, nowTick, rows, palette, plotPx, xOf } = frame;
  if (!rows.signal) return [];
  const { topPx, bottomPx } = rows.signal;
  const middle = (topPx + bottomPx) / 2;
  const y = (uv: number): number =>
    middle - Math.max(-1, Math.min(1, uv / (thresholdUv * SIGNAL_TOP))) * (middle - topPx);
  const d = signalPath(signalUv, fromTick, nowTick, xOf(nowTick), y);
  const limits = [1, -1].map((sign) => `M0 ${n2(y(sign * thresholdUv))}h${n2(plotPx)}`).join('');
  return [
    rowLabel(middle + 6, en.recorder.signal, palette.ink),
    ...(d ? [line(d, palette.soft, 1)] : []),
    line(limits, palette.ink, 1.2, { 'stroke-dasharray': '2 3' }),
    text(plotPx + 10, y(thresholdUv) + 6, en.draw.threshold),
  ];
}

/** Ends of the log axis, lx: from here, and to the first of these that holds the data. Assumed: under 50 lx all is dark to a setpoint. */
const AXIS_FROM_LX = 50;
const AXIS_TO_LX = [2000, 5000, 20_000, 100_000] as const;

function highest(grow: Grow, fromTick: Tick): number {
  let high = 0;
  for (let i = Math.max(0, Math.floor(fromTick / 10)); i < grow.length; i++) high = Math.max(high, grow.values[i]!);
  return high;
}

type Limit = { lx: number; kind: 'set' | 'release'; rows: string[] };

/** Levels in force; two rows with the same figure share a line. */
function limitsOf(light: Frame['light']): Limit[] {
  const out: Limit[] = [];
  const add = (kind: Limit['kind'], lx: number | null, row: string): void => {
    if (lx === null) return;
    const same = out.find((limit) => limit.kind === kind && Math.abs(limit.lx - lx) < 0.5);
    if (same) same.rows.push(row);
    else out.push({ lx, kind, rows: [row] });
  };
  for (const row of ['inner', 'window'] as const) {
    const name = row === 'inner' ? en.recorder.innerShort : en.recorder.windowShort;
    add('set', light[row].setpointLx, name);
    add('release', light[row].releaseLx, name);
  }
  return out;
}

/** Lines of the levels, named at the right edge; names keep a line's height apart. */
function levels(limits: readonly Limit[], y: (lx: number) => number, frame: StripFrame): string[] {
  const { plotPx, palette } = frame;
  const sorted = [...limits].sort((a, b) => a.lx - b.lx);
  let free = Number.POSITIVE_INFINITY;
  return sorted.flatMap((limit, i) => {
    const at = y(limit.lx);
    const d = `M0 ${n2(at)}h${n2(plotPx)}`;
    const drawn =
      limit.kind === 'set' ? line(d, palette.ink, 1.4) : line(d, palette.ink, 1.2, { 'stroke-dasharray': '5 4' });
    const words = limit.kind === 'set' ? en.recorder.set(luxText(limit.lx)) : en.recorder.release(luxText(limit.lx));
    // The lowest name stands a little under its line, each further one at least a line higher.
    const labelY = Math.min(at + (i === 0 ? 12 : 2), free);
    free = labelY - 19;
    const whose = limit.rows.length === 1 ? ` ${limit.rows[0]}` : '';
    const size = whose ? { 'font-size': 14 } : {};
    return [drawn, text(plotPx + 10, labelY, words + whose, size)];
  });
}

/** The row's name ends here, so that the axis has room for "10 000 lx", px. */
const BESIDE_AXIS_PX = -88;
/** Values marked on the axis, lx. */
const AXIS_MARKS_LX = [AXIS_FROM_LX, 100, 1000, 10_000] as const;

/** Both daylight estimates on a log axis with the levels they meet. */
export function estimateRow(data: StripData, light: Frame['light'], frame: StripFrame): string[] {
  const { fromTick, nowTick, rows, palette, plotPx, xOf } = frame;
  const { topPx, bottomPx } = rows.estimate;
  const traces = [data.windowEstimateLx, data.innerEstimateLx] as const;
  const high = Math.max(...traces.map((grow) => highest(grow, fromTick)));
  const toLx = AXIS_TO_LX.find((lx) => lx >= high) ?? 100_000;
  const scale = scaleLog().domain([AXIS_FROM_LX, toLx]).range([bottomPx, topPx]).clamp(true);
  const y = (lx: number): number => (Number.isNaN(lx) ? Number.NaN : scale(Math.max(1, lx)));
  const middle = (topPx + bottomPx) / 2;
  const trace = (grow: Grow, stroke: string, width: number): string[] => {
    const d = linePath(grow, 10, fromTick, nowTick, xOf(nowTick), y);
    return d ? [line(d, stroke, width)] : [];
  };
  const dotted = { 'stroke-dasharray': '1 4' };
  const marks = AXIS_MARKS_LX.filter((lx) => lx < toLx).flatMap((lx) => [
    line(`M0 ${n2(y(lx))}h${n2(plotPx)}`, palette.rule, 1, palette.ahead ? {} : dotted),
    text(-8, y(lx) + 5, lx === AXIS_FROM_LX ? `≤ ${luxText(lx)}` : luxText(lx), {
      'text-anchor': 'end',
      fill: palette.soft,
    }),
  ]);
  const [windowTrace, innerTrace] = traces;
  return [
    rowLabel(middle - 10, en.recorder.estimate[0]!, palette.ink, BESIDE_AXIS_PX),
    rowLabel(middle + 10, en.recorder.estimate[1]!, palette.ink, BESIDE_AXIS_PX),
    ...marks,
    ...levels(limitsOf(light), y, frame),
    ...trace(windowTrace, palette.channel.windowRow, 3.2),
    ...trace(innerTrace, palette.channel.innerRow, 2),
    ...traceNames(windowTrace, innerTrace, y, frame),
  ];
}

/** Where the traces are named, share of the known time. */
const NAME_AT = [0.72, 0.5, 0.3, 0.88] as const;

/** Names at the traces themselves, the brighter above and the darker below. */
function traceNames(windowTrace: Grow, innerTrace: Grow, y: (lx: number) => number, frame: StripFrame): string[] {
  const { fromTick, nowTick, palette, xOf } = frame;
  const at = (grow: Grow, tick: Tick): number => grow.values[Math.min(grow.length - 1, Math.floor(tick / 10))] ?? 0;
  const apart = (share: number): number => {
    const tick = fromTick + (nowTick - fromTick) * share;
    return Math.abs(y(at(windowTrace, tick)) - y(at(innerTrace, tick)));
  };
  const share = [...NAME_AT].sort((a, b) => apart(b) - apart(a))[0]!;
  const tick = fromTick + (nowTick - fromTick) * share;
  const [window, inner] = [at(windowTrace, tick), at(innerTrace, tick)];
  const name = (words: string, lx: number, above: boolean, fill: string): string =>
    text(xOf(tick), y(lx) + (above ? -9 : 19), words, { 'text-anchor': 'middle', 'font-weight': 650, fill, ...HALO });
  return [
    name(en.recorder.windowShort, window, window >= inner, palette.channel.windowRow),
    name(en.recorder.innerShort, inner, inner > window, palette.channel.innerRow),
  ];
}

/** The instant that the plan shows. */
export function nowFlag({ nowTick, rows, palette, xOf }: StripFrame): string[] {
  const x = xOf(nowTick);
  const flag = `M${n2(x - 34)} 2h68v22h-26l-8 10l-8 -10h-26z`;
  return [
    line(`M${n2(x)} 30V${rows.heightPx}`, palette.ink, 2),
    tag('path', { d: flag, fill: palette.sun ? '#FFC629' : '#FFFFFF', stroke: palette.ink, 'stroke-width': 1.5 }),
    text(x, 19, en.recorder.now, { 'text-anchor': 'middle', 'font-weight': 700 }),
  ];
}
