/**
 * Proving runs: the room as the learner leaves it, on the exercise's own days, run by the ordinary engine. Whatever the
 * settings, people move alike, so a day is sensed once and its pulses serve every further run of it.
 */
import { canonicalJson } from '../../engine/digest.ts';
import type { PulseStore } from '../../engine/pulseStore.ts';
import { sensingKey } from '../../engine/sensingKey.ts';
import type { Scenario } from '../../engine/types.ts';
import { secondsToTicks } from '../../engine/units.ts';
import { benchScenario, edited } from '../edits.ts';
import { type StoredRun, startStoredRun, stepStoredRun } from '../storedRun.ts';
import { furnished } from '../year/job.ts';
import { createTimeline, noteTick, type Timeline } from './timeline.ts';
import type { CommissionExercise, LeftRoom, ProvingDay } from './types.ts';

/** Seed of all proving runs. Source: our own; the same for every bench, so that a class senses each day once. */
const PROVING_SEED = 1;
/** Sensed days kept. Assumed: three days of each of two rooms. */
const KEPT = 6;

const sensed = new Map<string, PulseStore>();

/** The room of a proving day. Its seed is the exercise's, not the bench's. */
export function provingScenario(exercise: CommissionExercise, seed: number, left: LeftRoom, day: ProvingDay): Scenario {
  const room = furnished({ scenario: benchScenario(exercise, seed), ...left });
  return { ...edited(room, day.change), id: `${exercise.id}-${day.id}`, seed: PROVING_SEED, endS: day.forS };
}

/** Days with the same key are sensed alike, masks and script included. */
function keyOf(scenario: Scenario): string {
  return `${sensingKey(scenario, PROVING_SEED)} ${canonicalJson([scenario.settings.maskedSectors, scenario.script])}`;
}

function keep(key: string, store: PulseStore): void {
  sensed.delete(key);
  sensed.set(key, store);
  if (sensed.size > KEPT) sensed.delete(sensed.keys().next().value!);
}

export interface Proving {
  /** Works about so many ticks; true when all days are done. */
  work(ticks: number): boolean;
  /** 0-1, by time of the days. */
  share(): number;
  /** Days done so far, in their order. */
  days(): Timeline[];
}

interface Run {
  key: string;
  stored: StoredRun;
  line: Timeline;
  ticks: number;
}

function startDay(exercise: CommissionExercise, seed: number, left: LeftRoom, day: ProvingDay): Run {
  const scenario = provingScenario(exercise, seed, left, day);
  const key = keyOf(scenario);
  const known = sensed.get(key);
  return {
    key,
    stored: startStoredRun(scenario, known && known.untilTick >= secondsToTicks(day.forS) ? known : null),
    line: createTimeline(day.id, scenario, day.forS),
    ticks: secondsToTicks(day.forS),
  };
}

/** The proving runs of a room, worked in slices so that whoever runs them can say how far they are. */
export function createProving(exercise: CommissionExercise, seed: number, left: LeftRoom): Proving {
  const { days } = exercise.commission;
  const wholeS = days.reduce((sum, { forS }) => sum + forS, 0);
  const done: Timeline[] = [];
  let run: Run | null = null;
  const workTick = (): void => {
    run ??= startDay(exercise, seed, left, days[done.length]!);
    const { stored, line, key, ticks } = run;
    noteTick(line, stepStoredRun(stored, []), stored.sim);
    if (stored.sim.state.tick < ticks) return;
    keep(key, stored.store);
    done.push(line);
    run = null;
  };
  return {
    work: (ticks) => {
      for (let i = 0; i < ticks && done.length < days.length; i++) workTick();
      return done.length >= days.length;
    },
    share: () => {
      const pastS = days.slice(0, done.length).reduce((sum, { forS }) => sum + forS, 0);
      return Math.min(1, (pastS + (run?.line.seconds ?? 0)) / Math.max(1, wholeS));
    },
    days: () => done,
  };
}

/** Rooms whose proving runs are kept whole. Assumed: the best, and the last few that were proved. */
const KEPT_ROOMS = 4;
const proved = new WeakMap<CommissionExercise, Map<string, Timeline[]>>();

/** All days at once; a room that has been proved lately is not run again. */
export function provedDays(exercise: CommissionExercise, seed: number, left: LeftRoom): Timeline[] {
  const rooms = proved.get(exercise) ?? new Map<string, Timeline[]>();
  proved.set(exercise, rooms);
  const key = canonicalJson([seed, left]);
  const known = rooms.get(key);
  if (known) return known;
  const proving = createProving(exercise, seed, left);
  while (!proving.work(1_000_000));
  rooms.set(key, proving.days());
  if (rooms.size > KEPT_ROOMS) rooms.delete(rooms.keys().next().value!);
  return proving.days();
}
