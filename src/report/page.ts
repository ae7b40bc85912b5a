/** A page to hand out: the plan at an instant with the strip under it; or an answer sheet. A4, upright. */
import type { OutputId, PointM } from '../engine/types.ts';
import { answerTable, settingsTable } from './answers.ts';
import type { Moment } from './moment.ts';
import { type Palette, PRINT_PALETTE, SCREEN_PALETTE } from './palette.ts';
import { type PlanBox, planGroup } from './plan.ts';
import type { PlanExtras } from './planLife.ts';
import { blankStripGroup, STRIP_LABELS_PX, type StripData, stripGroup } from './strip.ts';
import { barShape, OUTPUTS } from './stripBands.ts';
import { drawing, line, SERIF, text, textWidth, wrapped } from './svg.ts';
import { en } from './text/en.ts';
import { clockAt, dayMonth } from './text/format.ts';
import { outputName } from './text/names.ts';
import { explanationSentences } from './text/reasons.ts';
import { placeInWords } from './whereabouts.ts';
import { roomInWords } from './words.ts';

/** A4 at 150 dots an inch. */
const PAGE = { widthPx: 1240, heightPx: 1754, printMm: 210 };
const MARGIN_PX = 80;
const INNER_PX = PAGE.widthPx - 2 * MARGIN_PX;
const TITLE_PX = 50;
const TEXT_PX = 19;
const HEAD_END_PX = 142;

/** Question, and below it what and when. */
function head(moment: Moment, when: string, palette: Palette): string[] {
  const { question, title, start } = moment.scenario;
  const sizePx = Math.min(TITLE_PX, (TITLE_PX * INNER_PX) / textWidth(question, TITLE_PX));
  const what = `${title} · ${dayMonth(start.localDate)} · ${when}`;
  return [
    text(MARGIN_PX, 104, question, { 'font-family': SERIF, 'font-size': sizePx, 'font-weight': 560 }),
    text(MARGIN_PX, HEAD_END_PX, what, { 'font-size': TEXT_PX, fill: palette.soft }),
  ];
}

/** The story's own words. They may tell why, so that an answer sheet leaves them out. */
function told({ scenario }: Moment): { svg: string[]; endY: number } {
  const top = HEAD_END_PX + 38;
  const lines = wrapped(scenario.brief, INNER_PX, TEXT_PX);
  const svg = lines.map((words, i) => text(MARGIN_PX, top + i * 26, words, { 'font-size': TEXT_PX }));
  return { svg, endY: top + lines.length * 26 };
}

function foot(palette: Palette): string[] {
  const y = PAGE.heightPx - 58;
  return [
    line(`M${MARGIN_PX} ${y - 28}h${INNER_PX}`, palette.ink, 1.5),
    text(MARGIN_PX, y, en.draw.simulation, { fill: palette.soft }),
  ];
}

/** What each pattern of a band means. */
function bandKey(y: number, palette: Palette): string[] {
  let x = MARGIN_PX;
  return (['seen', 'timing', 'bright', 'watching', 'held'] as const).flatMap((look) => {
    const words = en.draw.bands[look];
    const bar = barShape(look, 'innerRow', { x, y: y - 14, width: 40, height: 16 }, palette);
    const at = x + 50;
    x = at + textWidth(words, 17) + 30;
    return [...bar, text(at, y, words, { fill: palette.soft })];
  });
}

/** Why each output is as it is, in sentences; as many lines as the page has room for. */
function reasons(moment: Moment, top: number, palette: Palette): string[] {
  const { scenario, settings, explanations } = moment;
  const clock = (tick: number): string => clockAt(tick, scenario.start);
  let y = top;
  return OUTPUTS.flatMap((output: OutputId) => {
    const [, ...sentences] = explanationSentences(explanations[output], clock, settings);
    const lines = wrapped(sentences.join(' '), INNER_PX - STRIP_LABELS_PX, TEXT_PX);
    const name = text(MARGIN_PX, y, outputName[output], { 'font-weight': 680, fill: palette.channel[output] });
    const told = lines.map((words, i) =>
      text(MARGIN_PX + STRIP_LABELS_PX, y + i * 25, words, { 'font-size': TEXT_PX }),
    );
    y += lines.length * 25 + 14;
    return [name, ...told];
  });
}

/** Plan and strip of a run up to `moment`, with the reasons in words. */
export function reportPage(moment: Moment, data: StripData, fromTick: number, extras: PlanExtras): string {
  const palette = SCREEN_PALETTE;
  const { scenario, frame } = moment;
  const brief = told(moment);
  const planBox: PlanBox = { x: MARGIN_PX, y: brief.endY + 8, widthPx: INNER_PX, heightPx: 504 };
  const plan = planGroup(moment, planBox, palette, extras);
  const stripY = planBox.y + plan.heightPx + 34;
  const stripBox = { x: MARGIN_PX, y: stripY, widthPx: INNER_PX, fromTick, toTick: frame.tick };
  const strip = stripGroup(data, moment, stripBox, palette);
  const keyY = stripY + strip.heightPx + 36;
  return drawing(
    { ...PAGE, ink: palette.ink },
    `${scenario.title}: ${scenario.question}`,
    roomInWords(moment).join(' '),
    [
      ...head(moment, clockAt(frame.tick, scenario.start), palette),
      ...brief.svg,
      plan.svg,
      strip.svg,
      ...bandKey(keyY, palette),
      ...reasons(moment, keyY + 48, palette),
      ...foot(palette),
    ],
  );
}

/** What the sheet gives, for those who hear it: nothing of what the outputs will do. */
function givenInWords(moment: Moment): string {
  const { scenario, setup, frame } = moment;
  const people = frame.people.map(({ id, atM, present }) =>
    present ? en.draw.stands(id, placeInWords(scenario, setup, atM)) : en.words.away(id),
  );
  return [en.draw.sheetIs, ...people].join(' ');
}

/**
 * An answer sheet from `moment`, where it begins, to `toTick`: axes, pulses and estimates, settings, three empty bands
 * and lines to write on. Black and white; nothing on it says what the outputs did.
 */
export function answerSheet(moment: Moment, data: StripData, toTick: number, extras: PlanExtras): string {
  const palette = PRINT_PALETTE;
  const { scenario, frame } = moment;
  const clock = (tick: number): string => clockAt(tick, scenario.start);
  const fromTick = frame.tick;
  const planBox: PlanBox = { x: MARGIN_PX, y: HEAD_END_PX + 86, widthPx: INNER_PX, heightPx: 490 };
  const plan = planGroup(moment, planBox, palette, extras);
  const stripY = planBox.y + plan.heightPx + 26;
  const strip = blankStripGroup(
    data,
    moment,
    { x: MARGIN_PX, y: stripY, widthPx: INNER_PX, fromTick, toTick },
    palette,
  );
  const tableY = stripY + strip.heightPx + 40;
  const settings = settingsTable(moment.settings, frame.light, { x: MARGIN_PX, y: tableY, widthPx: INNER_PX }, palette);
  const answers = answerTable({ x: MARGIN_PX, y: tableY + settings.heightPx + 34, widthPx: INNER_PX }, palette);
  return drawing({ ...PAGE, ink: palette.ink }, `${scenario.title}: ${scenario.question}`, givenInWords(moment), [
    ...head(moment, en.draw.fromTo(clock(fromTick), clock(toTick)), palette),
    ...nameLine(HEAD_END_PX + 52, palette),
    plan.svg,
    strip.svg,
    ...settings.svg,
    ...answers,
    ...foot(palette),
  ]);
}

function nameLine(y: number, palette: Palette): string[] {
  const half = MARGIN_PX + INNER_PX * 0.62;
  return [
    text(MARGIN_PX, y, en.draw.name, { 'font-size': TEXT_PX }),
    line(`M${MARGIN_PX + 70} ${y + 4}H${half - 40}`, palette.ink, 1.2),
    text(half, y, en.draw.date, { 'font-size': TEXT_PX }),
    line(`M${half + 60} ${y + 4}H${MARGIN_PX + INNER_PX}`, palette.ink, 1.2),
  ];
}

/** Most points of a Walk Line that a plan can show. Assumed: more cross each other until nothing is read. */
const MOST_POINTS = 12;

/** Walk Lines as the story begins with them; long ones, as of robots or crowds, are left out. */
export function walkLinesOf({ scenario }: Pick<Moment, 'scenario'>): PointM[][] {
  return scenario.people.flatMap((person) => {
    const points = [person.atM, ...person.plan.flatMap((step) => (step.act === 'walk' ? [step.toM] : []))];
    return points.length > 1 && points.length <= MOST_POINTS ? [points] : [];
  });
}
