/** What a commissioning is judged by: the learner's own run played again, the room as it was left, its proving runs. */
import type { Tick, TimedInput } from '../../engine/types.ts';
import { benchScenario } from '../edits.ts';
import { type Played, play } from '../replay.ts';
import type { Attempt } from '../types.ts';
import { type Best, bestOf } from './best.ts';
import { provedDays } from './proving.ts';
import { createTimeline, noteTick, type Timeline } from './timeline.ts';
import type { CommissionExercise, LeftRoom } from './types.ts';

export interface Evidence {
  exercise: CommissionExercise;
  attempt: Attempt;
  played: Played;
  own: Timeline;
  left: LeftRoom;
  /** The last act that changed the installation; null: it is as it was found. */
  lastChange: { tick: Tick; serial: number } | null;
  days: Timeline[];
  best: Best;
  /** Worked out when first asked for. */
  bestDays: () => Timeline[];
}

/** Acts that change what will be handed over; sun, sky and people are the learner's means. */
const CHANGES: readonly TimedInput['input']['kind'][] = ['setSettings', 'takePresentLight', 'moveDetector'];

export function lastChangeOf(inputs: readonly TimedInput[]): Evidence['lastChange'] {
  return inputs.filter(({ input }) => CHANGES.includes(input.kind)).at(-1) ?? null;
}

export function evidenceOf(exercise: CommissionExercise, attempt: Attempt): Evidence {
  const scenario = benchScenario(exercise, attempt.seed);
  const ticks = Math.max(1, attempt.headTick);
  const own = createTimeline('own', scenario, ticks / 10);
  const played = play(scenario, attempt.inputs, ticks, (step, sim) => noteTick(own, step, sim));
  const { control, setup } = played.sim.state;
  const left = { settings: control.settings, setup };
  const best = bestOf(exercise, attempt.seed);
  let bestDays: Timeline[] | null = null;
  return {
    exercise,
    attempt,
    played,
    own,
    left,
    lastChange: lastChangeOf(attempt.inputs),
    days: provedDays(exercise, attempt.seed, left),
    best,
    bestDays: () => {
      bestDays ??= provedDays(exercise, attempt.seed, best.left);
      return bestDays;
    },
  };
}
