/**
 * The learning platform that this page was opened in. The first job opened is the one it is told of; what is done goes on
 * being kept in this browser as everywhere. Loaded only where there is a platform.
 */
import { attemptText, readAttempt } from '../../../exercise/attempt.ts';
import { benchScenario } from '../../../exercise/edits.ts';
import { memoryOf, type RunId, readMemory } from '../../../exercise/scorm/memory.ts';
import { beginVisit, endVisit, report, type ScormApi, takeMark, type Visit } from '../../../exercise/scorm/visit.ts';
import type { Attempt, Exercise, Mark } from '../../../exercise/types.ts';
import { forgetAttempt, keepAttempt, keptAttempt } from '../attempts.ts';
import { forgetSave } from '../saves.ts';
import { setJob } from './job.ts';

/** Steps that follow one another as quickly as this are told together, ms. Assumed: a platform asked at every key stroke would make the page stutter. */
const GATHER_MS = 1000;

interface Link {
  visit: Visit;
  exercise: Exercise;
  seed: number;
  id: RunId;
  /** Work of an earlier visit is neither at the platform nor here. */
  elsewhere: boolean;
  /** The work as it was kept last; null: nothing was done in this visit yet. */
  attempt: Attempt | null;
  waiting: ReturnType<typeof setTimeout> | null;
}

let link: Link | null = null;

// --- the work of an earlier visit ---------------------------------------------------------------------------------

const key = (run: string): string => `halflit/platform/${run}`;

/** A run under way is also kept here whole, as long as it is not passed: the platform may not hold all of it. */
function keepRun({ run, step }: RunId, attempt: Attempt | null): void {
  try {
    if (attempt) localStorage.setItem(key(run), JSON.stringify({ step, text: attemptText(attempt) }));
    else localStorage.removeItem(key(run));
  } catch {
    // The attempt itself is kept too, and whether that worked is told there.
  }
}

function keptRun(run: string): { step: number; attempt: Attempt } | null {
  try {
    const { step, text } = JSON.parse(localStorage.getItem(key(run)) ?? '') as { step: number; text: string };
    const read = readAttempt(text, 'kept run');
    return read.ok ? { step, attempt: read.value } : null;
  } catch {
    return null;
  }
}

/** Chance letters: nothing about the learner, and not the same for two of them. */
function newRun(): string {
  return [...crypto.getRandomValues(new Uint32Array(2))].map((part) => part.toString(36)).join('');
}

/**
 * The platform says whose run this is: work that somebody else left in this browser is not shown to the next learner.
 * `elsewhere`: work was done before that is neither at the platform nor here.
 */
function settle(exercise: Exercise, seed: number, found: string): { id: RunId; elsewhere: boolean } {
  const memory = readMemory(found);
  const id = { run: memory?.run ?? newRun(), step: memory?.step ?? 0 };
  const here = keptRun(id.run);
  const newest = here && here.step >= id.step ? here.attempt : (memory?.attempt ?? here?.attempt ?? null);
  const taken = newest?.exercise === exercise.id && newest.seed === seed ? newest : null;
  const left = keptAttempt(exercise.id, seed);
  if (taken === null || left === null || attemptText(left) !== attemptText(taken)) {
    forgetSave(benchScenario(exercise, seed).id);
    forgetAttempt(exercise.id, seed);
    if (taken) keepAttempt(taken);
  }
  return { id, elsewhere: memory !== null && taken === null };
}

// --- telling ------------------------------------------------------------------------------------------------------

export function joinPlatform(api: ScormApi, exercise: Exercise, seed: number): void {
  const visit = beginVisit(api, exercise.id, performance.now());
  if (visit.stage === 'refused') {
    const { refusal } = visit;
    setJob({ platform: { exercise: exercise.id, seed, whole: true, elsewhere: false, refusal, ended: false } });
    return;
  }
  link = { visit, exercise, seed, ...settle(exercise, seed, visit.found), attempt: null, waiting: null };
  addEventListener('pagehide', leave);
  addEventListener('visibilitychange', tellWaiting);
  tellNow();
}

function isLinked({ exercise, seed }: Pick<Attempt, 'exercise' | 'seed'>): boolean {
  return link?.exercise.id === exercise && link.seed === seed;
}

/** Something was done: the platform hears of it within a second. */
export function toldOfStep(attempt: Attempt): void {
  if (!link || !isLinked(attempt)) return;
  link.attempt = attempt;
  link.id = { ...link.id, step: link.id.step + 1 };
  link.waiting ??= setTimeout(tellNow, GATHER_MS);
}

export function toldOfMark(attempt: Attempt, mark: Mark): void {
  if (!link || !isLinked(attempt)) return;
  takeMark(link.visit, mark, link.exercise.aid === 'test');
  toldOfStep(attempt);
  tellNow();
}

function tellNow(): void {
  if (!link) return;
  const { visit, exercise, seed, id, elsewhere, attempt, waiting } = link;
  if (waiting !== null) clearTimeout(waiting);
  link.waiting = null;
  // Before the first step the platform's memory is as good as it was.
  const memory = attempt ? memoryOf(attempt, id) : { text: visit.found, whole: true };
  if (attempt) keepRun(id, visit.verdict?.pass ? null : attempt);
  report(visit, memory.text, performance.now());
  setJob({
    platform: {
      exercise: exercise.id,
      seed,
      whole: memory.whole,
      elsewhere: elsewhere && attempt === null,
      refusal: visit.refusal,
      ended: visit.stage !== 'open',
    },
  });
}

/** Out of sight: a page may be ended there without another word, and a platform may not be able to send while it is left. */
function tellWaiting(): void {
  if (link && link.waiting !== null) tellNow();
}

/** The page is left, or put away to be shown again: after that the platform hears nothing more. */
function leave(): void {
  if (link?.visit.stage !== 'open') return;
  tellNow();
  endVisit(link.visit);
  setJob(({ platform }) => ({ platform: platform && { ...platform, ended: true } }));
}
