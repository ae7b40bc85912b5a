/** The strip chart as SVG text: what was seen, the signal, the estimates against their levels, the three outputs. */
import { scaleLog } from 'd3-scale';
import type { TraceEvent } from '../engine/trace.ts';
import type { OutputId, Scenario, Tick } from '../engine/types.ts';
import { type BandLook, bandStretches, visibleBars } from './bands.ts';
import { axisStepS } from './stripLayout.ts';
import { CHANNEL, INK, n2, tag, text } from './svg.ts';
import { en } from './text/en.ts';
import { hourMinute, localSeconds } from './text/format.ts';
import { outputName } from './text/names.ts';
import { type Grow, linePath, signalPath, strokesPath } from './traces.ts';

export interface StripData {
  scenario: Scenario;
  events: readonly TraceEvent[];
  signalUv: Grow;
  innerEstimateLx: Grow;
  windowEstimateLx: Grow;
  thresholdUv: number;
  levels: {
    innerSetLx: number | null;
    innerReleaseLx: number | null;
    windowSetLx: number | null;
    windowReleaseLx: number | null;
  };
}

export interface StripBox {
  x: number;
  y: number;
  widthPx: number;
  fromTick: Tick;
  toTick: Tick;
  /** An answer sheet: the bands stay empty. */
  blank: boolean;
}

const LABELS_PX = 130;
const ROWS = { axis: 18, seen: [30, 50], signal: [62, 106], estimate: [120, 216], bands: [236, 268, 300] } as const;
const BAND_PX = 18;
export const STRIP_HEIGHT_PX = 330;
const OUTPUTS: readonly OutputId[] = ['innerRow', 'windowRow', 'airContact'];

export function stripGroup(data: StripData, box: StripBox): string {
  const plotPx = box.widthPx - LABELS_PX;
  const body = [
    ...patterns(),
    ...axis(data.scenario, box, plotPx),
    ...seenRow(data, box, plotPx),
    ...signalRow(data, box, plotPx),
    ...estimateRow(data, box, plotPx),
    ...OUTPUTS.flatMap((output, i) => band(data, box, plotPx, output, ROWS.bands[i]!)),
  ];
  return tag('g', { transform: `translate(${n2(box.x)} ${n2(box.y)})` }, `\n${body.join('\n')}\n`);
}

const plotAt = { transform: `translate(${LABELS_PX} 0)` };

function rowLabel(y: number, label: string, fill: string = INK): string {
  return text(LABELS_PX - 12, y, label, { 'text-anchor': 'end', 'font-weight': 650, fill });
}

function patterns(): string[] {
  return OUTPUTS.map((output) => {
    const stroke = CHANNEL[output];
    const line = tag('path', { d: 'M-2 2L2 -2M0 8L8 0M6 10L10 6', stroke, 'stroke-width': 1.6 });
    return tag('pattern', { id: `hatch-${output}`, width: 8, height: 8, patternUnits: 'userSpaceOnUse' }, line);
  });
}

function axis(scenario: Scenario, { fromTick, toTick }: StripBox, plotPx: number): string[] {
  const spanS = (toTick - fromTick) / 10;
  const stepS = axisStepS(spanS, plotPx);
  const firstS = localSeconds(fromTick, scenario.start);
  const lines: string[] = [];
  for (let s = Math.ceil(firstS / stepS) * stepS; s <= firstS + spanS; s += stepS) {
    const x = ((s - firstS) / spanS) * plotPx;
    lines.push(tag('path', { d: `M${n2(x)} 24V${STRIP_HEIGHT_PX - 6}`, stroke: '#D5D3CC' }));
    lines.push(text(x, ROWS.axis, hourMinute(s), { 'text-anchor': 'middle', 'font-size': 14 }));
  }
  return [tag('g', plotAt, lines.join(''))];
}

function seenRow({ events }: StripData, { fromTick, toTick }: StripBox, plotPx: number): string[] {
  const [top, bottom] = ROWS.seen;
  const ticks = events.flatMap((e) => (e.kind === 'seen' ? [e.tick] : []));
  const d = strokesPath(ticks, fromTick, toTick, plotPx, top, bottom);
  const strokes = d ? [tag('path', { d, stroke: INK, 'stroke-width': 2, fill: 'none', ...plotAt })] : [];
  return [rowLabel(bottom - 4, en.recorder.seen), ...strokes];
}

function signalRow(data: StripData, { fromTick, toTick }: StripBox, plotPx: number): string[] {
  const [top, bottom] = ROWS.signal;
  const middle = (top + bottom) / 2;
  // Four times the threshold fills the row; what is larger is cut, as the threshold is what matters.
  const full = data.thresholdUv * 4;
  const y = (uv: number) => middle - (Math.max(-full, Math.min(full, uv)) / full) * (middle - top);
  const limits = [1, -1].map((sign) => `M0 ${n2(y(sign * data.thresholdUv))}h${n2(plotPx)}`).join('');
  const d = signalPath(data.signalUv, fromTick, toTick, plotPx, y);
  return [
    rowLabel(middle + 5, en.recorder.signal),
    tag('path', { d: limits, stroke: INK, 'stroke-width': 1, 'stroke-dasharray': '1 3', ...plotAt }),
    ...(d ? [tag('path', { d, stroke: INK, fill: 'none', ...plotAt })] : []),
  ];
}

function estimateRow(data: StripData, { fromTick, toTick }: StripBox, plotPx: number): string[] {
  const [top, bottom] = ROWS.estimate;
  const scale = scaleLog().domain([50, 5000]).range([bottom, top]).clamp(true);
  const y = (lx: number) => scale(Math.max(1, lx));
  const { innerSetLx, innerReleaseLx, windowSetLx, windowReleaseLx } = data.levels;
  const sameSet = innerSetLx === windowSetLx;
  const level = (lx: number | null, name: string, dashed: boolean, dy: number) =>
    lx === null
      ? []
      : [
          tag('path', {
            d: `M0 ${n2(y(lx))}h${n2(plotPx)}`,
            stroke: INK,
            'stroke-width': dashed ? 1 : 1.2,
            ...(dashed ? { 'stroke-dasharray': '5 4' } : {}),
            ...plotAt,
          }),
          text(LABELS_PX + plotPx - 4, y(lx) + dy, `${name} ${Math.round(lx)} lx`, {
            'text-anchor': 'end',
            'font-size': 14,
          }),
        ];
  const line = (grow: Grow, stroke: string, width: number) => {
    const d = linePath(grow, 10, fromTick, toTick, plotPx, y);
    return d ? [tag('path', { d, stroke, 'stroke-width': width, fill: 'none', ...plotAt })] : [];
  };
  return [
    rowLabel((top + bottom) / 2 - 4, en.recorder.estimate[0]!),
    rowLabel((top + bottom) / 2 + 14, en.recorder.estimate[1]!),
    ...level(innerReleaseLx, 'release', true, -5),
    ...level(innerSetLx, sameSet ? 'set' : 'set, inner row', false, 15),
    ...(sameSet
      ? []
      : [...level(windowSetLx, 'set, window row', false, 15), ...level(windowReleaseLx, 'release', true, -5)]),
    ...line(data.innerEstimateLx, CHANNEL.innerRow, 2),
    ...line(data.windowEstimateLx, CHANNEL.windowRow, 3),
  ];
}

function look(output: OutputId, kind: BandLook): Record<string, string | number> | null {
  const stroke = CHANNEL[output];
  switch (kind) {
    case 'off':
    case 'heldOff':
      return null;
    case 'watching':
      return { fill: '#FFFFFF', stroke, 'stroke-dasharray': '3 3' };
    case 'timing':
      return { fill: `url(#hatch-${output})`, stroke };
    case 'bright':
      return { fill: '#FFFFFF', stroke, 'stroke-width': 2 };
    default:
      return { fill: stroke, stroke };
  }
}

function band(data: StripData, box: StripBox, plotPx: number, output: OutputId, top: number): string[] {
  const { fromTick, toTick } = box;
  const stroke = CHANNEL[output];
  const base = tag('path', { d: `M0 ${top + BAND_PX}h${n2(plotPx)}`, stroke, 'stroke-width': 1.5, ...plotAt });
  const label = rowLabel(top + BAND_PX - 3, outputName[output], stroke);
  if (box.blank) {
    const empty = { x: 0, y: top, width: plotPx, height: BAND_PX, fill: '#FFFFFF', stroke, 'stroke-dasharray': '2 4' };
    return [label, tag('rect', { ...empty, ...plotAt })];
  }
  const start = {
    on: false,
    state: output === 'airContact' ? ('airOff' as const) : ('waiting' as const),
    phase: 'running' as const,
  };
  const stretches = bandStretches(data.events, output, start, toTick);
  const k = plotPx / (toTick - fromTick);
  const bars = visibleBars(stretches, fromTick, toTick, 1.5 / k).flatMap((bar) => {
    const paint = look(output, bar.look);
    const half = bar.look === 'bright';
    const place = { x: (bar.fromTick - fromTick) * k, y: top, width: (bar.toTick - bar.fromTick) * k, height: BAND_PX };
    if (!paint) return [];
    const lower = half
      ? tag('rect', { ...place, y: top + BAND_PX / 2, height: BAND_PX / 2, fill: stroke, ...plotAt })
      : '';
    return [tag('rect', { ...place, ...paint, ...plotAt }) + lower];
  });
  return [label, base, ...bars];
}
