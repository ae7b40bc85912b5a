/** A run is a scenario, a seed and inputs; everything else is recomputed. */
import type { Tick, TimedInput } from './types.ts';

export interface Recording {
  format: 1;
  engine: string;
  scenarioId: string;
  seed: number;
  /** Ordered by (tick, serial). The scenario's own script is not repeated here. */
  inputs: TimedInput[];
  /** How far the run has been computed. */
  headTick: Tick;
  /** 64-bit digest of the canonical state at the start of each minute, 16 hex digits. */
  digests: { tick: Tick; digest: string }[];
}
