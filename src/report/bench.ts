/** One side of the Split Bench as SVG text: the room from above, and what happened in it with the acts as numbers. */
import type { Frame } from '../engine/frame.ts';
import { corridorsUsed } from '../engine/room/corridor.ts';
import type { TraceEvent } from '../engine/trace.ts';
import type { Scenario, Tick } from '../engine/types.ts';
import type { RoomMoment } from './moment.ts';
import { type Palette, SCREEN_PALETTE } from './palette.ts';
import { planScale } from './planGeometry.ts';
import { lamps, people } from './planLife.ts';
import { corridors, doors, furniture, type PlanPaper, sunOnFloor, walls, windows } from './planRoom.ts';
import { detector } from './planTags.ts';
import type { StripFrame, StripRows } from './strip.ts';
import { bandRows } from './stripBands.ts';
import { axis, nowFlag, seenRow } from './stripRows.ts';
import { drawing, group, tag, text } from './svg.ts';

/** Drawings are made at half the size that a wall shows: type of 17 px becomes 34, lines of 2 px 4. */
export const BENCH_ZOOM = 2;

/** Source: theme/big.css, whose ratios hold on the lightest grounds. */
const BIG_PALETTE: Palette = {
  ...SCREEN_PALETTE,
  soft: '#333D47',
  rule: '#8D9399',
  ahead: '#F1F0EC',
  channel: { innerRow: '#352B94', windowRow: '#004F56', airContact: '#6F3300' },
};

/** Nothing thinner than 2 px: at twice the size the last row sees it. Names inside are this bench's own. */
function projected(svg: string, side: string): string {
  return svg
    .replace(/stroke-width="(?:0?\.\d+|1(?:\.\d+)?)"/g, 'stroke-width="2"')
    .replaceAll('"floor"', `"floor-${side}"`)
    .replaceAll('#floor)', `#floor-${side})`)
    .replaceAll('hatch-', `hatch-${side}-`)
    .replace('aria-labelledby="title desc"', '')
    .replace(/<(title|desc) id="[^"]*"/g, '<$1');
}

export interface BenchSheet {
  /** Tells the two drawings of one page apart. */
  side: string;
  title: string;
  widthPx: number;
  heightPx: number;
}

/** The room at an instant, without readings. */
export function benchPlan(moment: RoomMoment, { side, title, widthPx, heightPx }: BenchSheet): string {
  const { room } = moment.scenario;
  const used = corridorsUsed(moment.scenario);
  const paper: PlanPaper = { scale: planScale(room, widthPx, heightPx, used), palette: BIG_PALETTE };
  const [x, y] = moment.setup.mount.atM;
  const body = [
    ...corridors(room, used, paper),
    ...walls(room, paper),
    ...sunOnFloor(moment, paper),
    ...windows(moment, paper),
    ...doors(moment, paper),
    ...furniture(moment.setup.furniture, paper),
    ...lamps(moment, paper),
    ...detector(moment, { x: paper.scale.x(x), y: paper.scale.y(y) }, paper),
    ...people(moment, paper),
  ];
  return projected(drawing({ widthPx, heightPx, ink: BIG_PALETTE.ink }, title, title, body), side);
}

/** Room for "Window row" at the left, px. */
const LABELS_PX = 122;

const ROWS: StripRows = {
  seen: { topPx: 38, bottomPx: 54 },
  signal: null,
  estimate: { topPx: 60, bottomPx: 60 },
  bandTops: [104, 142, 180],
  bandPx: 15,
  heightPx: 200,
};

/** Height of a strip, px. */
export const BENCH_STRIP_PX = ROWS.heightPx + 4;

/** Middle of the row of acts, px. */
const ACTS_PX = 70;
const ACT_R_PX = 10;

/** Time shown after the end, share of the whole. Assumed: half the width of the now-flag. */
const AFTER_SHARE = 0.1;

export interface BenchRun {
  scenario: Scenario;
  events: readonly TraceEvent[];
  frame: Frame;
  /** Instants of the acts, in order. */
  actTicks: readonly Tick[];
  fromTick: Tick;
  endTick: Tick;
}

/** What was seen and decided up to now, the acts over it as numbers. */
export function benchStrip(run: BenchRun, { side, title, widthPx }: Omit<BenchSheet, 'heightPx'>): string {
  const { scenario, events, frame, fromTick } = run;
  // The flag at the end stands inside the drawing.
  const endTick = Math.ceil(run.endTick + (run.endTick - fromTick) * AFTER_SHARE);
  const plotPx = widthPx - LABELS_PX;
  const xOf = (tick: Tick): number => ((tick - fromTick) / (endTick - fromTick)) * plotPx;
  const strip: StripFrame = {
    palette: BIG_PALETTE,
    scenario,
    fromTick,
    nowTick: frame.tick,
    endTick,
    plotPx,
    rows: ROWS,
    xOf,
  };
  const known = events.filter(({ tick }) => tick <= frame.tick);
  const still = { ...frame, outputs: withoutForecast(frame) };
  const body = [
    ...axis(strip),
    ...seenRow(known, strip),
    ...bandRows(known, still, strip),
    ...acts(run, xOf, plotPx),
    ...nowFlag(strip),
  ];
  const sheet = { widthPx, heightPx: BENCH_STRIP_PX, ink: BIG_PALETTE.ink };
  const placed = group({ transform: `translate(${LABELS_PX} 0)` }, body);
  return projected(drawing(sheet, title, title, [placed]), side);
}

/** What time alone would do has no room beside the names. */
function withoutForecast({ outputs }: Frame): Frame['outputs'] {
  const still = <T extends { untilTick: Tick | null }>(output: T): T => ({ ...output, untilTick: null });
  return {
    innerRow: still(outputs.innerRow),
    windowRow: still(outputs.windowRow),
    airContact: still(outputs.airContact),
  };
}

interface Cluster {
  first: number;
  last: number;
  x: number;
}

/** Type of an act's number, px, and the mean width of a figure in it. */
const ACT_TYPE_PX = 16;
const FIGURE_PX = 9;

const numbersOf = ({ first, last }: Cluster): string => (first === last ? `${first + 1}` : `${first + 1}–${last + 1}`);
const halfPx = (cluster: Cluster): number => Math.max(ACT_R_PX, (numbersOf(cluster).length * FIGURE_PX) / 2 + 5);

/** Acts that would stand on each other share a disc with the numbers of the first and the last; done ones are solid. */
function acts({ actTicks, frame, fromTick }: BenchRun, xOf: (tick: Tick) => number, plotPx: number): string[] {
  const clusters: Cluster[] = [];
  for (const [i, tick] of actTicks.entries()) {
    const x = xOf(Math.max(tick, fromTick));
    const open = clusters.at(-1);
    // Done and still to come never share one.
    const sameSide = open && actTicks[open.last]! <= frame.tick === tick <= frame.tick;
    if (open && sameSide && x < open.x + halfPx({ ...open, last: i }) + ACT_R_PX) open.last = i;
    else clusters.push({ first: i, last: i, x });
  }
  let freeX = 0;
  return clusters.flatMap((cluster) => {
    const half = halfPx(cluster);
    const x = Math.max(freeX + half, Math.min(plotPx - half, cluster.x));
    freeX = x + half + 2;
    const done = actTicks[cluster.first]! <= frame.tick;
    const { ink } = BIG_PALETTE;
    const pill = { x: x - half, y: ACTS_PX - ACT_R_PX, width: 2 * half, height: 2 * ACT_R_PX, rx: ACT_R_PX };
    return [
      tag('rect', { ...pill, fill: done ? ink : '#FFFFFF', stroke: ink, 'stroke-width': 2 }),
      text(x, ACTS_PX + 6, numbersOf(cluster), {
        'text-anchor': 'middle',
        'font-size': ACT_TYPE_PX,
        'font-weight': 700,
        fill: done ? '#FFFFFF' : ink,
      }),
    ];
  });
}
