/** What a commissioning is judged by: the learner's own run played again, the room as it was left, its proving runs. */
import type { Tick, TimedInput } from '../../engine/types.ts';
import { benchScenario } from '../edits.ts';
import { type Played, play } from '../replay.ts';
import type { Attempt } from '../types.ts';
import { type Best, bestOf } from './best.ts';
import { designedRoom, foundChoice } from './design.ts';
import { provedDays } from './proving.ts';
import { createTimeline, noteTick, type Timeline } from './timeline.ts';
import type { CommissionExercise, LeftRoom } from './types.ts';
import { type Walked, walkWatcher } from './walk.ts';

/** A room as it is left, and its proving runs. */
export interface RoomEvidence {
  exercise: CommissionExercise;
  seed: number;
  left: LeftRoom;
  days: Timeline[];
  best: Best;
}

export interface Evidence extends RoomEvidence {
  attempt: Attempt;
  played: Played;
  own: Timeline;
  walked: Walked;
  /** The last act that changed the installation; null: it is as it was found. */
  lastChange: { tick: Tick; serial: number } | null;
}

/** Acts that change what will be handed over; sun, sky and people are the learner's means. */
const CHANGES: readonly TimedInput['input']['kind'][] = ['setSettings', 'takePresentLight', 'moveDetector'];

export function lastChangeOf(inputs: readonly TimedInput[]): Evidence['lastChange'] {
  return inputs.filter(({ input }) => CHANGES.includes(input.kind)).at(-1) ?? null;
}

/** `prove`: runs the proving days of a room; somebody may ask for the rest of the evidence alone. */
export function evidenceOf(exercise: CommissionExercise, attempt: Attempt, prove = provedDays): Evidence {
  const scenario = benchScenario(exercise, attempt.seed);
  const ticks = Math.max(1, attempt.headTick);
  const own = createTimeline('own', scenario, ticks / 10);
  const { walked, note } = walkWatcher(attempt.answers.commission?.walkTest);
  const played = play(scenario, attempt.inputs, ticks, (step, sim) => {
    noteTick(own, step, sim);
    note(step, sim);
  });
  const { control, setup } = played.sim.state;
  const left = exercise.design
    ? designedRoom(exercise, attempt.seed, attempt.answers.commission?.design ?? foundChoice(exercise, attempt.seed))
    : { settings: control.settings, setup };
  const room = roomEvidence(exercise, attempt.seed, left, prove(exercise, attempt.seed, left));
  return { ...room, attempt, played, own, walked, lastChange: lastChangeOf(attempt.inputs) };
}

/** `days`: proving runs of the room as it is left. */
export function roomEvidence(
  exercise: CommissionExercise,
  seed: number,
  left: LeftRoom,
  days: Timeline[],
): RoomEvidence {
  return { exercise, seed, left, days, best: bestOf(exercise, seed) };
}
