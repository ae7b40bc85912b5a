/** Beliefs that explain a wrong switching: each leaves its own instant, which is compared with what was foretold. */
import type { TraceEvent } from '../../engine/trace.ts';
import type { OutputId } from '../../engine/types.ts';
import { TICKS_PER_S } from '../../engine/units.ts';
import type { PredictSignature, PredictTask } from '../types.ts';
import type { Judged } from './match.ts';
import type { TrueEdge } from './truth.ts';

/** A foretold instant this near to what a belief would give counts as that belief, s. Source: our marking rule. */
const NEAR_S = 5;

const near = (a: number, b: number): boolean => Math.abs(a - b) <= NEAR_S;

function secondsOf(events: readonly TraceEvent[], wanted: (event: TraceEvent) => boolean): number[] {
  return events.filter(wanted).map((event) => event.tick / TICKS_PER_S);
}

/** First movement of the stretch of presence that the true switching ended: what came after a longer gap. */
export function enteredS(seenS: readonly number[], truth: TrueEdge): number | null {
  const before = seenS.filter((s) => s <= truth.atS);
  for (let i = before.length - 1; i > 0; i--) {
    if (before[i]! - before[i - 1]! > truth.delayS) return before[i]!;
  }
  return before[0] ?? null;
}

/** Signatures of one wrong switching of a row or of the air contact, most telling first. */
function ofOne(
  judged: Judged<TrueEdge>,
  output: OutputId,
  events: readonly TraceEvent[],
  task: PredictTask,
  allTruths: readonly TrueEdge[],
): PredictSignature | null {
  const { truth, said, credit } = judged;
  if (credit === 1) return null;
  const seenS = secondsOf(events, (e) => e.kind === 'seen');
  if (said && truth && !said.on && (truth.cause === 'delayFromLastPulse' || truth.cause === 'presenceOnly')) {
    const entered = enteredS(seenS, truth);
    if (entered !== null && near(said.atS, entered + truth.delayS)) {
      return { id: 'delayFromEntering', output, atS: truth.lastSeenS, saidS: said.atS, delayS: truth.delayS };
    }
  }
  if (said && !said.on && output === 'airContact') {
    const rowOff = allTruths.find((t) => t.cause === 'brightForDwell' && near(said.atS, t.atS));
    if (rowOff) return { id: 'daylightStopsFan', output, atS: rowOff.atS, saidS: said.atS, delayS: 0 };
  }
  if (said && truth?.cause === 'brightForDwell') {
    const row = output === 'innerRow' ? 'inner' : 'window';
    const crossings = secondsOf(events, (e) => e.kind === 'crossing' && e.row === row && e.rising);
    const crossed = crossings.find((s) => near(said.atS, s));
    if (crossed !== undefined && !near(said.atS, truth.atS)) {
      return { id: 'brightAtOnce', output, atS: crossed, saidS: said.atS, delayS: truth.delayS };
    }
  }
  const comesBack = truth && events.some((e) => e.kind === 'seen' && e.tick / TICKS_PER_S > truth.atS);
  if (!said && truth && !truth.on && truth.cause === 'delayFromLastPulse' && comesBack && truth.atS < task.toS) {
    return { id: 'peopleNotMovement', output, atS: truth.lastSeenS, saidS: null, delayS: truth.delayS };
  }
  return null;
}

export function signaturesOf(
  judged: ReadonlyMap<OutputId, Judged<TrueEdge>[]>,
  events: readonly TraceEvent[],
  task: PredictTask,
): PredictSignature[] {
  const truths = [...judged.values()].flat().flatMap(({ truth }) => (truth ? [truth] : []));
  const found: PredictSignature[] = [];
  for (const [output, pairs] of judged) {
    for (const pair of pairs) {
      const signature = ofOne(pair, output, events, task, truths);
      if (signature && !found.some((s) => s.id === signature.id && s.output === output)) found.push(signature);
    }
  }
  return found;
}
