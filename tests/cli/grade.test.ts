/** A folder of attempts with assessor's sheets among them: each sheet to its attempt, both marks on the line and in the table. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { diskLibrary } from '../../src/cli/files.ts';
import { grade } from '../../src/cli/grade.ts';
import { NO_ASSESSMENT, withNote } from '../../src/exercise/assessment/assessment.ts';
import { assessmentText } from '../../src/exercise/assessment/file.ts';
import { attemptText } from '../../src/exercise/attempt.ts';
import { attemptOf, createWorker } from '../../src/exercise/diagnose/expert.ts';
import { exerciseById } from '../../src/exercise/load.ts';
import { markAttempt } from '../../src/exercise/mark.ts';
import type { Attempt } from '../../src/exercise/types.ts';

let folder = '';
let out = '';
let err = '';
beforeEach(() => {
  [folder, out, err] = [mkdtempSync(join(tmpdir(), 'grade-')), '', ''];
  vi.spyOn(process.stdout, 'write').mockImplementation((text) => {
    out += text;
    return true;
  });
  vi.spyOn(process.stderr, 'write').mockImplementation((text) => {
    err += text;
    return true;
  });
});
afterEach(() => {
  vi.restoreAllMocks();
  rmSync(folder, { recursive: true });
});

const loaded = exerciseById(diskLibrary(), 'the-fan-stays-off');
if (!loaded.ok || loaded.value.kind !== 'diagnose') throw new Error('no such diagnosis');
const exercise = loaded.value;

/** Nothing was done: quick to mark. */
const idle = (name: string): Attempt => attemptOf(createWorker(exercise, 1), [name]);

const mark = markAttempt(exercise, idle('Anybody'));

function sheetFor(attempt: Attempt): string {
  const ruling = { verdict: 'met' as const, points: 15, reason: 'Put right before my eyes' };
  const note = { criterion: 'repair', code: 'U3', comment: '', ruling };
  return assessmentText(attempt, mark, withNote(NO_ASSESSMENT, note));
}

it('marks attempts with the sheets beside them, and says which sheet has no attempt here', () => {
  const [mo, kim, gone] = [idle('Mo'), idle('Kim'), idle('Gone')];
  const put = (name: string, text: string): void => writeFileSync(join(folder, name), text);
  put('a-sheet.json', sheetFor(mo));
  put('kim.json', attemptText(kim));
  put('lost-sheet.json', sheetFor(gone));
  put('mo.json', attemptText(mo));
  const csv = join(folder, 'marks.csv');
  expect(grade([folder, '--csv', csv])).toBe(1);
  expect(err.trim().split('\n')).toHaveLength(1);
  expect(err).toContain('lost-sheet.json: it belongs to an attempt of the-fan-stays-off, room 1');
  const computed = mark.total;
  expect(out).toContain(`${computed} of 100, not yet; with the assessor's points ${computed + 15} of 100, not yet`);
  expect(out.match(/with the assessor's points/g)).toHaveLength(1);
  const rows = readFileSync(csv, 'utf8').trim().split('\n');
  expect(rows.find((row) => row.startsWith('mo.json'))).toContain(
    `,${computed},${computed + 15},repair: Put right before my eyes,not yet`,
  );
  expect(rows.find((row) => row.startsWith('kim.json'))).toMatch(/,,,,,$/);
});
