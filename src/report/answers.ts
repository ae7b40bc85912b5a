/** Lower half of an answer sheet: the settings that are given, and lines to write on. */
import type { Frame, RowLightView } from '../engine/frame.ts';
import type { ControllerSettings } from '../engine/types.ts';
import type { Palette } from './palette.ts';
import { OUTPUTS } from './stripBands.ts';
import { line, n2, text } from './svg.ts';
import { en } from './text/en.ts';
import { luxText, minuteSecond } from './text/format.ts';
import { outputName } from './text/names.ts';
import { settingValue } from './text/settings.ts';

export interface TableBox {
  x: number;
  y: number;
  widthPx: number;
}

const ROW_PX = 29;

/** "500 lx, 600 lx" as in force where the sheet begins. */
function levelsOf({ setpointLx, releaseLx }: RowLightView): string {
  if (setpointLx === null) return en.setup.ignoreBrightness;
  return releaseLx === null ? luxText(setpointLx) : `${luxText(setpointLx)}, ${luxText(releaseLx)}`;
}

/** Rows of the table: name, inner row, window row, air contact. */
function settingRows(s: ControllerSettings, light: Frame['light']): [string, string, string, string][] {
  const { none } = en.draw;
  const dwells = `${minuteSecond(s.brightDwellS)}, ${minuteSecond(s.darkDwellS)}`;
  const windowDelayS = s.delaysCoupled ? s.innerOffDelayS : s.windowOffDelayS;
  return [
    [en.draw.levels, levelsOf(light.inner), levelsOf(light.window), none],
    [en.setup.offDelay, minuteSecond(s.innerOffDelayS), minuteSecond(windowDelayS), minuteSecond(s.airOffDelayS)],
    [en.setup.onDelay, none, none, minuteSecond(s.airOnDelayS)],
    [en.draw.dwells, dwells, dwells, none],
    [en.setup.mode, settingValue('innerMode', s.innerMode), settingValue('windowMode', s.windowMode), none],
  ];
}

/** Settings that are needed to foresee the outputs; `light` gives the levels in force. */
export function settingsTable(
  settings: ControllerSettings,
  light: Frame['light'],
  box: TableBox,
  palette: Palette,
): { svg: string[]; heightPx: number } {
  const columns = [0, 0.28, 0.53, 0.78].map((share) => box.x + share * box.widthPx);
  const rows = settingRows(settings, light);
  const headings = [en.draw.given, ...OUTPUTS.map((output) => outputName[output])];
  const svg = [
    ...headings.map((words, i) => text(columns[i]!, box.y, words, { 'font-weight': 680 })),
    line(`M${box.x} ${box.y + 9}h${box.widthPx}`, palette.ink, 1.5),
    ...rows.flatMap((cells, r) => cells.map((words, i) => text(columns[i]!, box.y + (r + 1) * ROW_PX + 2, words))),
  ];
  return { svg, heightPx: rows.length * ROW_PX + 10 };
}

const ANSWER_PX = 46;

/** Where each part of an answer begins and how much its name takes, share of the width and px. */
const PARTS = [
  { words: en.draw.onAt, from: 0.16, to: 0.34, namePx: 58 },
  { words: en.draw.offAt, from: 0.36, to: 0.54, namePx: 58 },
  { words: en.draw.because, from: 0.56, to: 1, namePx: 76 },
] as const;

/** One ruled line for each output: on at, off at, because. */
export function answerTable({ x, y, widthPx }: TableBox, palette: Palette): string[] {
  const lines = OUTPUTS.flatMap((output, r) => {
    const at = y + (r + 1) * ANSWER_PX;
    const name = text(x, at, outputName[output], { 'font-weight': 680 });
    const parts = PARTS.flatMap(({ words, from, to, namePx }) => [
      text(x + from * widthPx, at, words, { fill: palette.soft }),
      line(`M${n2(x + from * widthPx + namePx)} ${at + 4}H${n2(x + to * widthPx)}`, palette.ink, 1.2),
    ]);
    return [name, ...parts];
  });
  return [text(x, y, en.draw.task, { 'font-weight': 680 }), ...lines];
}
