/**
 * How each test is done when nobody has acted before: the acts, and when to read. The worth of tests is worked out on
 * these plans, and the expert of the proofs follows them.
 */
import { corridorAt, isInRoom } from '../../engine/room/corridor.ts';
import type { Input, OutputId, PersonSpec, PlanStep, PointM, SimState } from '../../engine/types.ts';
import { placesOf } from './cards.ts';
import { GLANCE_S, type HeldTest, heldAct } from './heldBefore.ts';
import { nearest, YOU } from './moment.ts';
import type { DiagnoseExercise, Test } from './types.ts';

export interface Plan {
  acts: { afterS: number; input: Input }[];
  /** Read so long after the first act; with `until`, at the switching if that comes later than this. */
  readAfterS: number;
  until: { output: OutputId; on: boolean; limitS: number } | null;
}

/** You, walking pace and all. Assumed: an ordinary adult in indoor clothes. */
const YOU_SPEC: Omit<PersonSpec, 'atM'> = {
  id: YOU,
  heightM: 1.74,
  clothingClo: 1,
  cameFromC: 21,
  headingDeg: 0,
  outsideAtStart: false,
  plan: [],
};
/** Half the way walked to and fro over a place, m. Assumed: one long step. */
const PACE_M = 0.5;
/** A switching is waited for this much longer than the longest delay that any candidate has, s. Assumed: a late pulse. */
const WAIT_MORE_S = 60;
/** A visit that arrives, moves and leaves, s. Assumed: long enough for two clear pulses. */
const VISIT_S = 8;

/** Up the ladder with both hands free, s. Assumed: 4 s of climbing and a look about. */
const CLIMB_S = 6;

export const AT_ONCE: Plan = { acts: [], readAfterS: 0, until: null };

/** Everybody in the room goes at once, without being seen going; who is in the corridor has business of their own. */
export function everybodyLeaves(
  { scenario: { room } }: DiagnoseExercise,
  people: SimState['people'],
  afterS: number,
): Plan['acts'] {
  const inside = people.filter(({ removed, present, atM }) => !removed && present && isInRoom(room, atM));
  const ids = inside.map(({ spec }) => spec.id);
  const all = ids.includes(YOU) ? ids : [...ids, YOU];
  return all.map((personId) => ({ afterS, input: { kind: 'setPlan', personId, plan: [{ act: 'leave' }] } }));
}

/** You are set down at a place (no movement), or come in if you have not yet. */
export function youGoTo(people: SimState['people'], atM: PointM, afterS = 0): Plan['acts'] {
  const known = people.some((person) => person.spec.id === YOU && !person.removed);
  const input: Input = known
    ? { kind: 'placePerson', personId: YOU, atM }
    : { kind: 'addPerson', person: { ...YOU_SPEC, atM } };
  return [{ afterS, input }];
}

/** Across the room; in the corridor along its wall. */
function toAndFro({ scenario: { room } }: DiagnoseExercise, atM: PointM): { fromM: PointM; plan: PlanStep[] } {
  const wall = corridorAt(room, atM);
  const axis = wall === 'left' || wall === 'right' ? 1 : 0;
  const lengthM = axis === 0 ? room.widthM : room.depthM;
  const place = (way: number): PointM => {
    const along = Math.min(lengthM - 0.2, Math.max(0.2, atM[axis] + way));
    return axis === 0 ? [along, atM[1]] : [atM[0], along];
  };
  const walk = (way: number): PlanStep => ({ act: 'walk', toM: place(way), speedMps: 1 });
  return {
    fromM: place(-PACE_M),
    plan: Array.from({ length: 12 }, (_, i) => walk(i % 2 === 0 ? PACE_M : -PACE_M)),
  };
}

/** You walk to and fro over a place. */
export function youMoveAt(exercise: DiagnoseExercise, people: SimState['people'], atM: PointM): Plan['acts'] {
  const { fromM, plan } = toAndFro(exercise, atM);
  return [...youGoTo(people, fromM), { afterS: 0.2, input: { kind: 'setPlan', personId: YOU, plan } }];
}

/** The place nearest to the detector: whoever moves there is seen. */
function underDetector(exercise: DiagnoseExercise, state: SimState): PointM {
  const { atM } = state.setup.mount;
  const places = placesOf(exercise).map((place) => place.atM);
  return [...places].sort((a, b) => nearest(a, atM) - nearest(b, atM))[0] ?? atM;
}

/** `state`: the room as it stands before the first act. */
export function planOf(exercise: DiagnoseExercise, test: Test, state: SimState): Plan {
  const { people } = state;
  const place = (id: string) => placesOf(exercise).find((known) => known.id === id)?.atM ?? state.setup.mount.atM;
  switch (test.instrument) {
    case 'luxMeter':
      return { acts: youGoTo(people, place(test.place)), readAfterS: 0.5, until: null };
    case 'seenAt':
      return { acts: youMoveAt(exercise, people, place(test.place)), readAfterS: 5, until: null };
    case 'button':
      return { acts: [{ afterS: 0, input: { kind: 'press', input: test.button } }], readAfterS: 2.2, until: null };
    case 'watch':
      return { acts: everybodyLeaves(exercise, people, 0), readAfterS: test.forMin * 60 + 1, until: null };
    case 'cloth':
    case 'torch':
      return fromLadder(test, state);
    case 'stopwatch':
      return visit(exercise, state, test.output, test.edge === 'on');
    default:
      return AT_ONCE;
  }
}

/** You climb to the detector, hold something to it, and come down a little after the reading. */
function fromLadder(test: HeldTest, { people, setup }: SimState): Plan {
  const readAfterS = CLIMB_S + test.forMin * 60 + GLANCE_S / 2;
  const plan: PlanStep[] = [
    { act: 'ladder', forS: readAfterS },
    { act: 'standStill', forS: 1 },
  ];
  return {
    acts: [
      ...youGoTo(people, setup.mount.atM),
      { afterS: 0.2, input: { kind: 'setPlan', personId: YOU, plan } },
      { afterS: CLIMB_S, input: heldAct(test) },
    ],
    readAfterS,
    until: null,
  };
}

/** Longest delay that the room can have by any of the candidates, s. */
function longestDelayS(exercise: DiagnoseExercise): number {
  const edits = exercise.diagnose.candidates.flatMap(({ card }) => [card.edit, ...card.draws.flat()]);
  const all = [exercise.scenario.settings, ...edits.map(({ settings }) => settings ?? {})];
  return Math.max(
    ...all.flatMap((s) => [s.innerOffDelayS ?? 0, s.windowOffDelayS ?? 0, s.airOnDelayS ?? 0, s.airOffDelayS ?? 0]),
  );
}

/** Somebody comes, moves and goes; or, for an on, comes and keeps moving until it switches. */
function visit(exercise: DiagnoseExercise, state: SimState, output: OutputId, on: boolean): Plan {
  const coming = youMoveAt(exercise, state.people, underDetector(exercise, state));
  const leaving = on ? [] : everybodyLeaves(exercise, state.people, VISIT_S);
  return {
    acts: [...coming, ...leaving],
    readAfterS: VISIT_S + 0.2,
    until: { output, on, limitS: VISIT_S + longestDelayS(exercise) + WAIT_MORE_S },
  };
}
