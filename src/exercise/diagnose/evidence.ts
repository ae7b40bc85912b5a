/** What the readings before the verdict told: each taken again in the true room and, at its own tick, in every rival's. */
import type { Tick } from '../../engine/types.ts';
import type { Belief } from '../information.ts';
import { type Bench, binOf, readTrue, rivalBin } from './bench.ts';
import { beginTick } from './found.ts';
import { plannedOutcomes } from './outcomes.ts';
import { repairsAmong } from './repair.ts';
import { bestChoice, type Choice, rateOf, referenceMinutes } from './score.ts';
import { isAllowed, isFreeOnce, minutesOf, SWAP_MIN, testKey } from './tests.ts';
import type { Act, Clip, DiagnoseAnswers, DiagnoseExercise, Reading, Step, Test } from './types.ts';

export interface Taken {
  clip: Clip;
  /** As taken again; refused when the instrument could not be used there and then, or is not in the bag. */
  reading: Reading;
}

/** A reading before the verdict, and what it ruled out. */
export interface Told {
  taken: Taken;
  minutes: number;
  /** Left out of the sums. */
  free: boolean;
  dropped: string[];
  left: number;
}

export interface Evidence {
  told: Told[];
  steps: Step[];
  learnerMin: number;
  referenceMin: number;
  /** Probability of the true card before the verdict and the first repair, and before the first repair alone. */
  posterior: number;
  posteriorBeforeRepair: number;
}

export const isBefore = (a: Act, b: Act): boolean => a.tick < b.tick || (a.tick === b.tick && a.serial < b.serial);

/** All clips in order, taken again in the true room. Runs the true room up to the last of them. */
export function takeAgain(bench: Bench, clips: readonly Clip[], headTick: Tick): Taken[] {
  const { tests } = bench.exercise.diagnose;
  return [...clips]
    .sort((a, b) => (isBefore(a, b) ? -1 : 1))
    .filter(({ tick }) => tick <= headTick)
    .map((clip) => {
      if (clip.tick < beginTick(bench.exercise)) return { clip, reading: { refused: 'tooEarly' } };
      if (!isAllowed(tests, clip.test)) return { clip, reading: { refused: 'notAllowed' } };
      return { clip, reading: readTrue(bench, clip.test, clip.tick) };
    });
}

/** First act that changes the installation, or opens it for mending: it freezes the evidence. */
export function firstRepair(bench: Bench, answers: DiagnoseAnswers): Act | null {
  const opened = answers.mending ? [answers.mending] : [];
  const acts: Act[] = [...opened, ...answers.swaps, ...repairsAmong(bench.inputs)];
  return acts.reduce<Act | null>((first, act) => (first && isBefore(first, act) ? first : act), null);
}

function priorOf(exercise: DiagnoseExercise): Belief {
  return new Map(exercise.diagnose.candidates.map(({ card, prior }) => [card.id, prior]));
}

export function choiceOf(exercise: DiagnoseExercise, seed: number, test: Test): Choice {
  const outcomes = plannedOutcomes(exercise, seed);
  return { minutes: minutesOf(test), outcomeOf: (card) => outcomes(test, card) };
}

function shareOf(belief: Belief, card: string): number {
  const total = [...belief.values()].reduce((sum, p) => sum + p, 0);
  return total > 0 ? (belief.get(card) ?? 0) / total : 0;
}

/** Cards that a reading contradicts, among those still possible. */
function droppedBy(bench: Bench, belief: Belief, { clip, reading }: Taken): string[] {
  const bin = binOf(reading);
  return [...belief.keys()].filter(
    (card) => card !== bench.truth && rivalBin(bench, card, clip.test, clip.tick) !== bin,
  );
}

/** What all readings so far leave possible, with its priors; and when one was taken that ruled something out. */
export function beliefAfter(bench: Bench, taken: readonly Taken[]): { belief: Belief; tellingTicks: Tick[] } {
  let belief = priorOf(bench.exercise);
  const tellingTicks: Tick[] = [];
  for (const one of taken) {
    if ('refused' in one.reading) continue;
    const dropped = droppedBy(bench, belief, one);
    if (dropped.length > 0) tellingTicks.push(one.clip.tick);
    belief = new Map([...belief].filter(([card]) => !dropped.includes(card)));
  }
  return { belief, tellingTicks };
}

/** Goes through the readings before the first repair; `verdict`: the claim that counts. */
export function weigh(bench: Bench, taken: readonly Taken[], answers: DiagnoseAnswers, verdict: Act | null): Evidence {
  const { exercise, seed } = bench;
  const repair = firstRepair(bench, answers);
  const summed = exercise.diagnose.tests.filter((test) => !isFreeOnce(test));
  const choices = summed.map((test) => choiceOf(exercise, seed, test));
  const once = new Set<string>();
  const told: Told[] = [];
  const steps: Step[] = [];
  let belief = priorOf(exercise);
  let posterior: number | null = null;
  for (const one of taken) {
    const { clip, reading } = one;
    if (repair && !isBefore(clip, repair)) break;
    if (verdict && posterior === null && !isBefore(clip, verdict)) posterior = shareOf(belief, bench.truth);
    if ('refused' in reading) continue;
    const key = testKey(clip.test);
    const free = isFreeOnce(clip.test) && !once.has(key);
    once.add(key);
    const counts = !free && posterior === null;
    if (counts) {
      const rate = rateOf(belief, choiceOf(exercise, seed, clip.test));
      steps.push({ minutes: minutesOf(clip.test), rate, best: bestChoice(belief, choices)?.rate ?? 0 });
    }
    const dropped = droppedBy(bench, belief, one);
    belief = new Map([...belief].filter(([card]) => !dropped.includes(card)));
    if (posterior === null) told.push({ taken: one, minutes: minutesOf(clip.test), free, dropped, left: belief.size });
  }
  const early = answers.swaps.filter((swap) => !verdict || isBefore(swap, verdict));
  for (const _swap of early) steps.push({ minutes: SWAP_MIN, rate: 0, best: bestChoice(belief, choices)?.rate ?? 0 });
  const last = shareOf(belief, bench.truth);
  return {
    told,
    steps,
    learnerMin: steps.reduce((sum, step) => sum + step.minutes, 0),
    referenceMin: referenceMinutes(priorOf(exercise), bench.truth, choices),
    posterior: posterior ?? last,
    // Without a repair the verdict is the last word: readings after it are proof, not evidence.
    posteriorBeforeRepair: repair ? last : (posterior ?? last),
  };
}
