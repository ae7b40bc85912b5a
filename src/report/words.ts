/** The room in words, as plain text: what the page's Room in Words says, for the command line and for paper. */
import type { Frame, RowLightView } from '../engine/frame.ts';
import type { Explanation, TraceEvent } from '../engine/trace.ts';
import type { ControllerSettings, OutputId, PointM, Scenario, Setup } from '../engine/types.ts';
import { outputWords } from './text/badges.ts';
import { en } from './text/en.ts';
import { eventSentence, isTold } from './text/events.ts';
import { clockAt, dayMonth, hourMinuteSecond, luxText, metres, outsideText, spokenLength } from './text/format.ts';
import { actName, outputName, phaseName, skyName } from './text/names.ts';
import { explanationSentences } from './text/reasons.ts';

/** One instant of a run, with what is needed to tell it. */
export interface Moment {
  scenario: Scenario;
  setup: Setup;
  settings: ControllerSettings;
  frame: Frame;
  explanations: Record<OutputId, Explanation>;
  /** Up to this instant, oldest first. */
  events: readonly TraceEvent[];
}

/** Nearer than this to a piece of furniture a person is "at" it, m. Assumed: an arm's length. */
const AT_M = 1;
const TOLD = 10;

/** Lines of text; headings stand alone, an empty line before each. */
export function roomInWords(moment: Moment): string[] {
  const { scenario, frame } = moment;
  return [
    scenario.title,
    `${en.words.clock}: ${clockAt(frame.tick, scenario.start)}. ${en.words.detector(phaseName[frame.phase])} ${seen(frame)}`,
    ...section(en.words.light, [outside(moment)]),
    ...section(en.words.outputs, outputs(moment)),
    ...section(en.words.people, people(moment)),
    ...section(en.words.readings, readings(moment)),
    ...section(en.words.events, lastEvents(moment)),
  ];
}

function section(heading: string, lines: string[]): string[] {
  return ['', heading, ...lines];
}

function seen(frame: Frame): string {
  if (frame.lastSeenTick === null) return en.words.neverSeen;
  const agoS = (frame.tick - frame.lastSeenTick) / 10;
  return agoS < 1 ? en.words.seenNow : en.words.seenAgo(spokenLength(agoS));
}

function outside({ frame, setup }: Moment): string {
  const { sun } = frame;
  const clock = hourMinuteSecond(sun.localS).slice(0, 5);
  const height =
    sun.altitudeDeg > 0 ? en.words.sunUp(Math.round(sun.altitudeDeg), Math.round(sun.azimuthDeg)) : en.words.sunDown;
  const level = en.sky.outside(outsideText(sun.outsideHorizontalLx));
  return `${en.words.sunClock(clock, dayMonth(sun.localDate), skyName[setup.sky])} ${height} ${level}.`;
}

function outputs({ scenario, settings, frame, explanations }: Moment): string[] {
  return (Object.keys(explanations) as OutputId[]).map((output) => {
    const clock = (tick: number) => clockAt(tick, scenario.start);
    const [, ...sentences] = explanationSentences(explanations[output], clock, settings);
    const words = outputWords(frame.outputs[output], frame.tick).full;
    return `${outputName[output]}: ${words}. ${sentences.join(' ')}`.trim();
  });
}

/** "at corner desk" where one is near, else metres from two walls. */
export function placeInWords(scenario: Scenario, setup: Setup, atM: PointM): string {
  let nearest: { label: string; distanceM: number } | null = null;
  for (const point of scenario.room.deskPoints) {
    const piece = setup.furniture.find((f) => f.id === point.id);
    const [x, y] = piece?.atM ?? point.atM;
    const distanceM = Math.sqrt((x - atM[0]) ** 2 + (y - atM[1]) ** 2);
    if (distanceM < AT_M && (!nearest || distanceM < nearest.distanceM)) nearest = { label: point.label, distanceM };
  }
  const walls = en.words.place(metres(Math.round(atM[0] * 4) / 4), metres(Math.round(atM[1] * 4) / 4));
  return nearest ? `${en.words.nearDesk(nearest.label)}, ${walls}` : walls;
}

function people({ scenario, setup, frame }: Moment): string[] {
  if (frame.people.length === 0) return [en.people.none];
  return frame.people.map(({ id, act, atM, present }) =>
    present ? en.words.person(id, actName[act], placeInWords(scenario, setup, atM)) : en.words.away(id),
  );
}

function readings({ scenario, frame }: Moment): string[] {
  const lux = (lx: number | null) => (lx === null ? en.setup.ignored : luxText(lx));
  const row = (name: string, view: RowLightView) =>
    `${name}: ${en.words.ceilingReading} ${lux(view.ceilingReadingLx)}, ${en.words.deskEstimate} ${lux(view.deskEstimateLx)}, ` +
    `${en.words.ownLamps} ${lux(view.lampShareLx)}, ${en.words.daylightEstimate} ${lux(view.daylightEstimateLx)}, ` +
    `${en.words.setpoint} ${lux(view.setpointLx)}, ${en.words.release} ${lux(view.releaseLx)}.`;
  const desks = scenario.room.deskPoints.map((p, i) => en.words.desk(p.label, luxText(frame.deskLx[i] ?? 0)));
  return [row(en.words.inner, frame.light.inner), row(en.words.window, frame.light.window), desks.join('; ')];
}

function lastEvents({ scenario, events }: Moment): string[] {
  const told = events.filter(isTold).slice(-TOLD);
  if (told.length === 0) return [en.words.noEvents];
  return told.map((event) => `${clockAt(event.tick, scenario.start)}  ${eventSentence(event)}`);
}
