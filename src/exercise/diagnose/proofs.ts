/**
 * Proofs of a diagnosis: the expert passes; doing nothing, swapping first, guessing, naming another cause and leaving
 * without proof fail, each called by its name; acts at random never pass; every candidate fits the complaint.
 */
import { diceOf } from '../dice.ts';
import { markAttempt } from '../mark.ts';
import type { Attempt, Mark, ProofResult, SearchSignatureId } from '../types.ts';
import { cardScenario, trueCard } from './cards.ts';
import { judgeComplaint } from './complaint.ts';
import { act, attemptOf, claim, createWorker, proveRepair, repairOf, take, type Worker } from './expert.ts';
import { isFound, nextTest } from './greedy.ts';
import { mend, proveMended, recordedAttempt, whatLacks } from './recorded.ts';
import { UNCERTAIN_MOST } from './score.ts';
import type { DiagnoseExercise, FaultCard, Test } from './types.ts';
import { plainWorld } from './world.ts';

function markOf(worker: Worker): Mark {
  return markAttempt(worker.exercise, attemptOf(worker));
}

/** Works out the cause by the best test at each moment, then repairs and proves. */
export function expertWorker(exercise: DiagnoseExercise, seed: number): Worker {
  const worker = createWorker(exercise, seed);
  const truth = trueCard(exercise, seed);
  take(worker, { instrument: 'ask' });
  for (let test = nextTest(worker); test; test = nextTest(worker)) take(worker, test);
  claim(worker, truth);
  act(worker, repairOf(worker, truth));
  proveRepair(worker, truth);
  return worker;
}

function nothingWorker(exercise: DiagnoseExercise, seed: number): Worker {
  return createWorker(exercise, seed);
}

/** A new detector, factory settings, put in before anything was measured; the guess is right by luck. */
function swapWorker(exercise: DiagnoseExercise, seed: number): Worker {
  const worker = createWorker(exercise, seed);
  const truth = trueCard(exercise, seed);
  worker.answers.swaps.push({ tick: worker.bench.trueWorld.sim.state.tick, serial: worker.serial++, part: 'detector' });
  act(worker, [{ kind: 'cleanPhotometers' }]);
  mend(worker, truth);
  claim(worker, truth);
  proveMended(worker, truth);
  return worker;
}

/** The right cause named without a reading, repaired and proved. */
function guessWorker(exercise: DiagnoseExercise, seed: number): Worker {
  const worker = createWorker(exercise, seed);
  const truth = trueCard(exercise, seed);
  claim(worker, truth);
  mend(worker, truth);
  proveMended(worker, truth);
  return worker;
}

/** All the right readings, another cause named and put right. */
function wrongWorker(exercise: DiagnoseExercise, seed: number): Worker {
  const worker = createWorker(exercise, seed);
  const truth = trueCard(exercise, seed);
  const other = exercise.diagnose.candidates.find(({ card }) => card.id !== truth && !card.healthy)!;
  for (let test = nextTest(worker); test; test = nextTest(worker)) take(worker, test);
  claim(worker, other.card.id);
  act(worker, other.card.repair);
  proveRepair(worker, other.card.id);
  return worker;
}

/** The right repair, and home without proof. */
function goneWorker(exercise: DiagnoseExercise, seed: number): Worker {
  const worker = createWorker(exercise, seed);
  const truth = trueCard(exercise, seed);
  const test = nextTest(worker);
  if (test) take(worker, test);
  claim(worker, truth);
  act(worker, repairOf(worker, truth));
  return worker;
}

/** What somebody does who clicks without thought: tests, a cause, a repair, and tests again. */
export interface RandomActs {
  before: Test[];
  named: FaultCard;
  mended: FaultCard;
  after: Test[];
}

/** As often as not the complaint is played again at the end. */
export function randomActs(
  { id, diagnose: { tests, candidates } }: DiagnoseExercise,
  seed: number,
  round: number,
): RandomActs {
  const dice = diceOf(id, seed, round);
  const some = (): Test[] => Array.from({ length: dice(5) }, () => tests[dice(tests.length)]!);
  const any = (): FaultCard => candidates[dice(candidates.length)]!.card;
  const again: Test[] = dice(2) === 0 ? [{ instrument: 'repeat' }] : [];
  return { before: some(), named: any(), mended: any(), after: [...again, ...some()] };
}

/** Another cause has no evidence, and without the complaint played again nothing is proved: neither can pass. */
export function isHopeless(exercise: DiagnoseExercise, seed: number, { before, named, after }: RandomActs): boolean {
  const repeated = [...before, ...after].some(({ instrument }) => instrument === 'repeat');
  return !repeated || named.id !== trueCard(exercise, seed);
}

/** The attempt played out; null: it was left when its readings had not made the cause certain, which caps it under a pass. */
export function randomWorker(
  exercise: DiagnoseExercise,
  seed: number,
  { before, named, mended, after }: RandomActs,
  leave = false,
): Worker | null {
  const worker = createWorker(exercise, seed);
  for (const test of before) take(worker, test);
  if (leave && !isFound(worker)) return null;
  claim(worker, named.id);
  act(worker, mended.repair);
  for (const test of after) take(worker, test);
  return worker;
}

/** So many of the first random attempts are played out whatever they did. Assumed: a few show what rules dismiss the rest. */
const ALWAYS_PLAYED = 6;

/** Rounds of the random attempts that pass. Beyond the first, those that cannot pass are not played out. */
function luckyRounds(exercise: DiagnoseExercise, seed: number, randoms: number): number[] {
  const lucky: number[] = [];
  for (let round = 0; round < randoms; round++) {
    const acts = randomActs(exercise, seed, round);
    const leave = round >= ALWAYS_PLAYED;
    if (leave && isHopeless(exercise, seed, acts)) continue;
    const worker = randomWorker(exercise, seed, acts, leave);
    if (worker && markOf(worker).pass) lucky.push(round);
  }
  return lucky;
}

function misfits(exercise: DiagnoseExercise, seed: number): string[] {
  return exercise.diagnose.candidates
    .filter(
      ({ card }) =>
        !judgeComplaint(plainWorld(cardScenario(exercise, seed, card.id)), exercise.diagnose.complaint).holds,
    )
    .map(({ card }) => card.title);
}

const signed = (mark: Mark, id: SearchSignatureId): boolean => mark.signatures.some((signature) => signature.id === id);

export function proveDiagnosis(exercise: DiagnoseExercise, seed: number, randoms: number): ProofResult[] {
  const result = (proof: string, fault: string | null): ProofResult => ({ exercise: exercise.id, seed, proof, fault });
  const strange = misfits(exercise, seed);
  const expert = attemptOf(expertWorker(exercise, seed));
  const lack = (attempt: Attempt): string | null => {
    const mark = markAttempt(exercise, attempt);
    return mark.pass ? null : whatLacks(exercise, attempt, mark.total);
  };
  const recorded = recordedAttempt(exercise, seed, trueCard(exercise, seed));
  const nothing = markOf(nothingWorker(exercise, seed));
  const swap = markOf(swapWorker(exercise, seed));
  const guess = markOf(guessWorker(exercise, seed));
  const wrong = markOf(wrongWorker(exercise, seed));
  const gone = markOf(goneWorker(exercise, seed));
  const healthy = exercise.diagnose.candidates.some(({ card }) => card.healthy && card.id === trueCard(exercise, seed));
  const passes = (mark: Mark): string | null => (mark.pass ? `it passes with ${mark.total}` : null);
  const named = (mark: Mark, id: SearchSignatureId) =>
    passes(mark) ?? (signed(mark, id) ? null : `it is not called ${id}`);
  const results = [
    result('every candidate fits the complaint', strange.length === 0 ? null : `${strange.join('; ')} do not`),
    result('the expert passes', lack(expert)),
    ...(recorded ? [result('what was recorded passes', lack(recorded))] : []),
    result('doing nothing fails', passes(nothing)),
    result('swapping first and being lucky fails', named(swap, 'replaceFirst')),
    result(
      `guessing right has at most ${UNCERTAIN_MOST} and fails`,
      passes(guess) ?? (guess.total <= UNCERTAIN_MOST ? null : `it has ${guess.total}`),
    ),
    result('naming another cause fails', healthy ? named(wrong, 'faultOnHealthy') : passes(wrong)),
  ];
  if (!healthy) {
    const lost = signed(gone, 'goneMeansFixed') && gone.parts.every(({ id, points }) => id !== 'proof' || points === 0);
    results.push(
      result('leaving without proof earns none and is named', lost ? null : 'proof is paid, or it is not named'),
    );
  }
  const lucky = luckyRounds(exercise, seed, randoms);
  const fault = lucky.length === 0 ? null : `random attempts ${lucky.join(', ')} pass`;
  return [...results, result(`${randoms} random attempts fail`, fault)];
}
