/** grade: attempts replayed and marked again, a line each; a table for the lecturer with --csv. */
import { existsSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { canonicalJson } from '../engine/digest.ts';
import { ENGINE_VERSION } from '../engine/simulation.ts';
import { readAttempt } from '../exercise/attempt.ts';
import { exerciseById } from '../exercise/load.ts';
import { markAttempt } from '../exercise/mark.ts';
import type { Attempt, Mark, MarkPart } from '../exercise/types.ts';
import type { Library } from '../scenario/library.ts';
import { readArgs } from './args.ts';
import { diskLibrary, readText } from './files.ts';
import { complain } from './stories.ts';

interface Graded {
  file: string;
  attempt: Attempt;
  mark: Mark;
  remarks: string[];
}

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
  const mark = markAttempt(exercise.value, attempt.value);
  const remarks: string[] = [];
  if (attempt.value.engine !== ENGINE_VERSION) {
    remarks.push(`made with engine ${attempt.value.engine}, marked with ${ENGINE_VERSION}`);
  }
  if (mark.firstMismatchTick !== null) remarks.push(`does not replay from tick ${mark.firstMismatchTick} on`);
  const strange = mark.diagnosis?.clipsNotAsShown ?? 0;
  if (strange > 0) remarks.push(`${strange} of its readings are not what the instrument shows when taken again`);
  return { file: basename(path), attempt: attempt.value, mark, remarks };
}

/** Attempts with the same work in them: the same seed, inputs and answers. */
function markTwins(graded: readonly Graded[]): void {
  const byWork = new Map<string, Graded[]>();
  for (const one of graded) {
    const { exercise, seed, inputs, answers } = one.attempt;
    const work = canonicalJson({ exercise, seed, inputs, answers });
    byWork.set(work, [...(byWork.get(work) ?? []), one]);
  }
  for (const twins of byWork.values()) {
    if (twins.length < 2) continue;
    for (const one of twins) {
      const others = twins.filter((other) => other !== one).map(({ file }) => file);
      one.remarks.push(`same work as ${others.join(', ')}`);
    }
  }
}

function csvCell(value: string | number): string {
  const text = String(value);
  // A cell that begins like a formula would be worked by a spreadsheet.
  const safe = /^[=+\-@\t]/.test(text) ? `'${text}` : text;
  return /[",\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

/** A column for each part; an exercise leaves the parts of the other kind empty. */
const PARTS: readonly MarkPart['id'][] = [
  'prediction',
  'safe',
  'strategy',
  'efficiency',
  'evidence',
  'repair',
  'proof',
  'record',
];

function csvOf(graded: readonly Graded[]): string {
  const rows = graded.map(({ file, attempt, mark, remarks }) => [
    file,
    attempt.names.join(' and '),
    mark.exercise,
    mark.seed,
    mark.total,
    mark.pass ? 'pass' : 'not yet',
    ...PARTS.map((part) => mark.parts.find(({ id }) => id === part)?.points ?? ''),
    remarks.join('; '),
  ]);
  const head = ['file', 'names', 'exercise', 'seed', 'total', 'result', ...PARTS, 'remarks'];
  return [head, ...rows].map((row) => `${row.map(csvCell).join(',')}\n`).join('');
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
  const graded: Graded[] = [];
  for (const path of files) {
    const one = gradeFile(path, library);
    if (Array.isArray(one)) sentences.push(...one);
    else graded.push(one);
  }
  markTwins(graded);
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
