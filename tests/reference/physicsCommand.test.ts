import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { evaluateRows, mismatches, physics } from '../../src/cli/physics.ts';
import { type PhysicsRow, readPhysicsRows } from '../../src/cli/physicsFile.ts';

const GOOD: PhysicsRow = {
  id: 'a-01',
  quantity: 'roomHeight',
  inputs: { height_m: 3 },
  expected: 3,
  tolerance: { rel: 0.01 },
};
const row = (change: object) => ({ ...GOOD, ...change });

describe('the physics command', () => {
  const folder = mkdtempSync(join(tmpdir(), 'halflit-physics-'));
  const path = join(folder, 'rows.json');
  const lines: string[] = [];
  beforeEach(() => {
    lines.length = 0;
    vi.spyOn(console, 'log').mockImplementation((line) => void lines.push(line));
    vi.spyOn(console, 'error').mockImplementation((line) => void lines.push(line));
  });
  afterEach(() => vi.restoreAllMocks());
  afterAll(() => rmSync(folder, { recursive: true }));

  function run(content: unknown): number {
    writeFileSync(path, typeof content === 'string' ? content : JSON.stringify(content));
    return physics([path]);
  }
  const mast = { id: 'x-1', quantity: 'equationOfTime', inputs: { utc: '2026-11-03T12:00:00Z' }, expected: 16.45 };

  it('closes with the counts, and passes when every row does', () => {
    expect(run([{ ...mast, tolerance: { abs: 0.02 } }])).toBe(0);
    expect(lines).toEqual(['1 passed, 0 failed']);
  });

  it('prints each failure with what it got and wanted, and exits 1', () => {
    expect(run([{ ...mast, expected: 14, tolerance: { abs: 0.02 } }])).toBe(1);
    expect(lines[0]).toMatch(/^FAILED x-1 \(equationOfTime\): got 16\.4\d+, expected 14 ± 0\.02$/);
    expect(lines[1]).toBe('0 passed, 1 failed');
  });

  it('counts an unknown quantity as a failure', () => {
    expect(run([row({ quantity: 'phlogiston' })])).toBe(1);
    expect(lines).toEqual(['FAILED a-01: no such quantity: phlogiston', '0 passed, 1 failed']);
    expect(run([row({ quantity: 'toString' })])).toBe(1);
  });

  it('names quantities that nothing needs with the reason, and counts them neither way', () => {
    expect(run([row({ quantity: 'leni' }), row({ id: 'a-02', quantity: 'leni' })])).toBe(0);
    expect(lines[0]).toMatch(/^not counted: leni \(2 rows\): .+year$/);
    expect(lines[1]).toBe('0 passed, 0 failed');
  });

  it('says in one sentence which file, which path and what was expected', () => {
    const sentences: [unknown, RegExp][] = [
      ['[', /: \$: expected JSON/],
      [{}, /: \$: expected a list of rows\.$/],
      [[7], /: \$\[0\]: expected an object\.$/],
      [[row({ id: 4 })], /: \$\[0\]\.id: expected a text\.$/],
      [[GOOD, GOOD], /: \$\[1\]\.id: expected an id of its own/],
      [[row({ inputs: [] })], /: \$\[0\]\.inputs: expected an object of named inputs\.$/],
      [[row({ expected: '3' })], /: \$\[0\]\.expected: expected a number or an object of numbers\.$/],
      [[row({ tolerance: {} })], /: \$\[0\]\.tolerance: expected either/],
      [[row({ tolerance: { abs: 1, rel: 1 } })], /: \$\[0\]\.tolerance: expected either/],
      [[row({ tolerance: { rel: -1 } })], /: \$\[0\]\.tolerance\.rel: expected a number/],
      [[row({ tolerance: { abs: { x: 1 } } })], /: \$\[0\]\.tolerance\.abs: expected a number\.$/],
      [[row({ expected: { x: 1, y: 2 }, tolerance: { abs: { x: 1 } } })], /: \$\[0\]\.tolerance\.abs\.y: expected/],
      [[row({ wanted: 3 })], /: \$\[0\]\.wanted: expected no such key; a row has/],
      [[row({ kind: 3 })], /: \$\[0\]\.kind: expected a text\.$/],
      [[{ ...mast, inputs: {}, tolerance: { abs: 1 } }], /: \$\[0\]\.inputs\.utc: expected a text\.$/],
      [
        [{ ...mast, inputs: { utc: 'noon' }, tolerance: { abs: 1 } }],
        /: \$\[0\]\.inputs: expected usable values .*noon/,
      ],
    ];
    for (const [content, sentence] of sentences) {
      lines.length = 0;
      expect(run(content)).toBe(1);
      expect(lines).toHaveLength(1);
      expect(lines[0]!.startsWith(path)).toBe(true);
      expect(lines[0]).toMatch(sentence);
    }
  });

  it('says so when there is no file, or no name', () => {
    expect(physics([join(folder, 'none.json')])).toBe(1);
    expect(physics([])).toBe(1);
    expect(lines[0]).toMatch(/none\.json: expected a readable file/);
    expect(lines[1]).toMatch(/expected one file/);
  });
});

describe('tolerances', () => {
  it('hold at the limit and not beyond', () => {
    const absolute = { ...GOOD, expected: 2, tolerance: { abs: 0.5 } };
    expect(mismatches(absolute, 2.5)).toEqual([]);
    expect(mismatches(absolute, 2.500001)).toHaveLength(1);
    expect(mismatches({ ...GOOD, expected: -200, tolerance: { rel: 0.01 } }, -202)).toEqual([]);
    expect(mismatches({ ...GOOD, expected: -200, tolerance: { rel: 0.01 } }, -197)).toHaveLength(1);
  });

  it('may differ by key, and each key must pass', () => {
    const both = { ...GOOD, expected: { x: 1, y: 1 }, tolerance: { abs: { x: 0.1, y: 1 } } };
    expect(mismatches(both, { x: 1.05, y: 1.9 })).toEqual([]);
    expect(mismatches(both, { x: 1.2, y: 1.9 })).toHaveLength(1);
    expect(mismatches(both, { x: 1 })).toHaveLength(1);
    expect(mismatches(both, 1)).toHaveLength(2);
  });

  it('compare azimuths round the circle, altitudes not', () => {
    const north = { ...GOOD, expected: { azimuth_deg: 0.16, altitude_deg: 1 }, tolerance: { abs: 0.2 } };
    expect(mismatches(north, { azimuth_deg: 359.99, altitude_deg: 1 })).toEqual([]);
    expect(mismatches(north, { azimuth_deg: 0.16, altitude_deg: 361 })).toHaveLength(1);
  });

  it('never pass what is no number', () => {
    for (const got of [Number.NaN, { x: 1 }]) expect(mismatches(GOOD, got)).toHaveLength(1);
    expect(evaluateRows([GOOD], { roomHeight: () => Number.NaN }, {}).passed).toBe(0);
    expect(readPhysicsRows('[]', 'f')).toEqual({ ok: true, rows: [] });
  });
});
