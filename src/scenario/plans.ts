/** Plans of story files written out: repeats become steps, and each step remembers where in the file it stands. */
import type { PlanStep } from '../engine/types.ts';
import type { StoryStep } from './schemas/people.ts';

export interface WrittenStep {
  step: PlanStep;
  /** Path below `plan`, for sentences: [4] or [4, 'steps', 1]. */
  at: (string | number)[];
}

/** Most steps of a written-out plan. Assumed: a day at a step every half minute; more only fills the state. */
export const MOST_STEPS = 3000;

export function writtenOut(plan: readonly StoryStep[]): WrittenStep[] {
  return plan.flatMap((step, i): WrittenStep[] => {
    if (step.act !== 'repeat') return [{ step, at: [i] }];
    const once = step.steps.map((inner, j): WrittenStep => ({ step: inner, at: [i, 'steps', j] }));
    return Array.from({ length: step.times }, () => once).flat();
  });
}
