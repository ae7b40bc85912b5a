/** The room in words, as plain text: what the page's Room in Words says, for the command line and for paper. */
import type { Frame, RowLightView } from '../engine/frame.ts';
import type { TraceEvent } from '../engine/trace.ts';
import type { OutputId } from '../engine/types.ts';
import type { Moment } from './moment.ts';
import { outputWords } from './text/badges.ts';
import { en } from './text/en.ts';
import { eventSentence, isTold } from './text/events.ts';
import { clockAt, dayMonth, hourMinuteSecond, luxText, outsideText, spokenLength } from './text/format.ts';
import { heldSentences } from './text/held.ts';
import { actName, outputName, phaseName, skyName } from './text/names.ts';
import { explanationSentences } from './text/reasons.ts';
import { sightSentence } from './text/signal.ts';
import { placeInWords } from './whereabouts.ts';

/** Events at the end of the page. Source: the page's own heading, ten. */
const TOLD = 10;

/** Lines of text; headings stand alone, an empty line before each. */
export function roomInWords(moment: Moment): string[] {
  const { scenario, frame } = moment;
  return [
    scenario.title,
    `${en.words.clock}: ${clockAt(frame.tick, scenario.start)}. ${[en.words.detector(phaseName[frame.phase]), seen(frame), ...heldSentences(frame.held, frame.tick)].join(' ')}`,
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
    const { untilTick, badge } = frame.outputs[output];
    const lasts = badge === 'starting' || badge === 'walkTest';
    // Where the words name no count, "at" alone would not say what happens then.
    const end = lasts ? en.words.until : badge === 'someoneSeen' ? en.recorder.offAtClock : en.words.at;
    const until = untilTick === null ? '' : `, ${end(clock(untilTick))}`;
    return `${outputName[output]}: ${words}${until}. ${sentences.join(' ')}`.trim();
  });
}

function people({ scenario, setup, frame, personSeenTick, sights }: Moment): string[] {
  if (frame.people.length === 0) return [en.people.none];
  const lastSeen = (id: string): string => {
    const answer = sights?.find((sight) => sight.personId === id);
    if (answer?.present) return ` ${sightSentence(answer, frame.tick)}`;
    if (!personSeenTick) return '';
    const tick = personSeenTick[id];
    return ` ${tick === undefined ? en.words.personNotSeen : en.words.personSeen(clockAt(tick, scenario.start))}`;
  };
  return frame.people.map(({ id, act, atM, present }) => {
    const doing = present ? en.words.person(id, actName[act], placeInWords(scenario, setup, atM)) : en.words.away(id);
    return `${doing}${lastSeen(id)}`;
  });
}

function readings({ scenario, frame }: Moment): string[] {
  const lux = (lx: number | null) => (lx === null ? en.setup.ignored : luxText(lx));
  const row = (name: string, view: RowLightView) =>
    `${name}: ${en.words.ceilingReading} ${lux(view.ceilingReadingLx)}, ${en.words.deskEstimate} ${lux(view.deskEstimateLx)}, ` +
    `${en.words.ownLamps} ${lux(view.lampShareLx)}, ${en.words.daylightEstimate} ${lux(view.daylightEstimateLx)}, ` +
    `${en.words.setpoint} ${lux(view.setpointLx)}, ${en.words.release} ${lux(view.releaseLx)}.`;
  const desks = scenario.room.deskPoints.map((p, i) => en.words.desk(p.label, luxText(frame.deskLx[i] ?? 0)));
  return [row(en.words.inner, frame.light.inner), row(en.words.window, frame.light.window), `${desks.join('; ')}.`];
}

/** A change of the air state is told by the switching of its contact in the same instant. */
function saidTwice(event: TraceEvent, events: readonly TraceEvent[]): boolean {
  if (event.kind !== 'air') return false;
  return events.some((e) => e.kind === 'output' && e.output === 'airContact' && e.tick === event.tick);
}

function lastEvents({ scenario, events }: Moment): string[] {
  const told = events.filter((event) => isTold(event) && !saidTwice(event, events)).slice(-TOLD);
  if (told.length === 0) return [en.words.noEvents];
  return told.map((event) => `${clockAt(event.tick, scenario.start)}  ${eventSentence(event)}`);
}
