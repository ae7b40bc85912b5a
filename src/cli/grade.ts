/** grade: attempts replayed and marked again, a line each; a table for the lecturer with --csv. */
import { existsSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { readAttempt } from '../exercise/attempt.ts';
import { csvOf, type Graded, gradedOf, withTwins } from '../exercise/classTable.ts';
import { fileKindOf } from '../exercise/fileKind.ts';
import { exerciseById, loadExercise } from '../exercise/load.ts';
import { markAttempt } from '../exercise/mark.ts';
import type { Exercise } from '../exercise/types.ts';
import type { Library } from '../scenario/library.ts';
import { readArgs } from './args.ts';
import { diskLibrary, readText } from './files.ts';
import { complain } from './stories.ts';

/** Files of the folders and files named, in order of name. */
function filesOf(paths: readonly string[]): { files: string[]; sentences: string[] } {
  const files: string[] = [];
  const sentences: string[] = [];
  for (const path of paths) {
    if (!existsSync(path)) sentences.push(`${path}: expected a file or folder of attempts, but there is none.`);
    else if (statSync(path).isDirectory()) {
      const inside = readdirSync(path).filter((name) => name.endsWith('.json'));
      files.push(...inside.sort().map((name) => join(path, name)));
    } else files.push(path);
  }
  return { files, sentences };
}

interface Read {
  path: string;
  text: string;
}

/** A lecturer's own exercises that lie among the attempts, by id. */
function ownExercises(texts: readonly Read[], library: Library, sentences: string[]): Map<string, Exercise> {
  const own = new Map<string, Exercise>();
  for (const { path, text } of texts) {
    const exercise = loadExercise(text, path, library);
    if (!exercise.ok) sentences.push(...exercise.sentences);
    else if (own.has(exercise.value.id))
      sentences.push(`${path}: another file here is the job ${exercise.value.id} too.`);
    else own.set(exercise.value.id, exercise.value);
  }
  return own;
}

function gradeFile({ path, text }: Read, library: Library, own: Map<string, Exercise>): Graded | string[] {
  const attempt = readAttempt(text, path);
  if (!attempt.ok) return attempt.sentences;
  const theirs = own.get(attempt.value.exercise);
  if (theirs) return gradedOf(basename(path), attempt.value, markAttempt(theirs, attempt.value));
  const exercise = exerciseById(library, attempt.value.exercise);
  if (!exercise.ok) return exercise.sentences.map((text) => `${path}: ${text}`);
  return gradedOf(basename(path), attempt.value, markAttempt(exercise.value, attempt.value));
}

export function grade(words: string[]): number {
  const read = readArgs(words, ['csv'], []);
  if (!read.ok) {
    complain([read.sentence]);
    return 1;
  }
  const { plain, values } = read.args;
  if (plain.length === 0) {
    complain(['Expected attempts: files, or a folder of them.']);
    return 1;
  }
  const { files, sentences } = filesOf(plain);
  const library = diskLibrary();
  const marked: Graded[] = [];
  const texts = files.flatMap((path) => {
    const read = readText(path);
    if (!read.ok) sentences.push(read.sentence);
    return read.ok ? [{ path, text: read.text }] : [];
  });
  const isExercise = ({ text }: Read): boolean => fileKindOf(text) === 'exercise';
  const own = ownExercises(texts.filter(isExercise), library, sentences);
  for (const file of texts.filter((read) => !isExercise(read))) {
    const one = gradeFile(file, library, own);
    if (Array.isArray(one)) sentences.push(...one);
    else marked.push(one);
  }
  const graded = withTwins(marked);
  complain(sentences);
  for (const { file, mark, remarks } of graded) {
    const result = `${mark.total} of 100, ${mark.pass ? 'pass' : 'not yet'}`;
    process.stdout.write(`${file}: ${mark.exercise}, seed ${mark.seed}: ${[result, ...remarks].join('; ')}\n`);
  }
  const csv = values.get('csv');
  if (csv !== undefined) writeFileSync(csv, csvOf(graded));
  const passed = graded.filter(({ mark }) => mark.pass).length;
  process.stdout.write(`${passed} passed, ${graded.length - passed} failed\n`);
  return sentences.length === 0 ? 0 : 1;
}
