/** grade: attempts replayed and marked again, a line each; a table for the lecturer with --csv. */
import { existsSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { readAttempt } from '../exercise/attempt.ts';
import { csvOf, type Graded, gradedOf, withTwins } from '../exercise/classTable.ts';
import { exerciseById } from '../exercise/load.ts';
import { markAttempt } from '../exercise/mark.ts';
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

function gradeFile(path: string, library: Library): Graded | string[] {
  const read = readText(path);
  if (!read.ok) return [read.sentence];
  const attempt = readAttempt(read.text, path);
  if (!attempt.ok) return attempt.sentences;
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
  for (const path of files) {
    const one = gradeFile(path, library);
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
