/** Words of commissioning jobs: the Job Card, proving runs, and what each criterion came to. */
import type { JudgedEdge, UncountedPoint } from '../../exercise/commission/edges.ts';
import type {
  CommissionLine,
  CommissionSignatureId,
  DayFigures,
  ProvingDay,
  Verdict,
} from '../../exercise/commission/types.ts';
import { type ClockStart, clockAt, hourMinute, metres, minuteSecond, spokenLength } from './format.ts';

export const commissionWords = {
  asked: 'What is asked',
  criteria: 'To be shown',
  panels: 'Tools for this job',
  panel: { plan: 'Plan', set: 'Settings', sky: 'Sky', kit: 'Kit Bag', factor: 'Desk factor' },
  numbered: (number: number, label: string): string => `${number} ${label}`,
  prove: 'Prove it',
  proveNote: (days: readonly ProvingDay[]): string =>
    `Runs the room as it is now: ${days.map(({ title, forS }) => `${title} (${spokenLength(forS)})`).join(', ')}.`,
  proving: 'The proving runs are worked…',
  provedShare: (share: number): string => `${Math.floor(share * 100)} %`,
  outdated: 'Settings have changed since this proving run.',
  otherPlan: 'The plan has changed since this proving run.',
  table: 'Proving runs',
  rows: {
    inner: 'Inner row lit',
    window: 'Window row lit',
    air: 'Air contact on',
    switchings: 'Rows switched',
    dark: 'Out on somebody there',
  },
  point: 'Point on the ceiling',
  turn: 'Window arrow',
  turned: (deg: number): string => (deg === 0 ? 'to the windows' : `${deg}°`),
  turnNote: 'Clockwise from the wall with the windows.',
  lamps: 'Lamps and their rows',
  lamp: (n: number, x: string, y: string): string => `Lamp ${n}, at ${x} and ${y}`,
  lampNote: 'Places: metres from the left wall, metres from the front wall.',
  hang: 'Hang it so',
  hungNote: 'The room shows another plan: hang it so to look at this one.',
  handover: 'For the client, in plain words',
  handoverNote: "Its points are the lecturer's to give.",
  clip: 'Take this instant',
  clipFor: (title: string): string => `Take this instant for: ${title}`,
  clipped: (clock: string): string => `taken at ${clock}`,
  notYet: 'not shown yet',
  noted: (n: number): string => (n === 1 ? '1 point noted' : `${n} points noted`),
  onEdge: (n: number): string => (n === 1 ? '1 point on this edge' : `${n} points on this edge`),
  countSoFar: (n: number, directions: number): string =>
    `, ${n} with one beyond that was not answered, or the wall: ${directions} of 12 directions`,
  notProved: 'not proved since the last change',
  times: (n: number): string => (n === 1 ? 'once' : n === 0 ? 'never' : `${n} times`),
} as const;

export const verdictWord: Record<Verdict, string> = {
  met: 'met',
  half: 'half met',
  missed: 'not yet',
  lecturer: 'for the lecturer',
};

/** A length in the table: hours and minutes, or minutes and seconds below an hour. */
function lengthText(s: number): string {
  return s >= 3600 ? `${hourMinute(s)} h` : `${minuteSecond(s)} min`;
}

/** Rows of the table of proving runs: a name, and a cell for each run. */
export function dayRows(days: readonly DayFigures[]): { name: string; cells: string[] }[] {
  const { rows } = commissionWords;
  const row = (name: string, text: (day: DayFigures) => string) => ({ name, cells: days.map(text) });
  return [
    row(rows.inner, (day) => lengthText(day.innerLitS)),
    row(rows.window, (day) => lengthText(day.windowLitS)),
    row(rows.air, (day) => lengthText(day.airS)),
    row(rows.switchings, (day) => `${day.switchings}`),
    row(rows.dark, (day) => commissionWords.times(day.darkOnSomebody)),
  ];
}

const tenth = (n: number): string => `${Math.round(n * 10) / 10}`;

function amount(value: number, unit: CommissionLine['unit']): string {
  switch (unit) {
    case 's':
      return value < 60 ? `${tenth(value)} s` : minuteSecond(value);
    case 'times':
      return commissionWords.times(value);
    case 'lx':
      return `${Math.round(value)} lx`;
    case 'm':
      return metres(Math.round(value * 100) / 100);
    case 'deg':
      return `${Math.round(value)}°`;
    case 'percent':
      return `${tenth(value)} %`;
    case 'hours':
      return `${tenth(value)} h`;
    case 'none':
      return tenth(value);
  }
}

/** Criteria whose bound is what the learner has to find: it is told in the result only. */
const BOUND_IS_ANSWER: readonly CommissionLine['kind'][] = ['shortest', 'level', 'deskShort', 'lampHours'];

const BOUND_WORD: Partial<Record<CommissionLine['kind'], string>> = {
  setting: 'Asked',
  level: 'Asked',
  walkPoints: 'At least',
  sectors: 'At least',
};

const UNCOUNTED: Record<UncountedPoint['why'], string> = {
  notBorneOut: 'not so in your run',
  otherMovement: 'another movement',
  notAnswered: 'not answered there',
  nothingBeyond: 'within 1 m further out no point that was not answered, and no wall',
};
const REASONS = Object.keys(UNCOUNTED) as UncountedPoint['why'][];

/** Which marked points do not count, by reason, and whether the others go far enough round. */
function edgeText({ marked, uncounted, directions, needed }: JudgedEdge): string[] {
  const counted = uncounted.length === 0 ? [] : [`${marked - uncounted.length} of ${marked} marked points count.`];
  const why = REASONS.flatMap((reason) => {
    const ids = uncounted.filter((point) => point.why === reason).map(({ id }) => id);
    return ids.length === 0 ? [] : [`Point${ids.length === 1 ? '' : 's'} ${ids.join(', ')}: ${UNCOUNTED[reason]}.`];
  });
  const round =
    directions >= needed ? [] : [`The points that count cover ${directions} of 12 directions; ${needed} are needed.`];
  return [...counted, ...why, ...round];
}

/** Clock of an instant of a proving day, with the day's name; `start`: of the learner's own room. */
export function provingClock(days: readonly ProvingDay[], start: ClockStart): (day: string, s: number) => string {
  return (id, s) => {
    const day = days.find((one) => one.id === id);
    const localTime = day?.change.localTime ?? start.localTime;
    return `${day?.title ?? id}, ${clockAt(Math.round(s * 10), { ...start, localTime })}`;
  };
}

/** What was found, against what; `final`: in the result, where nothing is left to find out. */
export function lineText(line: CommissionLine, clockOf: (day: string, s: number) => string, final: boolean): string {
  const found = line.value === null ? '' : `Found: ${amount(line.value, line.unit)}.`;
  const told = line.limit !== null && (final || !BOUND_IS_ANSWER.includes(line.kind));
  const bound = told ? `${BOUND_WORD[line.kind] ?? 'At most'}: ${amount(line.limit!, line.unit)}.` : '';
  const where = line.at && line.verdict !== 'met' ? `First: ${clockOf(line.at.day, line.at.s)}.` : '';
  const next = line.verdict === 'met' || line.verdict === 'lecturer' ? '' : line.next;
  const edge = line.edge ? edgeText(line.edge) : [];
  return [found, bound, ...edge, where, next].filter((text) => text !== '').join(' ');
}

/** Beliefs behind a set-up: you did, the room did, because, next. */
export const commissionBelief: Record<CommissionSignatureId, string> = {
  setpointIsDeskLux:
    'You set the lux that the plan asks for on the desks. The detector looks at the ceiling end: it reads another number for the same light. Next: lay the meter on the poorest desk, read both, and set the desk factor.',
  setInSun:
    'You took the light under a sky with sun. A patch of sun on desk or floor makes the two readings differ from any other hour. Next: choose an overcast sky, then measure again.',
  lampsInReading:
    'You measured with the lamps lit. They light desk and detector in another proportion than the windows do. Next: measure by daylight alone.',
  lampsFeedBack:
    'With their own share not learned, the lamps light the detector: lit, it reads bright and puts them out; dark, it lights them. Next: let the share be learned.',
  delayTooShort:
    'The off-delay ended while somebody sat there. The delay counts from the last pulse, and a still reader gives none. Next: set it above the longest gap in the Seen row.',
  delayTooLong:
    'The rows stay lit longer than this room needs. Nobody is left in the dark by a shorter delay. Next: step down and prove it again.',
  fanByLight:
    'You showed the fan while a row was lit. That does not tell whether it follows light or presence. Next: take it while daylight keeps both rows off.',
  airMoves:
    'You hung it where warm air blows. In the empty room moving air crossed its beams and lit the lamps: it answers to warm movement, not to people alone. Next: keep the outlet out of its near beams.',
  oneCircle:
    'You drew one outline for walking and for sitting. A seated arm is a smaller and cooler mover: the room answered it only much nearer. Next: sit down at each of your edge points and reach.',
  provedNothing:
    'You changed the set-up and handed it in without running it. What it does then is a guess. Next: the same visit, the same light, before you leave.',
};
