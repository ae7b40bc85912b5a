/** Lower half of an answer sheet: the settings that are given, and lines to write on. */
import type { ControllerSettings } from '../engine/types.ts';
import type { Palette } from './palette.ts';
import { OUTPUTS } from './stripBands.ts';
import { line, text } from './svg.ts';
import { en } from './text/en.ts';
import { minuteSecond } from './text/format.ts';
import { outputName } from './text/names.ts';
import { settingValue } from './text/settings.ts';

export interface TableBox {
  x: number;
  y: number;
  widthPx: number;
}

const ROW_PX = 29;

/** Rows of the table: name, inner row, window row, air contact. */
function settingRows(s: ControllerSettings): [string, string, string, string][] {
  const both = (text: string, air: string): [string, string, string] => [text, text, air];
  const { none } = en.draw;
  const release = s.releaseMarginLx === null ? en.setup.automatic : settingValue('releaseMarginLx', s.releaseMarginLx);
  const windowDelayS = s.delaysCoupled ? s.innerOffDelayS : s.windowOffDelayS;
  return [
    [
      en.setup.setpoint,
      settingValue('innerSetpointLx', s.innerSetpointLx),
      settingValue('windowSetpointLx', s.windowSetpointLx),
      none,
    ],
    [en.draw.releaseMargin, ...both(release, none)],
    [en.setup.offDelay, minuteSecond(s.innerOffDelayS), minuteSecond(windowDelayS), minuteSecond(s.airOffDelayS)],
    [en.setup.onDelay, none, none, minuteSecond(s.airOnDelayS)],
    [en.draw.dwells, ...both(`${minuteSecond(s.brightDwellS)}, ${minuteSecond(s.darkDwellS)}`, none)],
    [en.setup.mode, settingValue('innerMode', s.innerMode), settingValue('windowMode', s.windowMode), none],
  ];
}

export function settingsTable(
  settings: ControllerSettings,
  box: TableBox,
  palette: Palette,
): { svg: string[]; heightPx: number } {
  const columns = [0, 0.28, 0.53, 0.78].map((share) => box.x + share * box.widthPx);
  const rows = settingRows(settings);
  const headings = [en.draw.given, ...OUTPUTS.map((output) => outputName[output])];
  const svg = [
    ...headings.map((words, i) => text(columns[i]!, box.y, words, { 'font-weight': 680 })),
    line(`M${box.x} ${box.y + 9}h${box.widthPx}`, palette.ink, 1.5),
    ...rows.flatMap((cells, r) => cells.map((words, i) => text(columns[i]!, box.y + (r + 1) * ROW_PX + 2, words))),
  ];
  return { svg, heightPx: rows.length * ROW_PX + 10 };
}

const ANSWER_PX = 46;

/** One ruled line for each output: on at, off at, because. */
export function answerTable(box: TableBox, palette: Palette): string[] {
  const columns = [0, 0.16, 0.36, 0.56].map((share) => box.x + share * box.widthPx);
  const headings = [en.draw.task, '', '', ''];
  const ends = [...columns.slice(2), box.x + box.widthPx];
  return [
    ...headings.filter((words) => words !== '').map((words) => text(box.x, box.y, words, { 'font-weight': 680 })),
    ...OUTPUTS.flatMap((output, r) => {
      const y = box.y + (r + 1) * ANSWER_PX;
      const parts = [en.draw.onAt, en.draw.offAt, en.draw.because];
      return [
        text(box.x, y, outputName[output], { 'font-weight': 680 }),
        ...parts.flatMap((words, i) => {
          const x = columns[i + 1]!;
          return [
            text(x, y, words, { fill: palette.soft }),
            line(`M${x + (i === 2 ? 76 : 58)} ${y + 4}H${ends[i]! - (i === 2 ? 0 : 20)}`, palette.ink, 1.2),
          ];
        }),
      ];
    }),
  ];
}
