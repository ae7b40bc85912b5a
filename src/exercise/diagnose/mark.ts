/** The mark of a diagnosis: every reading taken again, rivals run, repair and proof judged by what the room does. */
import type { Attempt, Mark, MarkLine, MarkPart } from '../types.ts';
import { type Bench, createBench } from './bench.ts';
import { judgeByRoom } from './byEffect.ts';
import { candidateOf, cardScenario } from './cards.ts';
import { type Evidence, firstRepair, isBefore, type Taken, takeAgain, weigh } from './evidence.ts';
import { rungsOpened } from './hints.ts';
import { evidenceLines, proofLines, recordLines, repairLines, testLines } from './lines.ts';
import { isProved, PROOF_WORTH, proofsDone, SLOT_WORTH, slotsFilled } from './proofOfRepair.ts';
import { judgeRepair, LEFT_COST, type RepairJudged, repairsAmong, SWAP_COST } from './repair.ts';
import {
  evidencePoints,
  isCertain,
  PASS_EVIDENCE,
  PASS_POINTS,
  type PartId,
  type Points,
  pointsOf,
  type Sums,
  strategyShare,
  WORTH,
} from './score.ts';
import { signaturesOf } from './signatures.ts';
import type {
  Act,
  DiagnoseAnswers,
  DiagnoseExercise,
  DiagnosisResult,
  FaultCard,
  ProofId,
  RecordSlot,
} from './types.ts';
import { advance, plainWorld, type World } from './world.ts';

/** Before all acts. */
const FIRST: Act = { tick: -1, serial: -1 };

const NOTHING: DiagnoseAnswers = { clips: [], claims: [], swaps: [], hints: [], record: { advice: '' } };

/** Everything that the mark is made from. */
export interface Judged {
  exercise: DiagnoseExercise;
  attempt: Attempt;
  answers: DiagnoseAnswers;
  bench: Bench;
  card: FaultCard;
  taken: Taken[];
  evidence: Evidence;
  verdict: (Act & { card: string }) | null;
  firstChange: Act | null;
  lastChange: Act | null;
  repair: RepairJudged;
  proofs: Map<ProofId, Taken>;
  slots: Set<RecordSlot>;
  complaintGone: boolean | null;
  /** Time of the complaint in the proving run, s. */
  complaintS: number;
}

function lastOf<T extends Act>(acts: readonly T[]): T | null {
  return acts.reduce<T | null>((last, act) => (last && isBefore(act, last) ? last : act), null);
}

/** The room as the learner found it: after its first tick, in which the script of the card has acted. */
function foundWorld(bench: Bench): World {
  const world = plainWorld(cardScenario(bench.exercise, bench.seed, bench.truth));
  advance(world, 1);
  return world;
}

export function judge(exercise: DiagnoseExercise, attempt: Attempt): Judged {
  const answers = attempt.answers.diagnose ?? NOTHING;
  const bench = createBench(exercise, attempt.seed, attempt.inputs);
  const { card } = candidateOf(exercise, bench.truth);
  const verdict = lastOf(answers.claims);
  const taken = takeAgain(bench, answers.clips, attempt.headTick);
  advance(bench.trueWorld, attempt.headTick);
  const evidence = weigh(bench, taken, answers, verdict);
  const begin = foundWorld(bench).sim.state;
  const end = bench.trueWorld.sim.state;
  const right = verdict?.card === bench.truth;
  const changed = lastOf<Act>([...repairsAmong(attempt.inputs), ...answers.swaps]);
  const lastChange = changed ?? verdict;
  // Where nothing is broken and nothing was changed, what was shown before the verdict was shown of this very room.
  const from = right && card.healthy && changed === null ? FIRST : lastChange;
  const proofs = from ? proofsDone(taken, from, card, end.control.settings) : new Map();
  const firstChange = firstRepair(bench, answers);
  const byRoom =
    right && !card.healthy
      ? judgeByRoom(card, bench.trueWorld.scenario, exercise.diagnose.complaint, begin, end)
      : null;
  const scene = byRoom?.scene ?? null;
  const repair = byRoom ?? judgeRepair(card.remedy, begin, end);
  const gone = scene ? !scene.holds : right ? repair.needless.length === 0 : null;
  return {
    exercise,
    attempt,
    answers,
    bench,
    card,
    taken,
    evidence,
    verdict,
    firstChange,
    lastChange,
    repair,
    proofs,
    slots: slotsFilled(taken, verdict, firstChange, lastChange, attempt.names),
    complaintGone: gone,
    complaintS: scene?.timeS ?? 0,
  };
}

/** Repair earns only with a verdict: a room left as it was is no repair by itself. */
export function repairPoints({ verdict, repair, answers }: Judged): number {
  if (!verdict) return 0;
  return (repair.done ? WORTH.repair : 0) - SWAP_COST * answers.swaps.length - LEFT_COST * repair.needless.length;
}

export function sumsOf(judged: Judged): Sums {
  const { evidence, verdict, bench, proofs, slots, attempt, answers } = judged;
  return {
    safe: WORTH.safe,
    strategyShare: strategyShare(evidence.steps),
    referenceMin: evidence.referenceMin,
    learnerMin: evidence.learnerMin,
    discriminating: evidence.told.some(({ dropped }) => dropped.length > 0),
    named: verdict ? (verdict.card === bench.truth ? 'right' : 'wrong') : 'none',
    posterior: evidence.posterior,
    posteriorBeforeRepair: evidence.posteriorBeforeRepair,
    repair: repairPoints(judged),
    proof: PROOF_WORTH * proofs.size,
    record: SLOT_WORTH * slots.size,
    hints: attempt.aid === 'test' ? rungsOpened(answers.hints) : 0,
  };
}

function partsOf(judged: Judged, points: Points): MarkPart[] {
  const lines: Record<PartId, MarkLine[]> = {
    safe: [{ points: points.safe, of: WORTH.safe, atS: null, say: { code: 'safeNoMains' } }],
    strategy: testLines(judged),
    efficiency: [
      {
        points: points.efficiency,
        of: WORTH.efficiency,
        atS: null,
        say: { code: 'minutesSpent', minutes: judged.evidence.learnerMin, referenceMin: judged.evidence.referenceMin },
      },
    ],
    evidence: evidenceLines(judged, points),
    repair: repairLines(judged),
    proof: proofLines(judged),
    record: recordLines(judged),
  };
  return (Object.keys(WORTH) as PartId[]).map((id) => ({ id, points: points[id], of: WORTH[id], lines: lines[id] }));
}

function notAsShown({ taken }: Judged): number {
  return taken.filter(({ clip, reading }) => {
    if ('refused' in reading) return true;
    return Object.entries(reading.values).some(([name, value]) => clip.values[name] !== value);
  }).length;
}

export type DiagnosisMark = Pick<Mark, 'parts' | 'total' | 'pass' | 'signatures' | 'skills'> & {
  diagnosis: DiagnosisResult;
  bench: Bench;
};

export function markDiagnosis(exercise: DiagnoseExercise, attempt: Attempt): DiagnosisMark {
  const judged = judge(exercise, attempt);
  const { bench, evidence, verdict, complaintGone } = judged;
  const points = pointsOf(sumsOf(judged));
  const enough = points.total >= PASS_POINTS && points.evidence >= PASS_EVIDENCE && isProved(judged.proofs);
  const right = evidencePoints(verdict?.card === bench.truth ? 'right' : 'wrong', evidence.posterior) >= PASS_EVIDENCE;
  return {
    parts: partsOf(judged, points),
    total: points.total,
    pass: enough && complaintGone === true,
    signatures: signaturesOf(judged),
    skills: { [exercise.diagnose.skill]: { successes: right ? 1 : 0, attempts: 1 } },
    diagnosis: {
      named: verdict?.card ?? null,
      trueCard: bench.truth,
      posterior: evidence.posterior,
      minutes: evidence.learnerMin,
      referenceMin: evidence.referenceMin,
      complaintGone,
      clipsNotAsShown: notAsShown(judged),
      certainBeforeRepair: isCertain(evidence.posteriorBeforeRepair),
      capped: points.capped,
    },
    bench,
  };
}
