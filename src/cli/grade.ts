/** grade: attempts replayed and marked again, a line each; a table for the lecturer with --csv. */
import { existsSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { type Assessed, type Assessment, assessed, NO_ASSESSMENT } from '../exercise/assessment/assessment.ts';
import { readAssessment, strangeCriteria } from '../exercise/assessment/file.ts';
import { readAttempt } from '../exercise/attempt.ts';
import { csvOf, type Graded, gradedOf, withTwins } from '../exercise/classTable.ts';
import { type FileKind, fileKindOf } from '../exercise/fileKind.ts';
import { exerciseById, loadExercise } from '../exercise/load.ts';
import { markAttempt } from '../exercise/mark.ts';
import type { Exercise } from '../exercise/types.ts';
import { assessmentWords } from '../report/text/assessment.ts';
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

/** Assessor's sheets that lie among the attempts, by the seal of their attempt. */
function sheetsOf(texts: readonly Read[], marked: readonly Graded[], sentences: string[]): Map<string, Assessment> {
  const sheets = new Map<string, Assessment>();
  for (const { path, text } of texts) {
    const read = readAssessment(text, path);
    if (!read.ok) {
      sentences.push(...read.sentences);
      continue;
    }
    const { attempt, exercise, seed, assessment } = read.value;
    const one = marked.find(({ seal }) => seal === attempt);
    const strange = one ? strangeCriteria(read.value, one.mark) : [];
    if (!one) sentences.push(assessmentWords.noAttempt(path, exercise, seed));
    else if (strange.length > 0) sentences.push(assessmentWords.otherCriteria(path, strange));
    else if (sheets.has(attempt)) sentences.push(assessmentWords.twice(path));
    else sheets.set(attempt, assessment);
  }
  return sheets;
}

/** The mark of one attempt in a line, with what an assessor gave. */
function lineOf({ file, mark, remarks }: Graded, given: Assessed): string {
  const word = (pass: boolean): string => (pass ? 'pass' : 'not yet');
  const parts = [`${mark.total} of 100, ${word(mark.pass)}`];
  if (given.ruled) parts.push(`with the assessor's points ${given.total} of 100, ${word(given.pass)}`);
  return `${file}: ${mark.exercise}, seed ${mark.seed}: ${[...parts, ...remarks].join('; ')}`;
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
  const ofKind = (kind: FileKind): Read[] => texts.filter(({ text }) => fileKindOf(text) === kind);
  const own = ownExercises(ofKind('exercise'), library, sentences);
  for (const file of [...ofKind('attempt'), ...ofKind('story')]) {
    const one = gradeFile(file, library, own);
    if (Array.isArray(one)) sentences.push(...one);
    else marked.push(one);
  }
  const graded = withTwins(marked);
  const sheets = sheetsOf(ofKind('assessment'), graded, sentences);
  complain(sentences);
  const results = graded.map(({ mark, seal }) => assessed(mark, sheets.get(seal) ?? NO_ASSESSMENT));
  for (const [i, one] of graded.entries()) process.stdout.write(`${lineOf(one, results[i]!)}\n`);
  const csv = values.get('csv');
  if (csv !== undefined) writeFileSync(csv, csvOf(graded, sheets));
  const passed = results.filter(({ pass }) => pass).length;
  process.stdout.write(`${passed} passed, ${graded.length - passed} failed\n`);
  return sentences.length === 0 ? 0 : 1;
}
