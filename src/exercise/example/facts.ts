/** Readings that the words of an example may name, and where each comes from. */
import type { Frame } from '../../engine/frame.ts';
import type { ControllerSettings, OutputId, Tick } from '../../engine/types.ts';
import { TICKS_PER_S } from '../../engine/units.ts';
import { OUTPUTS } from '../../engine/view.ts';
import type { PathStep } from '../assessment/path.ts';
import { designedRoom, foundChoice, seatShares } from '../commission/design.ts';
import type { CommissionExercise } from '../commission/types.ts';
import { benchScenario } from '../edits.ts';
import { polarOf } from '../reach/polygon.ts';
import type { Exercise } from '../types.ts';
import { EXAMPLE_SEED } from './twin.ts';
import type { Fact } from './types.ts';

/** What is known of the run at the instant of a step. */
export interface Instant {
  frame: Frame;
  /** Local time at tick 0, s after midnight. */
  startS: number;
  settings: ControllerSettings;
  /** Last switching of each output so far. */
  switchedTick: Partial<Record<OutputId, Tick>>;
  /** The expert's act at this instant; minutes spent and causes left after it. */
  act: PathStep | null;
  minutes: number;
  left: number | null;
}

type Read = (at: Instant) => Fact | null;

const clock = ({ startS }: Instant, tick: Tick | null | undefined): Fact | null =>
  tick === null || tick === undefined ? null : { is: 'clock', s: startS + tick / TICKS_PER_S };
const lx = (value: number | null | undefined): Fact | null =>
  value === null || value === undefined ? null : { is: 'lx', lx: value };

function common({ scenario }: Exercise): [string, Read][] {
  const rows = (['inner', 'window'] as const).flatMap((row): [string, Read][] => [
    [`${row}.ceiling`, ({ frame }) => lx(frame.light[row].ceilingReadingLx)],
    [`${row}.estimate`, ({ frame }) => lx(frame.light[row].deskEstimateLx)],
    [`${row}.daylight`, ({ frame }) => lx(frame.light[row].daylightEstimateLx)],
    [`${row}.setpoint`, ({ frame }) => lx(frame.light[row].setpointLx)],
    [`${row}.release`, ({ frame }) => lx(frame.light[row].releaseLx)],
  ]);
  const outputs = OUTPUTS.flatMap((output): [string, Read][] => [
    [output, ({ frame }) => ({ is: 'onOff', on: frame.outputs[output].on })],
    [`${output}.state`, ({ frame }) => ({ is: 'state', state: frame.outputs[output].state })],
    [`${output}.at`, (at) => clock(at, at.switchedTick[output])],
  ]);
  const settings = (Object.keys(scenario.settings) as (keyof ControllerSettings)[]).map((key): [string, Read] => [
    key,
    (at) => ({ is: 'setting', key, value: at.settings[key] }),
  ]);
  const people = scenario.people.map(({ id }): [string, Read] => [
    `doing.${id}`,
    ({ frame }) => {
      const person = frame.people.find((one) => one.id === id);
      return person ? { is: 'doing', act: person.act } : null;
    },
  ]);
  const desks = scenario.room.deskPoints.map(({ id }, i): [string, Read] => [
    `desk.${id}`,
    ({ frame }) => lx(frame.deskLx[i]),
  ]);
  return [
    ['clock', (at) => clock(at, at.frame.tick)],
    ['lastSeen', (at) => clock(at, at.frame.lastSeenTick)],
    [
      'sinceSeen',
      ({ frame }) =>
        frame.lastSeenTick === null ? null : { is: 'length', s: (frame.tick - frame.lastSeenTick) / TICKS_PER_S },
    ],
    ['act', ({ act }) => (act ? { is: 'act', act: act.act } : null)],
    ...rows,
    ...outputs,
    ...settings,
    ...people,
    ...desks,
  ];
}

function ofDiagnosis(candidates: number): [string, Read][] {
  return [
    ['reading', ({ act }) => (act?.act.kind === 'test' ? { is: 'reading', act: act.act } : null)],
    ['left', ({ left }) => (left === null ? null : { is: 'count', n: left })],
    ['of', () => ({ is: 'count', n: candidates })],
    ['spent', ({ minutes }) => ({ is: 'count', n: minutes })],
  ];
}

/** A seat counts as seen when at least half of all tries are. Source: the criterion of the exercise. */
const SEEN_SHARE = 0.5;

/** What each point of a plan would give: seats seen, and the distance from the warm thing. */
function ofDesign(exercise: CommissionExercise): [string, Read][] {
  const { design, commission } = exercise;
  const seats = commission.criteria.flatMap((one) => (one.kind === 'seats' ? one.seats : []));
  const thing = commission.criteria.find((one) => one.kind === 'clear')?.thing;
  const thingM = exercise.scenario.warmThings.find(({ id }) => id === thing)?.atM;
  const seen = (point: string): Fact => {
    const scenario = benchScenario(exercise, EXAMPLE_SEED);
    const room = designedRoom(exercise, EXAMPLE_SEED, { ...foundChoice(exercise, EXAMPLE_SEED), point });
    return { is: 'count', n: seatShares(scenario, room, seats).filter((share) => share >= SEEN_SHARE).length };
  };
  return [
    ['seats', () => ({ is: 'count', n: seats.length })],
    ...(design?.points ?? []).flatMap(({ id, atM }): [string, Read][] => [
      [`seen.${id}`, () => seen(id)],
      [`clear.${id}`, () => (thingM ? { is: 'metres', m: polarOf(thingM, atM).radiusM } : null)],
    ]),
  ];
}

/** All readings of an exercise by their names. */
export function factTable(exercise: Exercise): ReadonlyMap<string, Read> {
  const own =
    exercise.kind === 'diagnose'
      ? ofDiagnosis(exercise.diagnose.candidates.length)
      : exercise.kind === 'design'
        ? ofDesign(exercise)
        : [];
  return new Map([...common(exercise), ...own]);
}

/** A reading of the step itself, of the one after it, or of the one before it. */
export function splitName(name: string): { by: -1 | 0 | 1; plain: string } {
  if (name.startsWith('next.')) return { by: 1, plain: name.slice('next.'.length) };
  if (name.startsWith('before.')) return { by: -1, plain: name.slice('before.'.length) };
  return { by: 0, plain: name };
}

export function startSecondsOf(localTime: string): number {
  const [h = 0, m = 0, s = 0] = localTime.split(':').map(Number);
  return h * 3600 + m * 60 + s;
}
