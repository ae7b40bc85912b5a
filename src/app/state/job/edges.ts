/** Switchings being foretold: kept in order, on and off in turn from how the output begins. */

import type { ControllerSettings, OutputId } from '../../../engine/types.ts';
import type { Given } from '../../../exercise/predict/given.ts';
import type { Edge, PredictTask } from '../../../exercise/types.ts';

/** In order of time, none twice, direction by place in the order. */
export function inTurn(edges: readonly Edge[], startsOn: boolean): Edge[] {
  const times = [...new Set(edges.map(({ atS }) => atS))].sort((a, b) => a - b);
  return times.map((atS, i) => ({ atS, on: (i % 2 === 0) !== startsOn }));
}

export function clampS(atS: number, { fromS, toS }: PredictTask): number {
  return Math.min(toS, Math.max(fromS, Math.round(atS * 10) / 10));
}

/** The delay that a pulse starts for a switching of this output, s. */
export function delayFor(output: OutputId, on: boolean, settings: ControllerSettings): number {
  if (output === 'airContact') return on ? settings.airOnDelayS : settings.airOffDelayS;
  if (on) return 0;
  return output === 'innerRow' ? settings.innerOffDelayS : settings.windowOffDelayS;
}

/** The pulse before or after the one that an edge counts from, as an instant; null: there is none. */
export function otherPulseS(given: Given, countedS: number, direction: 1 | -1): number | null {
  const { seenS } = given;
  if (direction === 1) return seenS.find((s) => s > countedS + 0.05) ?? null;
  for (let i = seenS.length - 1; i >= 0; i--) {
    if (seenS[i]! < countedS - 0.05) return seenS[i]!;
  }
  return null;
}

/** The pulse that stands a delay before an edge, if there is one just there. */
export function countedPulseS(given: Given, edge: Edge, delayS: number): number | null {
  return given.seenS.find((s) => Math.abs(s + delayS - edge.atS) < 0.06) ?? null;
}
