/** The mark of a prediction: each switching with its points, its cause and its instant. */
import type { TraceEvent } from '../../engine/trace.ts';
import type { OutputId } from '../../engine/types.ts';
import type { CauseId, Mark, MarkLine, PredictAnswers, PredictTask, SkillId } from '../types.ts';
import { type Judged, matched } from './match.ts';
import { signaturesOf } from './signatures.ts';
import { type TrueEdge, trueEdges } from './truth.ts';

/** Points that a pass needs. Source: the product's own marking rule. */
export const PASS_POINTS = 70;

/** The skill that knowing a cause shows. */
export const SKILL_OF: Record<CauseId, SkillId> = {
  seen: 'delays',
  delayFromLastPulse: 'delays',
  brightForDwell: 'brightness',
  darkForDwell: 'brightness',
  onDelay: 'airContact',
  presenceOnly: 'airContact',
  button: 'buttons',
  supply: 'powerUp',
};

function lineOf(output: OutputId, judged: Judged<TrueEdge>, worth: number): MarkLine {
  const { truth, said, credit, toleranceS } = judged;
  const points = credit * worth;
  if (!truth) {
    const extra = { code: 'edgeExtra' as const, output, on: said!.on, saidS: said!.atS };
    return { points: 0, of: 0, atS: said!.atS, say: extra };
  }
  const { on, cause, atS: trueS } = truth;
  const saidS = said?.atS ?? null;
  if (credit === 0 || saidS === null) {
    return { points, of: worth, atS: trueS, say: { code: 'edgeWrong', output, on, trueS, saidS, cause } };
  }
  if (credit === 1)
    return { points, of: worth, atS: trueS, say: { code: 'edgeRight', output, on, trueS, saidS, cause } };
  return { points, of: worth, atS: trueS, say: { code: 'edgeNear', output, on, trueS, saidS, cause, toleranceS } };
}

/** Pairs of all outputs asked for. */
export function judgePrediction(
  task: PredictTask,
  answers: PredictAnswers,
  events: readonly TraceEvent[],
): Map<OutputId, Judged<TrueEdge>[]> {
  return new Map(
    task.outputs.map((output) => {
      const said = [...(answers.edges[output] ?? [])].sort((a, b) => a.atS - b.atS);
      return [output, matched(trueEdges(events, output, task), said, task.toleranceS)];
    }),
  );
}

export type PredictionMark = Pick<Mark, 'parts' | 'total' | 'pass' | 'signatures' | 'skills'>;

export function markPrediction(
  task: PredictTask,
  answers: PredictAnswers,
  events: readonly TraceEvent[],
): PredictionMark {
  const judged = judgePrediction(task, answers, events);
  const all = [...judged].flatMap(([output, pairs]) => pairs.map((pair) => ({ output, pair })));
  const most = Math.max(all.filter(({ pair }) => pair.said).length, all.filter(({ pair }) => pair.truth).length);
  const worth = most === 0 ? 0 : 100 / most;
  const lines = all.map(({ output, pair }) => lineOf(output, pair, worth));
  const points = most === 0 ? 100 : lines.reduce((sum, line) => sum + line.points, 0);
  const total = Math.round(points * 10) / 10;
  const skills: Mark['skills'] = {};
  for (const { pair } of all) {
    if (!pair.truth) continue;
    const skill = SKILL_OF[pair.truth.cause];
    const known = skills[skill] ?? { successes: 0, attempts: 0 };
    skills[skill] = { successes: known.successes + (pair.credit === 1 ? 1 : 0), attempts: known.attempts + 1 };
  }
  return {
    parts: [{ id: 'prediction', points: total, of: 100, lines }],
    total,
    pass: total >= PASS_POINTS,
    signatures: signaturesOf(judged, events, task),
    skills,
  };
}
