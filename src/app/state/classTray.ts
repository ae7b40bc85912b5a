/** Attempts of a class, marked again one after the other in a worker; and the key of its rooms. */
import { create } from 'zustand';
import { readAttempt } from '../../exercise/attempt.ts';
import { type Graded, gradedOf } from '../../exercise/classTable.ts';
import { exerciseById, exerciseIds } from '../../exercise/load.ts';
import type { EdgesByOutput, Exercise, Keyed } from '../../exercise/types.ts';
import { bringSheets, takeSheet } from './assessments.ts';
import { fileKindOf, takeExercise } from './exercises.ts';
import { ask } from './job/worker.ts';
import { library } from './stories.ts';

interface Tray {
  graded: Graded[];
  /** What could not be marked, one sentence each. */
  sentences: string[];
  done: number;
  of: number;
}

const EMPTY: Tray = { graded: [], sentences: [], done: 0, of: 0 };
export const useTray = create<Tray>()(() => EMPTY);

interface Read {
  name: string;
  text: string;
}

/**
 * Marks the files; what cannot be read is told, and the others are marked all the same. Jobs of one's own among them are
 * taken first: the attempts may be theirs; assessor's sheets last, each to its attempt.
 */
export async function markFiles(files: readonly File[]): Promise<void> {
  const texts = await Promise.all(
    files.map(async (file): Promise<Read> => ({ name: file.name, text: await file.text() })),
  );
  const jobs = texts.filter(({ text }) => fileKindOf(text) === 'exercise');
  const taken = jobs.map(({ name, text }) => takeExercise(text, name));
  const sheets = texts.filter(({ text }) => fileKindOf(text) === 'assessment');
  const attempts = texts.filter((read) => !jobs.includes(read) && !sheets.includes(read));
  useTray.setState({ ...EMPTY, of: attempts.length, sentences: taken.flatMap((one) => (one.ok ? [] : one.sentences)) });
  for (const file of attempts) {
    const one = await markFile(file);
    useTray.setState((s) => ({
      done: s.done + 1,
      graded: Array.isArray(one) ? s.graded : [...s.graded, one],
      sentences: Array.isArray(one) ? [...s.sentences, ...one] : s.sentences,
    }));
  }
  const { graded } = useTray.getState();
  bringSheets(graded.map(({ seal }) => seal));
  const strange = sheets.flatMap(({ name, text }) => takeSheet(text, name, graded));
  useTray.setState((s) => ({ sentences: [...s.sentences, ...strange] }));
}

async function markFile({ name, text }: Read): Promise<Graded | string[]> {
  const attempt = readAttempt(text, name);
  if (!attempt.ok) return attempt.sentences;
  const exercise = exerciseById(library, attempt.value.exercise);
  if (!exercise.ok) return exercise.sentences.map((sentence) => `${name}: ${sentence}`);
  try {
    const answer = await ask({ type: 'mark', exercise: exercise.value, attempt: attempt.value });
    if (answer.type === 'marked') return gradedOf(name, attempt.value, answer.mark);
    return [`${name}: the room gave no mark.`];
  } catch (error) {
    return [`${name}: ${error instanceof Error ? error.message : String(error)}`];
  }
}

/** Exercises by their place in the advised order, rising. Codes stand for what every copy has; own ones travel as files. */
export function exercisesByJob(): Map<number, Exercise[]> {
  const all = exerciseIds(library).flatMap((id) => {
    const exercise = exerciseById(library, id);
    return exercise.ok && exercise.value.job > 0 ? [exercise.value] : [];
  });
  const byJob = new Map<number, Exercise[]>();
  for (const exercise of all.sort((a, b) => a.job - b.job)) {
    byJob.set(exercise.job, [...(byJob.get(exercise.job) ?? []), exercise]);
  }
  return byJob;
}

/** What a room does, for the lecturer. */
export async function keyOf(exercise: Keyed, seed: number): Promise<EdgesByOutput> {
  const answer = await ask({ type: 'key', exercise, seed });
  return answer.type === 'key' ? answer.edges : {};
}
