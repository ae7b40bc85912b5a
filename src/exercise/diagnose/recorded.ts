/** What an author recorded, as a way that can be gone again on any bench; and in words, what an attempt lacks to pass. */
import type { Input } from '../../engine/types.ts';
import type { Attempt } from '../types.ts';
import { candidateOf } from './cards.ts';
import { isBefore } from './evidence.ts';
import { act, attemptOf, claim, createWorker, proveRepair, repairOf, take, timeOff, type Worker } from './expert.ts';
import { type Judged, judge } from './mark.ts';
import { isProved } from './proofOfRepair.ts';
import { repairsAmong } from './repair.ts';
import { isCertain, PASS_POINTS } from './score.ts';
import type { Act, DiagnoseExercise, ProofId, RecordedWay, Test } from './types.ts';

/** A recording without its instants: other benches move at other moments. */
interface Way {
  readings: Test[];
  named: string | null;
  repair: Input[];
  proof: Test[];
}

function wayOf({ inputs, answers }: RecordedWay): Way {
  const { clips, claims, swaps } = answers;
  const repairs = repairsAmong(inputs);
  const inOrder = <T extends Act>(acts: readonly T[]): T[] => [...acts].sort((a, b) => (isBefore(a, b) ? -1 : 1));
  const changes = inOrder<Act>([...repairs, ...swaps]);
  const verdict = inOrder(claims).at(-1) ?? null;
  const [decided] = inOrder<Act>([...changes.slice(0, 1), ...(verdict ? [verdict] : [])]);
  const mended = changes.at(-1) ?? verdict;
  const taken = inOrder(clips);
  return {
    readings: taken.filter((clip) => !decided || isBefore(clip, decided)).map(({ test }) => test),
    named: verdict?.card ?? null,
    repair: repairs.map(({ input }) => input),
    proof: taken.filter((clip) => mended !== null && isBefore(mended, clip)).map(({ test }) => test),
  };
}

/** The recording as a way to this cause; null: there is none. */
function recordedFor({ diagnose }: DiagnoseExercise, card: string): Way | null {
  const way = diagnose.recorded ? wayOf(diagnose.recorded) : null;
  return way?.named === card ? way : null;
}

function takeAll(worker: Worker, tests: readonly Test[]): void {
  for (const test of tests) {
    if (test.instrument === 'stopwatch' && test.edge === 'off') timeOff(worker, test.output);
    else take(worker, test);
  }
}

/** Puts a cause right as the author did, or by the card's own rule. */
export function mend(worker: Worker, card: string): void {
  act(worker, recordedFor(worker.exercise, card)?.repair ?? repairOf(worker, card));
}

/** Proves the repair as the author did, or by rule. */
export function proveMended(worker: Worker, card: string): void {
  const way = recordedFor(worker.exercise, card);
  if (way) takeAll(worker, way.proof);
  else proveRepair(worker, card);
}

/** The recording on a bench: as it was done on its own, by the same readings and acts on another; null: none for `card`. */
export function recordedAttempt(exercise: DiagnoseExercise, seed: number, card: string): Attempt | null {
  const { recorded } = exercise.diagnose;
  if (!recorded) return null;
  const worker = createWorker(exercise, seed);
  if (recorded.seed === seed) {
    const { inputs, headTick, answers } = recorded;
    return { ...attemptOf(worker), inputs, headTick, digests: [], answers: { diagnose: answers } };
  }
  const way = recordedFor(exercise, card);
  if (!way) return null;
  takeAll(worker, way.readings);
  claim(worker, card);
  mend(worker, card);
  proveMended(worker, card);
  return attemptOf(worker);
}

const PROOF_WORDS: Record<ProofId, string> = {
  complaint: 'the complaint repeated',
  movement: 'a movement seen',
  buttons: 'both buttons',
  offDelay: 'a full off-delay',
  special: "the cause's own proof",
};

function verdictLacks({ exercise, verdict, bench }: Judged): string[] {
  const title = (card: string): string => candidateOf(exercise, card).card.title;
  if (!verdict) return ['no cause is named'];
  if (verdict.card === bench.truth) return [];
  return [`the cause named is ${title(verdict.card)}, but the room has ${title(bench.truth)}`];
}

/** Candidates that the readings before verdict and repair leave, when they are more than the true one. */
function readingsLack({ exercise, evidence, taken }: Judged): string[] {
  const refused = taken.filter(({ reading }) => 'refused' in reading).length;
  const lacks = refused > 0 ? [`${refused} of the readings cannot be taken again`] : [];
  if (isCertain(evidence.posteriorBeforeRepair)) return lacks;
  const dropped = evidence.told.flatMap((one) => one.dropped);
  const { candidates } = exercise.diagnose;
  const left = candidates.filter(({ card }) => !dropped.includes(card.id)).map(({ card }) => card.title);
  return [...lacks, `the readings leave ${left.length} of ${candidates.length} candidates: ${left.join('; ')}`];
}

function mendingLacks({ repair, complaintGone, card }: Judged): string[] {
  const lacks = repair.done ? [] : ['the cause is not put right'];
  if (complaintGone === false)
    lacks.push(card.healthy ? 'something was changed and left so' : 'the complaint comes back');
  return lacks;
}

/** What an attempt that does not pass lacks, in one sentence. `total`: its points. */
export function whatLacks(exercise: DiagnoseExercise, attempt: Attempt, total: number): string {
  const judged = judge(exercise, attempt);
  const missing = (Object.keys(PROOF_WORDS) as ProofId[]).filter((id) => !judged.proofs.has(id));
  const lacks = [...verdictLacks(judged), ...readingsLack(judged), ...mendingLacks(judged)];
  if (missing.length > 0 && (total < PASS_POINTS || !isProved(judged.proofs)))
    lacks.push(`not proved: ${missing.map((id) => PROOF_WORDS[id]).join(', ')}`);
  return [...lacks, `${total} of 100 points, ${PASS_POINTS} are needed`].join('; ');
}
