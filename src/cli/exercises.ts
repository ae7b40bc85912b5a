/** An exercise named on the command line: one of ours by its id, or one of somebody's own by the path of its file. */
import { exerciseById, loadExercise } from '../exercise/load.ts';
import type { Exercise } from '../exercise/types.ts';
import type { Library } from '../scenario/library.ts';
import type { Parsed } from '../scenario/parse.ts';
import { readText } from './files.ts';

export interface NamedExercise {
  exercise: Exercise;
  /** Of somebody's own: the text of its file; null: it came along. */
  ownText: string | null;
}

export function exerciseNamed(name: string, library: Library): Parsed<NamedExercise> {
  const read = name.endsWith('.json') ? readText(name) : null;
  if (read && !read.ok) return { ok: false, sentences: [read.sentence] };
  const ownText = read?.ok ? read.text : null;
  const exercise = ownText === null ? exerciseById(library, name) : loadExercise(ownText, name, library);
  return exercise.ok ? { ok: true, value: { exercise: exercise.value, ownText } } : exercise;
}
