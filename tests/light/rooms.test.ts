import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { rooms } from '../../src/cli/rooms.ts';
import { type ReferenceRoom, readRooms } from '../../src/cli/roomsFile.ts';

const FILE = join(import.meta.dirname, '../reference/rooms.json');
const TEXT = readFileSync(FILE, 'utf8');
const ROOMS = JSON.parse(TEXT) as ReferenceRoom[];

/** Runs the command on a text; what it said. */
function run(text: string): { code: number; out: string[]; err: string[] } {
  const path = join(mkdtempSync(join(tmpdir(), 'rooms-')), 'rooms.json');
  writeFileSync(path, text);
  const out: string[] = [];
  const err: string[] = [];
  const log = vi.spyOn(console, 'log').mockImplementation((line: string) => void out.push(line));
  const error = vi.spyOn(console, 'error').mockImplementation((line: string) => void err.push(line));
  try {
    return { code: rooms([path]), out, err };
  } finally {
    log.mockRestore();
    error.mockRestore();
  }
}

function changed(edit: (room: ReferenceRoom) => void): string {
  const copy = structuredClone(ROOMS.slice(0, 1));
  edit(copy[0]!);
  return JSON.stringify(copy);
}

describe('the rooms command', () => {
  it('prints every sensor and a closing count, and succeeds', () => {
    const { code, out } = run(JSON.stringify(ROOMS.slice(0, 1)));
    expect(code).toBe(0);
    expect(out).toHaveLength(7);
    expect(out[6]).toBe('6 passed, 0 failed');
  });

  it('fails when a value is off', () => {
    const text = changed((room) => {
      room.expected.lamp!['desk-under']!.illuminance_lx *= 1.1;
    });
    const { code, out } = run(text);
    expect(code).toBe(1);
    expect(out.at(-1)).toBe('5 passed, 1 failed');
  });

  const bad: [string, string, RegExp][] = [
    ['text that is no JSON', '[{', /rooms\.json: \$: expected JSON/],
    ['an object at the top', '{}', /\$: expected a list/],
    [
      'a missing reflectance',
      changed((r) => Reflect.deleteProperty(r.reflectance, 'west')),
      /\$\[0\]\.reflectance\.west: expected a number from 0 to 0\.99/,
    ],
    [
      'a sensor outside',
      changed((r) => r.sensors[1]!.position_m.fill(9)),
      /\$\[0\]\.sensors\[1\]\.position_m\[0\]: expected a point inside/,
    ],
    [
      'a source of no known kind',
      changed((r) => Object.assign(r.sources[0]!, { kind: 'moon' })),
      /\$\[0\]\.sources\[0\]\.kind: expected one of sky, sun, lamps/,
    ],
    [
      'an expected value left out',
      changed((r) => Reflect.deleteProperty(r.expected.lamp!, 'eye-west')),
      /\$\[0\]\.expected\.lamp\.eye-west: expected an object/,
    ],
  ];
  for (const [what, text, sentence] of bad) {
    it(`names file, path and expectation for ${what}`, () => {
      const { code, err } = run(text);
      expect(code).toBe(1);
      expect(err).toHaveLength(1);
      expect(err[0]).toMatch(sentence);
    });
  }

  it('reads openings in any face', () => {
    const text = changed((r) => {
      r.openings.push({ id: 'pit', surface: 'floor', min_m: [1, 1, 0], max_m: [2, 2, 0], glass: null });
    });
    expect(readRooms(text, 'x').ok).toBe(true);
  });
});
