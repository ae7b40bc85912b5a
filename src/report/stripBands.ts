/** The three outputs as bands. Patterns tell them apart without colour; edges carry their clock where there is room. */
import type { Frame } from '../engine/frame.ts';
import type { TraceEvent } from '../engine/trace.ts';
import type { OutputId } from '../engine/types.ts';
import { type BandLook, type BandStart, bandStretches, type Stretch, visibleBars } from './bands.ts';
import type { Palette } from './palette.ts';
import type { StripFrame } from './strip.ts';
import { rowLabel } from './stripRows.ts';
import { line, n2, tag, text } from './svg.ts';
import { en } from './text/en.ts';
import { clockAt } from './text/format.ts';
import { outputName } from './text/names.ts';

/** Bands from top to bottom. Source: the order of the Recorder. */
export const OUTPUTS: readonly OutputId[] = ['innerRow', 'windowRow', 'airContact'];

/** Room that "off 11:28:40" needs, px. */
const EDGE_PX = 112;

/** Patterns of time running out, one for each output. */
export function hatches(palette: Palette): string[] {
  return OUTPUTS.map((output) => {
    const stripe = tag('rect', { width: 2.4, height: 6.5, fill: palette.channel[output] });
    const way = { width: 6.5, height: 6.5, patternUnits: 'userSpaceOnUse', patternTransform: 'rotate(45)' };
    return tag('pattern', { id: `hatch-${output}`, ...way }, stripe);
  });
}

function startOf(output: OutputId, supplyAtStart: boolean): BandStart {
  const state = output === 'airContact' ? 'airOff' : 'waiting';
  return { on: false, state, phase: supplyAtStart ? 'running' : 'off' };
}

/** What the outputs did up to now, and what time alone will do. */
export function bandRows(events: readonly TraceEvent[], now: Frame, frame: StripFrame): string[] {
  return [
    ...hatches(frame.palette),
    ...OUTPUTS.flatMap((output, i) => {
      const top = frame.rows.bandTops[i]!;
      return [
        ...band(events, output, top, frame),
        ...edges(events, output, top, frame),
        ...expected(now, output, top, frame),
      ];
    }),
  ];
}

function baseAndName(output: OutputId, top: number, { plotPx, rows, palette }: StripFrame): string[] {
  const colour = palette.channel[output];
  const bottom = top + rows.bandPx;
  return [
    rowLabel(top + rows.bandPx / 2 + 6, outputName[output], colour),
    line(`M0 ${bottom}h${n2(plotPx)}`, colour, 1.5),
  ];
}

function band(events: readonly TraceEvent[], output: OutputId, top: number, frame: StripFrame): string[] {
  const { fromTick, nowTick, xOf, rows, palette } = frame;
  const all = bandStretches(events, output, startOf(output, frame.scenario.supplyAtStart), nowTick);
  const leastTicks = (nowTick - fromTick) / xOf(nowTick);
  const bars = visibleBars(all, fromTick, nowTick, leastTicks);
  return [
    ...baseAndName(output, top, frame),
    ...bars.flatMap((bar: Stretch) => {
      const x = xOf(bar.fromTick);
      return barShape(bar.look, output, { x, y: top, width: xOf(bar.toTick) - x, height: rows.bandPx }, palette);
    }),
  ];
}

export interface BarBox {
  x: number;
  y: number;
  width: number;
  height: number;
}

/** Bar of a look: the same shapes as on the page. */
export function barShape(look: BandLook, output: OutputId, box: BarBox, palette: Palette): string[] {
  const { x, y, width, height } = box;
  const colour = palette.channel[output];
  const hollow = tag('rect', { ...box, fill: '#FFFFFF', stroke: colour, 'stroke-width': 1.5 });
  const hatched = tag('rect', { ...box, fill: `url(#hatch-${output})` });
  switch (look) {
    case 'off':
      return [];
    case 'seen':
      return [tag('rect', { ...box, fill: colour })];
    case 'timing':
      return [
        tag('rect', { ...box, fill: '#FFFFFF' }),
        ...(palette.tint > 0 ? [tag('rect', { ...box, fill: colour, opacity: palette.tint })] : []),
        hatched,
        line(`M${n2(x)} ${y + 1}h${n2(width)}`, colour, 2),
      ];
    case 'bright':
      return [hollow, tag('rect', { x, y: y + height / 2, width, height: height / 2, fill: colour })];
    case 'watching': {
      const inner = { x: x + 1, y: y + 1, width: Math.max(1, width - 2), height: height - 2 };
      return [tag('rect', { ...inner, fill: 'none', stroke: colour, 'stroke-width': 1.5, 'stroke-dasharray': '4 3' })];
    }
    case 'held':
      return [
        tag('rect', { ...box, fill: colour }),
        line(`M${n2(x)} ${n2(y + height / 2)}h${n2(width)}`, '#FFFFFF', 3),
      ];
    case 'heldOff':
      return [
        tag('rect', { x, y: y + height - 7, width, height: 7, fill: '#FFFFFF', stroke: colour, 'stroke-width': 1.5 }),
      ];
    case 'starting':
    case 'walkTest':
      return [hollow, hatched];
  }
}

/** "on 06:50:02" over each switching, as long as the words keep apart. */
function edges(events: readonly TraceEvent[], output: OutputId, top: number, frame: StripFrame): string[] {
  const { fromTick, nowTick, xOf, palette, scenario } = frame;
  let freeX = 0;
  return events.flatMap((event) => {
    if (event.kind !== 'output' || event.output !== output || event.tick < fromTick || event.tick > nowTick) return [];
    const x = Math.max(0, xOf(event.tick));
    if (x < freeX || x + EDGE_PX > xOf(nowTick)) return [];
    freeX = x + EDGE_PX + 8;
    const clock = clockAt(event.tick, scenario.start);
    const words = event.on ? en.recorder.onAt(clock) : en.recorder.offAt(clock);
    return [text(x, top - 6, words, { 'font-weight': 650, fill: palette.channel[output] })];
  });
}

/** Where time alone will switch it: an open triangle ahead of now, or the clock at the edge of the drawing. */
function expected(now: Frame, output: OutputId, top: number, frame: StripFrame): string[] {
  const { nowTick, endTick, plotPx, xOf, palette, rows, scenario } = frame;
  const view = now.outputs[output];
  const turnsOn = view.badge === 'watching';
  if (view.untilTick === null || (!turnsOn && !view.on)) return [];
  const colour = palette.channel[output];
  const clock = clockAt(view.untilTick, scenario.start);
  const words = turnsOn ? en.recorder.onAt(clock) : en.recorder.offAt(clock);
  const outside = view.untilTick > endTick;
  const toX = Math.min(plotPx, xOf(view.untilTick));
  const y = top + 3;
  const label = { 'font-weight': 650, fill: colour };
  return [
    line(`M${n2(xOf(nowTick))} ${y}H${n2(toX)}`, colour, 1.5, { 'stroke-dasharray': '4 3' }),
    ...(outside
      ? []
      : [
          tag('path', {
            d: `M${n2(toX - 7)} ${top - 11}h14l-7 12z`,
            fill: '#FFFFFF',
            stroke: colour,
            'stroke-width': 1.5,
          }),
        ]),
    text(plotPx + 10, top + rows.bandPx / 2 + 5, outside ? `${words} ▸` : words, label),
  ];
}

/** Three bands to draw in: a frame in dots and a base line. */
export function emptyBands(frame: StripFrame): string[] {
  const { rows, plotPx, palette } = frame;
  return OUTPUTS.flatMap((output, i) => {
    const top = rows.bandTops[i]!;
    const frameOfBand = { x: 0, y: top, width: plotPx, height: rows.bandPx, fill: 'none', stroke: palette.soft };
    return [tag('rect', { ...frameOfBand, 'stroke-dasharray': '2 4' }), ...baseAndName(output, top, frame)];
  });
}
