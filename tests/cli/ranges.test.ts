import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { ROOT } from '../../src/cli/files.ts';
import { ownDetector } from '../../src/cli/labRows.ts';
import { columnsOf, diameters, ranges } from '../../src/cli/ranges.ts';
import { detectionRangeM } from '../../src/exercise/reach/measures.ts';

let out = '';
let err = '';
beforeEach(() => {
  out = '';
  err = '';
  vi.spyOn(console, 'log').mockImplementation((line: string) => {
    out += `${line}\n`;
  });
  vi.spyOn(process.stderr, 'write').mockImplementation((text) => {
    err += text;
    return true;
  });
});
afterEach(() => vi.restoreAllMocks());

const cells = (line: string) => line.split('|').map((cell) => cell.trim());

describe('ranges', () => {
  it('prints for one mounting and temperature the line that the README shows, progress apart from it', () => {
    expect(ranges(['--heights', '2.5', '--temperatures', '32'])).toBe(0);
    const line = out.split('\n').find((printed) => printed.startsWith('|      2.5 |      32 |'));
    expect(line).toBeDefined();
    expect(readFileSync(join(ROOT, 'README.md'), 'utf8')).toContain(line!);
    expect(cells(line!)).toHaveLength(columnsOf([0.3, 1, 1.5]).length + 2);
    expect(err).toContain('10 of 10');
    const question = { model: ownDetector(), mountingHeightM: 2.5, roomTemperatureC: 32 };
    const across = detectionRangeM({ ...question, movement: 'walkingAcross', speedMps: 0.3 });
    const seated = detectionRangeM({ ...question, movement: 'seated' });
    expect(cells(line!)[3]).toMatch(new RegExp(`^${across} / `));
    expect(cells(line!).at(-2)).toMatch(new RegExp(`^${seated} / `));
  });

  it('tells a ring in which nobody is seen near the middle from nobody being seen at all', () => {
    const at = (shares: number[]) => shares.map((share, i) => ({ radiusM: i + 1, share }));
    expect(diameters(at([1, 0.95, 0.9, 0.6, 0.4, 0.5, 0.1, 0, 0, 0]))).toBe('6 / 12');
    expect(diameters(at([0.8, 1, 1, 0.2]))).toBe('0 / 6');
    expect(diameters(at([0, 0, 0]))).toBe('0 / 0');
    expect(diameters(at([1, 1]))).toBe('4 / 4');
  });

  it('says in sentences what it cannot measure', () => {
    expect(ranges(['nobody', 'else', '--heights', '1', '--temperatures', '20,', '--speeds', 'x'])).toBe(1);
    for (const part of ['--heights', '--temperatures', '--speeds', 'nobody.json', '"else"'])
      expect(err).toContain(part);
    expect(out).toBe('');
  });
});
