/** The stored best set-up of a bench: what the exercise states, with what must be measured in the room worked out. */
import { benchScenario } from '../edits.ts';
import { designedRoom } from './design.ts';
import { provedDays } from './proving.ts';
import { factorsAt, foundRoom } from './ratio.ts';
import { longestStillS, type Timeline } from './timeline.ts';
import type { CommissionExercise, LeftRoom } from './types.ts';

export interface Best {
  left: LeftRoom;
  /** Its proving runs, worked when asked for. */
  days: () => Timeline[];
  /** Off-delay that is the shortest to work; null: the exercise does not ask. */
  shortestS: number | null;
}

/** The longest off-delay of the device, s. Source: the controller's own range. */
const LONGEST_DELAY_S = 1800;

function withDelay(left: LeftRoom, delayS: number): LeftRoom {
  return { ...left, settings: { ...left.settings, innerOffDelayS: delayS, windowOffDelayS: delayS } };
}

function longestStill(days: readonly Timeline[]): number {
  return days.reduce((most, day) => Math.max(most, longestStillS(day)), 0);
}

const known = new WeakMap<CommissionExercise, Map<number, Best>>();

export function bestOf(exercise: CommissionExercise, seed: number): Best {
  const bySeed = known.get(exercise) ?? new Map<number, Best>();
  known.set(exercise, bySeed);
  const kept = bySeed.get(seed);
  if (kept) return kept;
  const found = workedOut(exercise, seed);
  const best: Best = { ...found, days: () => provedDays(exercise, seed, found.left) };
  bySeed.set(seed, best);
  return best;
}

function workedOut(exercise: CommissionExercise, seed: number): Omit<Best, 'days'> {
  const scenario = benchScenario(exercise, seed);
  const { settings, factors, shortestOf, design } = exercise.commission.best;
  if (design) return { left: designedRoom(exercise, seed, design), shortestS: null };
  const found = foundRoom(scenario);
  const measured = factors ? factorsAt(scenario, factors) : {};
  const left = { ...found, settings: { ...found.settings, ...measured, ...settings } };
  if (!shortestOf) return { left, shortestS: null };
  const stillS = longestStill(provedDays(exercise, seed, withDelay(left, LONGEST_DELAY_S)));
  const shortestS = shortestOf.find((s) => s > stillS) ?? LONGEST_DELAY_S;
  return { left: withDelay(left, shortestS), shortestS };
}
