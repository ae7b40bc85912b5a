/** Each reason for points won or lost, as data; the words stand in the report. */
import { TICKS_PER_S } from '../../engine/units.ts';
import type { MarkLine } from '../types.ts';
import { candidateOf } from './cards.ts';
import { rungsOpened } from './hints.ts';
import type { Judged } from './mark.ts';
import { isProved, PROOF_WORTH, SLOT_WORTH } from './proofOfRepair.ts';
import { LEFT_COST, SWAP_COST } from './repair.ts';
import { CERTAIN, hintCost, LIKELY, type Points, WORTH } from './score.ts';
import type { Act, DiagnoseLine, ProofId, RecordSlot } from './types.ts';

const PROOFS: readonly ProofId[] = ['complaint', 'movement', 'buttons', 'offDelay', 'special'];
const SLOTS: readonly RecordSlot[] = [
  'symptom',
  'isolation',
  'readingsBefore',
  'cause',
  'remedy',
  'readingsAfter',
  'settingsLeft',
  'testTimes',
  'advice',
  'name',
];

/** Instant of an act or clip, s of scenario time. */
export function secondsOf(act: Act | null | undefined): number | null {
  return act ? act.tick / TICKS_PER_S : null;
}

const line = (points: number, of: number, act: Act | null | undefined, say: DiagnoseLine): MarkLine => ({
  points,
  of,
  atS: secondsOf(act),
  say,
});

/** Readings before the verdict; they carry no points of their own, the part is a mean. */
export function testLines({ evidence, exercise, attempt, answers }: Judged): MarkLine[] {
  const of = exercise.diagnose.candidates.length;
  const lines = evidence.told.map(({ taken, minutes, dropped, left }) => {
    const { test } = taken.clip;
    const say: DiagnoseLine =
      dropped.length > 0
        ? { code: 'testTold', test, dropped: dropped.length, left, of, minutes }
        : { code: 'testToldNothing', test, left, minutes };
    return line(0, 0, taken.clip, say);
  });
  const count = rungsOpened(answers.hints);
  const cost = attempt.aid === 'test' ? hintCost(count) : 0;
  return count > 0 ? [...lines, line(0, 0, null, { code: 'hintsUsed', count, cost })] : lines;
}

export function evidenceLines({ verdict, card, exercise, evidence }: Judged, points: Points): MarkLine[] {
  const trueCard = card.title;
  const { because } = card;
  let say: DiagnoseLine;
  if (!verdict) say = { code: 'claimMissing', trueCard, because };
  else if (verdict.card !== card.id) {
    const named = exercise.diagnose.candidates.find((candidate) => candidate.card.id === verdict.card);
    say = { code: 'claimWrong', card: named?.card.title ?? verdict.card, trueCard, because };
  } else {
    const { posterior } = evidence;
    const certain = posterior >= CERTAIN ? 'certain' : posterior >= LIKELY ? 'likely' : 'lucky';
    say = { code: 'claimRight', card: candidateOf(exercise, card.id).card.title, because, certain };
  }
  const lines = [line(points.evidence, WORTH.evidence, verdict, say)];
  if (points.capped) lines.push(line(0, 0, null, { code: 'uncertainBeforeRepair' }));
  return lines;
}

export function repairLines({ verdict, card, repair, answers, lastChange }: Judged): MarkLine[] {
  const done = verdict !== null && repair.done;
  const code = !done ? 'remedyMissing' : card.healthy ? 'nothingToRepair' : 'remedyDone';
  return [
    line(done ? WORTH.repair : 0, WORTH.repair, lastChange, { code }),
    ...answers.swaps.map((swap) => line(-SWAP_COST, 0, swap, { code: 'swapNeedless' })),
    ...repair.needless.map((what) => line(-LEFT_COST, 0, lastChange, { code: 'leftChanged', what })),
  ];
}

export function proofLines({ proofs, complaintGone, complaintS, card }: Judged): MarkLine[] {
  const lines = PROOFS.map((proof) => {
    const clip = proofs.get(proof)?.clip;
    return line(clip ? PROOF_WORTH : 0, PROOF_WORTH, clip, { code: clip ? 'proofDone' : 'proofMissing', proof });
  });
  if (!isProved(proofs)) lines.push(line(0, 0, null, { code: 'proofShort' }));
  const remains = complaintGone === false && !card.healthy;
  return remains ? [...lines, line(0, 0, null, { code: 'complaintRemains', timeS: complaintS })] : lines;
}

export function recordLines({ slots }: Judged): MarkLine[] {
  return SLOTS.map((slot) => {
    const filled = slots.has(slot);
    return line(filled ? SLOT_WORTH : 0, SLOT_WORTH, null, { code: filled ? 'recordFilled' : 'recordEmpty', slot });
  });
}
