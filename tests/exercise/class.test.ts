import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sealOf } from '../../src/exercise/attempt.ts';
import { benchSeed, type ClassPlan, classCode, readClassCode } from '../../src/exercise/classCode.ts';
import { csvOf, type Graded, skillProfile, withTwins } from '../../src/exercise/classTable.ts';
import type { Attempt, Mark } from '../../src/exercise/types.ts';

const plans = fc.record({
  jobs: fc.uniqueArray(fc.integer({ min: 1, max: 18 }), { minLength: 1 }).map((jobs) => jobs.sort((a, b) => a - b)),
  aid: fc.constantFrom('guided', 'practice', 'test'),
  separate: fc.boolean(),
  series: fc.integer({ min: 0, max: 31 }),
}) as fc.Arbitrary<ClassPlan>;

describe('a class code', () => {
  it('has six characters and gives back the plan, also in small letters and with O for 0 and I for 1', () => {
    fc.assert(
      fc.property(plans, (plan) => {
        const code = classCode(plan);
        expect(code).toMatch(/^[0-9A-HJKMNP-TV-Z]{6}$/);
        expect(readClassCode(code)).toEqual(plan);
        expect(readClassCode(code.toLowerCase().replaceAll('0', 'o').replaceAll('1', 'i'))).toEqual(plan);
      }),
    );
  });

  it('with one wrong character is refused in nine of ten cases or better', () => {
    const code = classCode({ jobs: [4, 5, 6], aid: 'practice', separate: true, series: 7 });
    let passed = 0;
    let tried = 0;
    for (let i = 0; i < 6; i++) {
      for (const c of '0123456789ABCDEFGHJKMNPQRSTVWXYZ') {
        if (c === code[i]) continue;
        tried++;
        if (readClassCode(code.slice(0, i) + c + code.slice(i + 1))) passed++;
      }
    }
    expect(passed / tried).toBeLessThan(0.1);
  });

  it.each(['', 'ABC', 'ABCDEFG', 'A-CDEF', '000000'])('%s is no code', (text) => {
    expect(readClassCode(text)).toBeNull();
  });

  it('gives each bench a room of its own, or all the same one', () => {
    const plan: ClassPlan = { jobs: [4], aid: 'practice', separate: true, series: 3 };
    const own = Array.from({ length: 15 }, (_, bench) => benchSeed(plan, bench + 1));
    expect(new Set(own).size).toBe(15);
    expect(new Set(own.map((_, bench) => benchSeed({ ...plan, separate: false }, bench + 1))).size).toBe(1);
  });
});

function graded(file: string, seed: number, atS: number, name = 'A. Learner'): Graded {
  const attempt: Attempt = {
    format: 1,
    exercise: 'x',
    seed,
    engine: '1',
    names: [name],
    aid: 'practice',
    inputs: [],
    headTick: 1,
    digests: [],
    answers: { predict: { edges: { innerRow: [{ atS, on: false }] } } },
  };
  const mark: Mark = {
    exercise: 'x',
    seed,
    names: attempt.names,
    parts: [],
    total: 66.7,
    pass: false,
    signatures: [],
    skills: { delays: { successes: 2, attempts: 3 } },
    firstMismatchTick: null,
  };
  return { file, attempt, mark, seal: sealOf(attempt), remarks: [] };
}

describe('a class table', () => {
  it('shows equal work and a room used twice beside each other', () => {
    const [a, b, c, d] = withTwins([
      graded('a.json', 1, 10),
      graded('b.json', 1, 10),
      graded('c.json', 1, 20),
      graded('d.json', 2, 10),
    ]);
    expect(a!.remarks).toEqual(['same work as b.json', 'same room as c.json']);
    expect(b!.remarks).toEqual(['same work as a.json', 'same room as c.json']);
    expect(c!.remarks).toEqual(['same room as a.json, b.json']);
    expect(d!.remarks).toEqual([]);
  });

  it('never gives a spreadsheet a formula to work, and keeps commas and quotes in their cells', () => {
    const text = csvOf([graded('a.json', 1, 10, '=1+1'), graded('b, "b".json', 2, 10)]);
    expect(text).toContain(",'=1+1,");
    expect(text).toContain('"b, ""b"".json",');
    expect(text.trim().split('\n')).toHaveLength(3);
  });

  it('estimates a skill by the rule of succession, mastered only from four attempts on', () => {
    const few = skillProfile([graded('a.json', 1, 10)])[0]!;
    expect(few).toMatchObject({ skill: 'delays', successes: 2, attempts: 3, mastered: false });
    expect(few.estimate).toBeCloseTo(3 / 5, 12);
    const right = graded('a.json', 1, 10);
    right.mark.skills = { delays: { successes: 4, attempts: 4 } };
    expect(skillProfile([right])[0]!.mastered).toBe(true);
  });
});
