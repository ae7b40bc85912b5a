/** The class that this browser works in: code, bench and names are typed once, and every job of the code finds them. */
import { create } from 'zustand';
import { benchSeed, readClassCode } from '../../exercise/classCode.ts';
import type { Exercise } from '../../exercise/types.ts';
import type { JobProgress } from '../../report/text/class.ts';
import { keptAttempt, keptPoints } from './attempts.ts';
import { exercisesByJob } from './classTray.ts';
import type { Case } from './notebook.ts';
import { openJobById } from './start.ts';

const KEY = 'halflit/class';

export interface ClassBench {
  code: string;
  /** The pair's own place in the class, 1-99. */
  bench: number;
}

/** Nobody has typed a code in this browser, or what is stored cannot be read. */
const NONE: ClassBench = { code: '', bench: 1 };

function kept(): ClassBench {
  try {
    const { code, bench } = JSON.parse(localStorage.getItem(KEY) ?? 'null') as ClassBench;
    return readClassCode(code) && Number.isInteger(bench) ? { code, bench } : NONE;
  } catch {
    return NONE;
  }
}

export const useClassBench = create<ClassBench>()(kept);

export function setClassBench(change: Partial<ClassBench>): void {
  useClassBench.setState(change);
  try {
    localStorage.setItem(KEY, JSON.stringify(useClassBench.getState()));
  } catch {
    // It stands until the page is left; then the code must be typed again.
  }
}

/** Every exercise that a code stands for, in the advised order; none if it is no code. */
export function jobsOfCode(code: string): Exercise[] {
  const plan = readClassCode(code);
  if (!plan) return [];
  const byJob = exercisesByJob();
  return plan.jobs.flatMap((job) => byJob.get(job) ?? []);
}

export interface ClassPlace {
  code: string;
  bench: number;
  /** The job that follows; null: this is the last one. */
  next: Exercise | null;
}

/** Where a job on a room stands in the class; null: it is none of the class's, or another bench's. */
export function placeInClass({ code, bench }: ClassBench, exerciseId: string, seed: number): ClassPlace | null {
  const plan = readClassCode(code);
  if (!plan || benchSeed(plan, bench) !== seed) return null;
  const jobs = jobsOfCode(code);
  const at = jobs.findIndex(({ id }) => id === exerciseId);
  return at < 0 ? null : { code, bench, next: jobs[at + 1] ?? null };
}

/** Opens a job of the class on the room of this bench. */
export function openClassJob({ code, bench }: ClassBench, exerciseId: string): void {
  const plan = readClassCode(code);
  if (plan) void openJobById(exerciseId, benchSeed(plan, bench), plan.aid);
}

/** How far a job is on a room; what was passed once stays passed. `cases`: those of the notebook. */
export function jobProgress(exerciseId: string, seed: number, cases: readonly Case[]): JobProgress {
  const passed = cases.find(({ attempt }) => attempt.exercise === exerciseId && attempt.seed === seed);
  if (passed) return { state: 'passed', points: Math.round(passed.mark.total) };
  if (!keptAttempt(exerciseId, seed)) return { state: 'new' };
  const points = keptPoints(exerciseId, seed);
  return points === null ? { state: 'begun' } : { state: 'handedIn', points };
}
