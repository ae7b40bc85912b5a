import type { PersonSpec, PlanStep, PointM, Tick } from '../types.ts';

/** A Stand-in at one instant; plain, complete. Owner of the shape: this folder. */
export interface PersonState {
  spec: PersonSpec;
  present: boolean;
  atM: PointM;
  headingDeg: number;
  plan: PlanStep[];
  /** Step being done; plan.length when finished. */
  stepIndex: number;
  stepStartTick: Tick;
  /** Where the step began (walks interpolate from here). */
  fromM: PointM;
}
