/** What every criterion is judged with. */
import type { Criterion, Judged, Verdict } from './types.ts';

export type Of<K extends Criterion['kind']> = Extract<Criterion, { kind: K }>;

/** `half`: absent, there is no half. */
export function graded(value: number, full: number, half?: number): Verdict {
  if (value <= full) return 'met';
  return half !== undefined && value <= half ? 'half' : 'missed';
}

/** Nothing of it happened. */
export const NOTHING: Judged = { verdict: 'missed', value: null, limit: null, unit: 'none', at: null, ownS: null };
