/** The criteria of a mark, whatever the kind of job: one list for the assessor's sheet and for the matrix of a class. */
import type { OutputId } from '../../engine/types.ts';
import { SHARE } from '../commission/mark.ts';
import type { Verdict } from '../commission/types.ts';
import { PASS_EVIDENCE, PASS_PROOF, UNCERTAIN_MOST } from '../diagnose/score.ts';
import type { DiagnosisResult, ProofId } from '../diagnose/types.ts';
import type { LineCode, Mark, MarkLine, MarkPart } from '../types.ts';

export interface CriterionMark {
  /** The same on every bench of an exercise. */
  id: string;
  part: MarkPart['id'];
  /** Which of several of its kind, from 1; null: it is the only one. */
  nth: number | null;
  verdict: Verdict;
  /** Points computed, and points to be had; 0 of 0: it carries none. */
  points: number;
  of: number;
  /** Without this verdict or a better one there is no pass. */
  must: 'half' | 'met' | null;
  /** Most points of the whole mark while it is not met. */
  mostWithout: number | null;
  /** What the mark was made from, each line with its instant. */
  lines: MarkLine[];
}

/** A part that is a mean counts as met from this share on. Assumed: the share that a pass needs. */
const MEAN_MET = 0.7;

const isSaid = (...codes: LineCode['code'][]) => {
  return ({ say }: MarkLine): boolean => codes.includes(say.code);
};

function verdictOf(points: number, of: number): Verdict {
  return points >= of ? 'met' : points > 0 ? 'half' : 'missed';
}

function criterion(
  part: MarkPart['id'],
  id: string,
  lines: MarkLine[],
  rest: Partial<CriterionMark> = {},
): CriterionMark {
  const points = lines.reduce((sum, line) => sum + line.points, 0);
  const of = lines.reduce((sum, line) => sum + line.of, 0);
  const verdict = verdictOf(points, of);
  return { id, part, nth: null, verdict, points, of, must: null, mostWithout: null, lines, ...rest };
}

const OUTPUT_ID: Record<OutputId, string> = {
  innerRow: 'inner-row',
  windowRow: 'window-row',
  airContact: 'air-contact',
};

const WALK_ID: Partial<Record<LineCode['code'], string>> = {
  walkPair: 'walk-pair',
  walkSeen: 'walk-seen',
  walkSignal: 'walk-signal',
  walkEarlier: 'walk-earlier',
  walkWhy: 'walk-why',
};

/** What two walks are compared by; of some there is one for each walk. */
function walkCriterion(part: MarkPart['id'], line: MarkLine): CriterionMark[] {
  const id = WALK_ID[line.say.code];
  if (id === undefined) return [];
  if (!('walk' in line.say)) return [criterion(part, id, [line])];
  const nth = line.say.walk + 1;
  return [criterion(part, `${id}-${nth}`, [line], { nth })];
}

/**
 * Switchings of the room, each output's in order of time, and what was said beyond them; or the ratio of each row; or two
 * walks.
 */
function answeredCriteria({ id: part, lines }: MarkPart): CriterionMark[] {
  const walks = lines.flatMap((line) => walkCriterion(part, line));
  if (walks.length > 0) return walks;
  const isExtra = isSaid('edgeExtra', 'nothingThere');
  const count = new Map<string, number>();
  const own = lines
    .filter((line) => !isExtra(line))
    .sort((a, b) => (a.atS ?? 0) - (b.atS ?? 0))
    .map((line) => {
      if ('row' in line.say) return criterion(part, `ratio-${line.say.row}`, [line]);
      const name = 'output' in line.say ? OUTPUT_ID[line.say.output] : part;
      const nth = (count.get(name) ?? 0) + 1;
      count.set(name, nth);
      return criterion(part, `${name}-${nth}`, [line], { nth });
    });
  if (own.some(({ nth }) => nth === null)) return own;
  const extra = lines.filter(isExtra);
  return [
    ...own.sort((a, b) => a.id.localeCompare(b.id, 'en', { numeric: true })),
    criterion(part, 'nothing-else', extra, { verdict: extra.length === 0 ? 'met' : 'missed' }),
  ];
}

function commissionCriteria({ id: part, lines }: MarkPart): CriterionMark[] {
  return lines.flatMap((line) => {
    const { say } = line;
    return say.code === 'criterion' ? [criterion(part, say.id, [line], { verdict: say.verdict, must: say.must })] : [];
  });
}

const PROOF_ID: Record<ProofId, string> = {
  complaint: 'proof-complaint',
  movement: 'proof-movement',
  buttons: 'proof-buttons',
  offDelay: 'proof-off-delay',
  special: 'proof-special',
};

function proofCriterion(part: MarkPart['id'], line: MarkLine): CriterionMark {
  const proof = 'proof' in line.say ? line.say.proof : 'special';
  return criterion(part, PROOF_ID[proof], [line], { must: proof === 'complaint' ? 'met' : null });
}

function evidenceVerdict(points: number, of: number): Verdict {
  return points >= of ? 'met' : points >= PASS_EVIDENCE ? 'half' : 'missed';
}

/** The whole part as one criterion: its points are not the sum of its lines. */
function wholePart({ id, points, of }: MarkPart, lines: MarkLine[], verdict: Verdict): CriterionMark {
  return criterion(id, id, lines, { points, of, verdict });
}

function recordCriteria(part: MarkPart): CriterionMark[] {
  const isAdvice = ({ say }: MarkLine): boolean => 'slot' in say && say.slot === 'advice';
  return [
    criterion(
      part.id,
      'record',
      part.lines.filter((line) => !isAdvice(line)),
    ),
    criterion(part.id, 'advice', part.lines.filter(isAdvice), { verdict: 'lecturer' }),
  ];
}

function diagnosisPart(part: MarkPart, { complaintGone, certainBeforeRepair }: DiagnosisResult): CriterionMark[] {
  const { id, points, of, lines } = part;
  const isUncertain = isSaid('uncertainBeforeRepair');
  const isRemaining = isSaid('complaintRemains');
  const isShort = isSaid('proofShort');
  switch (id) {
    case 'strategy':
    case 'efficiency':
      return [wholePart(part, lines, points >= MEAN_MET * of ? 'met' : points > 0 ? 'half' : 'missed')];
    case 'evidence': {
      const claim = lines.filter((line) => !isUncertain(line));
      return [
        { ...wholePart(part, claim, evidenceVerdict(points, of)), must: 'half' },
        criterion(id, 'certain-before-repair', lines.filter(isUncertain), {
          verdict: certainBeforeRepair ? 'met' : 'missed',
          mostWithout: UNCERTAIN_MOST,
        }),
      ];
    }
    case 'proof':
      return [
        ...lines.filter(isSaid('proofDone', 'proofMissing')).map((line) => proofCriterion(id, line)),
        criterion(id, 'three-proofs', lines.filter(isShort), {
          verdict: points >= PASS_PROOF ? 'met' : 'missed',
          must: 'met',
        }),
        criterion(id, 'complaint-gone', lines.filter(isRemaining), {
          verdict: complaintGone === true ? 'met' : 'missed',
          must: 'met',
        }),
      ];
    case 'record':
      return recordCriteria(part);
    default:
      return [wholePart(part, lines, verdictOf(points, of))];
  }
}

/** All criteria of a mark; their points, capped where one says so, are its total. */
export function criteriaOf({ parts, diagnosis, commission }: Mark): CriterionMark[] {
  return parts.flatMap((part) => {
    if (diagnosis) return diagnosisPart(part, diagnosis);
    return commission ? commissionCriteria(part) : answeredCriteria(part);
  });
}

/** Whether a pass is possible with this verdict. */
export function isEnough({ verdict, must }: Pick<CriterionMark, 'verdict' | 'must'>): boolean {
  return must === null || SHARE[verdict] >= SHARE[must];
}
