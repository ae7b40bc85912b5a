/** Exercises that came with the app and those of somebody's own, read when one is opened. */
import { readAttempt } from '../../exercise/attempt.ts';
import { fileKindOf } from '../../exercise/fileKind.ts';
import { exerciseById, loadExercise } from '../../exercise/load.ts';
import type { Aid, Attempt } from '../../exercise/types.ts';
import { assessmentWords } from '../../report/text/assessment.ts';
import type { Library } from '../../scenario/library.ts';
import { openJob } from './job/job.ts';
import { setApp } from './store.ts';
import { library as bundled, jobTitles, keepJobText, type Opened } from './stories.ts';

export { fileKindOf };

/** A job of somebody's own that lies beside the page, as in a package for a learning platform; `?own=` names it. */
async function readBeside(id: string): Promise<void> {
  if (new URLSearchParams(location.search).get('own') !== id) return;
  const name = `jobs/${id}.json`;
  try {
    const answer = await fetch(name);
    const taken = takeExercise(await answer.text(), name);
    if (!taken.ok) setApp({ notice: taken.sentences.join(' ') });
  } catch {
    // Not to be had now: what this browser kept of an earlier visit will do, or a notice says that there is none.
  }
}

/** Title of an exercise; its id when this browser has it no more. */
export function exerciseTitle(id: string): string {
  const exercise = exerciseById(bundled, id);
  return exercise.ok ? exercise.value.title : id;
}

/** Opens an exercise by its id; a notice says when there is none. `drawn`: see JobData. */
export async function openExercise(
  library: Library,
  id: string,
  seed: number,
  aid?: Aid,
  drawn?: string,
): Promise<void> {
  await readBeside(id);
  const exercise = exerciseById(library, id);
  if (!exercise.ok) {
    setApp({ notice: exercise.sentences.join(' ') });
    return;
  }
  void openJob(aid ? { ...exercise.value, aid } : exercise.value, seed, null, drawn ?? null);
}

/** Reads an exercise file of somebody's own and lists it among the jobs; this browser keeps it when it may. */
export function takeExercise(text: string, fileName: string): Opened {
  const read = loadExercise(text, fileName, bundled);
  if (!read.ok) return read;
  const kept = keepJobText(read.value.id, text, fileName);
  if (kept.ok) setApp({ jobTitles: jobTitles() });
  return kept;
}

/** Opens an attempt from a file: its exercise, its bench, its answers, its level of aid. */
export function openAttempt(library: Library, text: string, fileName: string): boolean {
  if (fileKindOf(text) === 'assessment') {
    setApp({ notice: assessmentWords.belongsInTray(fileName) });
    return false;
  }
  const attempt = readAttempt(text, fileName);
  const exercise = attempt.ok ? exerciseById(library, attempt.value.exercise) : attempt;
  if (!attempt.ok || !exercise.ok) {
    setApp({ notice: (exercise as { sentences: string[] }).sentences.join(' ') });
    return false;
  }
  openAttemptOf(attempt.value);
  return true;
}

/** Opens an attempt that has been read already, with the aid that it was made with. */
export function openAttemptOf(attempt: Attempt): void {
  const exercise = exerciseById(bundled, attempt.exercise);
  if (exercise.ok) void openJob({ ...exercise.value, aid: attempt.aid }, attempt.seed, attempt);
}
