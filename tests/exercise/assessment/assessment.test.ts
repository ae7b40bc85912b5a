/** The assessor's sheet: criteria that add up to the mark, rulings with their reason, both marks kept, files that lose nothing. */
import { describe, expect, it } from 'vitest';
import { diskLibrary } from '../../../src/cli/files.ts';
import { ENGINE_VERSION } from '../../../src/engine/simulation.ts';
import {
  type Assessment,
  assessed,
  lacksReason,
  NO_ASSESSMENT,
  type Ruling,
  wholeTotal,
  withNote,
} from '../../../src/exercise/assessment/assessment.ts';
import { criteriaOf } from '../../../src/exercise/assessment/criteria.ts';
import { assessmentText, readAssessment, strangeCriteria } from '../../../src/exercise/assessment/file.ts';
import { sealOf } from '../../../src/exercise/attempt.ts';
import { csvOf, gradedOf } from '../../../src/exercise/classTable.ts';
import type { CommissionExercise, CommissionLine } from '../../../src/exercise/commission/types.ts';
import { attemptOf as diagnosed } from '../../../src/exercise/diagnose/expert.ts';
import { expertWorker } from '../../../src/exercise/diagnose/proofs.ts';
import { fileKindOf } from '../../../src/exercise/fileKind.ts';
import { exerciseById } from '../../../src/exercise/load.ts';
import { markAttempt } from '../../../src/exercise/mark.ts';
import type { Attempt, Exercise, Mark, MarkLine, MarkPart } from '../../../src/exercise/types.ts';

const library = diskLibrary();

function exerciseOf<K extends Exercise['kind']>(id: string, kind: K): Extract<Exercise, { kind: K }> {
  const loaded = exerciseById(library, id);
  if (!loaded.ok || loaded.value.kind !== kind) throw new Error(`${id} is no ${kind}`);
  return loaded.value as Extract<Exercise, { kind: K }>;
}

interface Marked {
  attempt: Attempt;
  mark: Mark;
}

function answered(exercise: Exercise, answers: Attempt['answers']): Attempt {
  const { id, aid } = exercise;
  const rest = { inputs: [], headTick: 0, digests: [], engine: ENGINE_VERSION };
  return { format: 1, exercise: id, seed: 2, names: ['Mo'], aid, answers, ...rest };
}

/** A switching foreseen, one not foreseen, and one foretold that never came: a third each for the true ones. */
function predicted(): Marked {
  const edge = { output: 'innerRow' as const, on: true, trueS: 60, saidS: 60, cause: 'seen' as const };
  const lines: MarkLine[] = [
    { points: 100 / 3, of: 100 / 3, atS: 60, say: { code: 'edgeRight', ...edge } },
    { points: 0, of: 0, atS: 80, say: { code: 'edgeExtra', output: 'innerRow', on: false, saidS: 80 } },
    { points: 0, of: 100 / 3, atS: 90, say: { code: 'edgeWrong', ...edge, on: false, trueS: 90, saidS: null } },
  ];
  const exercise = exerciseOf('after-the-meeting', 'predict');
  return {
    attempt: answered(exercise, {}),
    mark: markOf(exercise, [{ id: 'prediction', points: 33.3, of: 100, lines }]),
  };
}

function observed(): Marked {
  const exercise = exerciseOf('two-readings', 'observe');
  const attempt = answered(exercise, { observe: { ratios: { inner: 3, window: 4 } } });
  return { attempt, mark: markAttempt(exercise, attempt) };
}

/** Everything that a program can judge is met. */
function allMet(exercise: CommissionExercise): Marked {
  const lines = exercise.commission.criteria.map(({ id, kind, title, next, part, points: of, must = null }) => {
    const verdict = kind === 'handover' ? 'lecturer' : 'met';
    const judged = { verdict, value: null, limit: null, unit: 'none', at: null, ownS: null } as const;
    const say: CommissionLine = { code: 'criterion', id, kind, title, next, must, ...judged };
    return { part, line: { points: verdict === 'met' ? of : 0, of, atS: null, say } };
  });
  const parts = [...new Set(lines.map(({ part }) => part))].map((id): MarkPart => {
    const own = lines.filter(({ part }) => part === id).map(({ line }) => line);
    const sum = (key: 'points' | 'of'): number => own.reduce((total, line) => total + line[key], 0);
    return { id, points: sum('points'), of: sum('of'), lines: own };
  });
  return { attempt: answered(exercise, {}), mark: { ...markOf(exercise, parts), commission: { days: [] } } };
}

function markOf(exercise: Exercise, parts: MarkPart[]): Mark {
  const total = parts.reduce((sum, { points }) => sum + points, 0);
  const rest = { signatures: [], skills: {}, firstMismatchTick: null };
  return { exercise: exercise.id, seed: 2, names: ['Mo'], parts, total, pass: total >= 70, ...rest };
}

function repaired(): Marked {
  const exercise = exerciseOf('stays-dark', 'diagnose');
  const attempt = diagnosed(expertWorker(exercise, 1));
  return { attempt, mark: markAttempt(exercise, attempt) };
}

const job18 = allMet(exerciseOf('brief-to-handover', 'commission'));
const diagnosis = repaired();
const KINDS = {
  predict: predicted(),
  observe: observed(),
  diagnose: diagnosis,
  commission: job18,
  design: allMet(exerciseOf('where-to-mount', 'design')),
};

function ruled(criterion: string, ruling: Ruling, sheet: Assessment = NO_ASSESSMENT): Assessment {
  return withNote(sheet, { criterion, code: '', comment: '', ruling });
}

describe.each(Object.entries(KINDS))('criteria of a mark: %s', (_kind, { attempt, mark }) => {
  it('give back from a file what was noted of each of them', () => {
    const noted = criteriaOf(mark).reduce((sheet, { id, of }) => {
      const ruling = { verdict: 'met' as const, points: Math.floor(of), reason: `why ${id}` };
      return withNote(sheet, { criterion: id, code: id, comment: '', ruling });
    }, NO_ASSESSMENT);
    const read = readAssessment(assessmentText(attempt, mark, noted), 'sheet.json');
    expect(read).toMatchObject({ ok: true, value: { assessment: noted } });
  });

  it('have ids of their own and add up to the computed mark, which passes or fails by the same rule', () => {
    const criteria = criteriaOf(mark);
    expect(criteria.length).toBeGreaterThan(1);
    expect(new Set(criteria.map(({ id }) => id)).size).toBe(criteria.length);
    const result = assessed(mark, NO_ASSESSMENT);
    expect(result.computed).toBe(wholeTotal(mark.total));
    expect(result.total).toBe(result.computed);
    expect(result.pass).toBe(mark.pass);
    expect(result.ruled).toBe(false);
  });
});

describe('criteria', () => {
  it('of a prediction name what was foretold and did not happen, without points', () => {
    const extra = criteriaOf(KINDS.predict.mark).find(({ id }) => id === 'nothing-else')!;
    expect(extra).toMatchObject({ verdict: 'missed', points: 0, of: 0 });
    expect(extra.lines).toHaveLength(1);
  });

  it('of a diagnosis leave the advice to the lecturer, and the pass to the complaint being gone', () => {
    const criteria = criteriaOf(diagnosis.mark);
    expect(criteria.find(({ id }) => id === 'advice')).toMatchObject({ verdict: 'lecturer', points: 0, of: 1 });
    expect(criteria.find(({ id }) => id === 'complaint-gone')).toMatchObject({ verdict: 'met', must: 'met' });
  });
});

describe("the lecturer's points of job 18", () => {
  it('bring the 70 that are computed to 100, and the computed mark stays', () => {
    expect(assessed(job18.mark, NO_ASSESSMENT)).toMatchObject({ computed: 70, total: 70 });
    const sheet = ruled('handover', { verdict: 'met', points: 30, reason: '' });
    expect(assessed(job18.mark, sheet)).toMatchObject({ computed: 70, total: 100, pass: true, ruled: true });
  });
});

describe('a ruling over something computed', () => {
  const take = (reason: string): Assessment => ruled('proved', { verdict: 'missed', points: 0, reason });

  it('counts only with its reason', () => {
    const computed = criteriaOf(job18.mark).find(({ id }) => id === 'proved')!;
    expect(lacksReason(computed, { verdict: 'missed', points: 0, reason: '  ' })).toBe(true);
    expect(assessed(job18.mark, take(' '))).toMatchObject({ total: 70, ruled: false });
    expect(assessed(job18.mark, take('The run was another bench’s.'))).toMatchObject({ computed: 70, total: 60 });
  });

  it('lifts what bars a pass, and bars one', () => {
    const { mark } = diagnosis;
    expect(assessed(mark, NO_ASSESSMENT).pass).toBe(true);
    const remains = ruled('complaint-gone', { verdict: 'missed', points: 0, reason: 'Seen again at the desk.' });
    expect(assessed(mark, remains)).toMatchObject({ pass: false, total: wholeTotal(mark.total) });
    const unsure = { ...mark, diagnosis: { ...mark.diagnosis!, certainBeforeRepair: false }, total: 60, pass: false };
    expect(assessed(unsure, NO_ASSESSMENT)).toMatchObject({ total: 60, pass: false });
    const sure = ruled('certain-before-repair', { verdict: 'met', points: 0, reason: 'Told aloud while measuring.' });
    expect(assessed(unsure, sure)).toMatchObject({ computed: 60, total: wholeTotal(mark.total), pass: true });
  });
});

it('a total just under the pass never reads like one', () => {
  expect([69.4, 69.6, 70, 70.4, 99.6].map(wholeTotal)).toEqual([69, 69, 70, 70, 100]);
});

describe("an assessor's sheet as a file", () => {
  const { attempt, mark } = job18;
  const sheet: Assessment = {
    ...ruled('handover', { verdict: 'half', points: 18, reason: '' }),
    assessor: 'R. Marker',
    date: '4 May',
  };
  const text = assessmentText(attempt, mark, sheet);

  it('names its kind, gives back what was typed, and holds computed and given side by side', () => {
    expect(fileKindOf(text)).toBe('assessment');
    expect(fileKindOf(text.slice(0, 60))).toBe('assessment');
    const read = readAssessment(text, 'sheet.json');
    expect(read).toMatchObject({ ok: true, value: { attempt: sealOf(attempt), total: 70, assessment: sheet } });
    const stored = (JSON.parse(text) as { criteria: { id: string }[] }).criteria.find(({ id }) => id === 'handover');
    expect(stored).toMatchObject({
      computed: { verdict: 'lecturer', points: 0, of: 30 },
      ruling: { verdict: 'half', points: 18 },
    });
  });

  it.each([
    ['cut short', text.slice(0, 200), /expected JSON/],
    ['changed by hand', text.replace('R. Marker', 'R. Faker'), /the seal does not fit the content/],
    ['newer', text.replace('"format": 1', '"format": 2'), /newer than/],
    ['with too many points', text.replace('"points": 18', '"points": 31'), /ruling\.points must be .* 30 for handover/],
    ['with a key of its own', text.replace('"date"', '"dates"'), /dates|date/],
  ])('%s is refused with a sentence', (_what, damaged, sentence) => {
    const read = readAssessment(damaged, 'sheet.json');
    expect(read.ok).toBe(false);
    expect((read as { sentences: string[] }).sentences.join(' ')).toMatch(sentence);
  });

  it('written for another version of its job is known by the criteria that this one lacks', () => {
    const read = readAssessment(text, 'sheet.json');
    if (!read.ok) throw new Error(read.sentences.join(' '));
    expect(strangeCriteria(read.value, mark)).toEqual([]);
    expect(strangeCriteria(read.value, diagnosis.mark)).toEqual(['handover']);
  });

  it('with an override but no reason is refused, naming the place', () => {
    const bare = assessmentText(attempt, mark, ruled('proved', { verdict: 'missed', points: 0, reason: '' }));
    const at = criteriaOf(mark).findIndex(({ id }) => id === 'proved');
    const read = readAssessment(bare, 'sheet.json');
    expect((read as { sentences: string[] }).sentences).toEqual([
      `sheet.json: criteria[${at}].ruling.reason must be the reason for overriding proved, but is "".`,
    ]);
  });
});

describe('the table of a class', () => {
  it('has computed, override and reason, each attempt with its own sheet', () => {
    const files = [job18, diagnosis].map(({ attempt, mark }, i) => gradedOf(`${i}.json`, attempt, mark));
    const sheet = ruled(
      'fan-wait',
      { verdict: 'half', points: 2, reason: 'Set late, but set' },
      { ...ruled('handover', { verdict: 'met', points: 27, reason: '' }), assessor: 'R. Marker', date: '4 May' },
    );
    const [head, first, second] = csvOf(files, new Map([[sealOf(job18.attempt), sheet]])).split('\n');
    expect(head).toMatch(
      /,total,result,.*,remarks,computed,override,reason,assessed result,assessor,date of assessment$/,
    );
    expect(first).toMatch(/,70,95,"fan-wait: Set late, but set",pass,R\. Marker,4 May$/);
    expect(second).toMatch(new RegExp(`,${wholeTotal(diagnosis.mark.total)},,,,,$`));
  });
});
