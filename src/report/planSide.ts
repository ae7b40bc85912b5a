/** Beside the plan, outside the room: the outputs with their badges, a scale and north. */
import type { OutputId } from '../engine/types.ts';
import { badgeMark } from './badgeShape.ts';
import type { Moment } from './moment.ts';
import type { PlanPaper } from './planRoom.ts';
import { line, n2, tag, text, wrapped } from './svg.ts';
import { outputWords } from './text/badges.ts';
import { en } from './text/en.ts';
import { outputName } from './text/names.ts';

export interface Column {
  x: number;
  top: number;
  widthPx: number;
}

/** Height of one output's words with its badge, px. */
const BLOCK_PX = 96;
const BADGE_PX = 40;
/** Height of the scale over them, px. */
const SCALE_PX = 52;

function meanY(moment: Moment, paper: PlanPaper, row: 'inner' | 'window'): number {
  const lamps = (moment.setup.luminaires ?? moment.scenario.room.luminaires).filter((lamp) => lamp.row === row);
  const sum = lamps.reduce((y, lamp) => y + paper.scale.y(lamp.atM[1]), 0);
  return lamps.length > 0 ? sum / lamps.length : 0;
}

/** Rows stand at the height of their lamps where they can; the air contact below. */
function blockTops(moment: Moment, paper: PlanPaper, column: Column): Record<OutputId, number> {
  const wanted: [OutputId, number][] = [
    ['windowRow', meanY(moment, paper, 'window') - 26],
    ['innerRow', meanY(moment, paper, 'inner') - 26],
    ['airContact', Number.NEGATIVE_INFINITY],
  ];
  const tops = { windowRow: 0, innerRow: 0, airContact: 0 };
  let free = column.top + SCALE_PX;
  for (const [output, y] of wanted) {
    tops[output] = Math.max(free, y);
    free = tops[output] + BLOCK_PX;
  }
  return tops;
}

/** How far a running count still has to go, 0-1. */
export function countLeft({ frame }: Moment, output: OutputId): number {
  const { sinceTick, untilTick } = frame.outputs[output];
  if (sinceTick === null || untilTick === null || untilTick <= sinceTick) return 1;
  return (untilTick - frame.tick) / (untilTick - sinceTick);
}

/** Badge, name and words of every output. */
export function outputsBeside(moment: Moment, paper: PlanPaper, column: Column): string[] {
  const tops = blockTops(moment, paper, column);
  return (Object.keys(tops) as OutputId[]).flatMap((output) => {
    const view = moment.frame.outputs[output];
    const { word, rest } = outputWords(view, moment.frame.tick);
    const colour = paper.palette.channel[output];
    const x = column.x + BADGE_PX + 12;
    const y = tops[output];
    const lines = rest ? wrapped(rest, column.widthPx - BADGE_PX - 12, 17) : [];
    return [
      badgeMark(view.badge, countLeft(moment, output), column.x, y, BADGE_PX, colour),
      text(x, y + 16, outputName[output], { 'font-weight': 680, fill: colour }),
      text(x, y + 38, word, { 'font-weight': 760, 'font-size': 19 }),
      ...lines.map((words, i) => text(x, y + 59 + i * 20, words)),
    ];
  });
}

/** A bar of one metre and an arrow to north, at the head of the column. */
export function scaleAndNorth({ scenario }: Moment, { scale, palette }: PlanPaper, column: Column): string[] {
  const { x, top } = column;
  const k = scale.pxPerM;
  const y = top + 24;
  const turned = {
    transform: `translate(${n2(x + k + 36)} ${n2(y - 8)}) rotate(${n2(-scenario.room.backWallFacesDeg)})`,
  };
  return [
    line(`M${n2(x)} ${n2(y - 4)}v8h${n2(k)}v-8`, palette.ink, 2),
    text(x + k / 2, y - 6, '1 m', { 'text-anchor': 'middle' }),
    tag('g', turned, line('M0 16V-14M-6 -6L0 -16L6 -6', palette.ink, 2)),
    text(x + k + 60, y - 2, en.draw.north),
  ];
}
