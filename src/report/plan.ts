/** Plan of the room at an instant, as SVG text: cut walls, furniture, lamps, people, sun, readings. Survives a copier. */
import { corridorsUsed } from '../engine/room/corridor.ts';
import type { Moment } from './moment.ts';
import { type Palette, SCREEN_PALETTE } from './palette.ts';
import { planScale, planSizeM } from './planGeometry.ts';
import { lamps, marks, type PlanExtras, people, sightMap, walkLines } from './planLife.ts';
import { corridors, doors, furniture, type PlanPaper, sunOnFloor, walls, windows } from './planRoom.ts';
import { outputsBeside, scaleAndNorth } from './planSide.ts';
import { tags } from './planTags.ts';
import { drawing, group, n2 } from './svg.ts';
import { clockAt } from './text/format.ts';
import { roomInWords } from './words.ts';

export interface PlanBox {
  x: number;
  y: number;
  widthPx: number;
  heightPx: number;
}

export interface PlanGroup {
  svg: string;
  /** What the plan filled of the box's height, px. */
  heightPx: number;
}

/** Width of the column beside the plan, px. */
const BESIDE_PX = 196;

/** The plan in the box's upper left corner, the outputs beside it; a group of its own. */
export function planGroup(moment: Moment, box: PlanBox, palette: Palette, extras: PlanExtras = {}): PlanGroup {
  const { room } = moment.scenario;
  const used = corridorsUsed(moment.scenario);
  const k = planScale(room, box.widthPx - BESIDE_PX - 24, box.heightPx, used).pxPerM;
  const [widthPx, heightPx] = planSizeM(room, used).map((m) => m * k) as [number, number];
  const paper: PlanPaper = { scale: planScale(room, widthPx, heightPx, used), palette };
  const column = { x: widthPx + 24, top: 0, widthPx: BESIDE_PX };
  const body = [
    ...corridors(room, used, paper),
    ...walls(room, paper),
    ...sunOnFloor(moment, paper),
    ...sightMap(extras.sightCells ?? [], paper),
    ...windows(moment, paper),
    ...doors(moment, paper),
    ...furniture(moment.setup.furniture, paper),
    ...walkLines(extras.walkLinesM ?? [], paper),
    ...lamps(moment, paper),
    ...marks(extras.marksM ?? [], paper),
    ...people(moment, paper),
    ...tags(moment, paper),
    ...outputsBeside(moment, paper, column),
    ...scaleAndNorth(moment, paper, column),
  ];
  return { svg: group({ transform: `translate(${n2(box.x)} ${n2(box.y)})` }, body), heightPx };
}

const MARGIN_PX = 24;

/** The plan alone, as a whole drawing. */
export function planSvg(moment: Moment, palette: Palette = SCREEN_PALETTE, extras: PlanExtras = {}): string {
  const { title, start } = moment.scenario;
  const box = { x: MARGIN_PX, y: MARGIN_PX, widthPx: 1080, heightPx: 640 };
  const plan = planGroup(moment, box, palette, extras);
  const sheet = { widthPx: 1080 + 2 * MARGIN_PX, heightPx: plan.heightPx + 2 * MARGIN_PX, ink: palette.ink };
  return drawing(sheet, `${title}, ${clockAt(moment.frame.tick, start)}`, roomInWords(moment).join(' '), [plan.svg]);
}
