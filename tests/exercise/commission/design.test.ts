/** A design is a room that could be built: its detector, its rows, and the seats it covers. */
import { describe, expect, it } from 'vitest';
import { diskLibrary } from '../../../src/cli/files.ts';
import { foundChoice, hungScenario, seatShares } from '../../../src/exercise/commission/design.ts';
import { foundRoom } from '../../../src/exercise/commission/ratio.ts';
import type { CommissionExercise } from '../../../src/exercise/commission/types.ts';
import { exerciseById, loadExercise } from '../../../src/exercise/load.ts';

const loaded = exerciseById(diskLibrary(), 'where-to-mount');
if (!loaded.ok) throw new Error(loaded.sentences.join(' '));
const exercise = loaded.value as CommissionExercise;
const SEATS = ['chair-1', 'chair-2', 'chair-3', 'chair-4', 'chair-5'];

function sharesFrom(point: string): number[] {
  const scenario = hungScenario(exercise, 1, { point, turnDeg: 0, rows: {} });
  return seatShares(scenario, foundRoom(scenario), SEATS);
}

describe('a design file', () => {
  const text = diskLibrary().texts.get('exercises/where-to-mount.json')!;
  it.each([
    ['with a point outside the room', text.replace('"atM": [5.6, 3.2]', '"atM": [9.6, 3.2]'), /a point in the room/],
    [
      'whose best hangs nowhere',
      text.replace('"point": "right"', '"point": "left"'),
      /points and lamps that the plan has/,
    ],
  ])('%s is refused in a sentence', (_what, damaged, sentence) => {
    expect(damaged).not.toBe(text);
    const read = loadExercise(damaged, 'x.json', diskLibrary());
    expect((read as { sentences: string[] }).sentences.join(' ')).toMatch(sentence);
  });
});

describe('a design', () => {
  it('begins with the first point, the arrow as drawn and all lamps in one row', () => {
    const choice = foundChoice(exercise, 1);
    const hung = hungScenario(exercise, 1, choice);
    expect(choice.point).toBe('middle');
    expect(hung.room.luminaires.map(({ row }) => row)).toEqual(new Array(8).fill('inner'));
    expect(hung.mount.turnDeg).toBe(choice.turnDeg);
  });

  it('hangs the detector where it is chosen and gives each lamp its row', () => {
    const hung = hungScenario(exercise, 1, { point: 'right', turnDeg: 30, rows: { i1: 'window' } });
    expect(hung.mount).toMatchObject({ atM: [5.6, 3.2], turnDeg: 30 });
    expect(hung.room.luminaires.find(({ id }) => id === 'i1')!.row).toBe('window');
    expect(hung.room.luminaires.find(({ id }) => id === 'i2')!.row).toBe('inner');
  });

  it('covers all used seats from the right point and not from the one by the door', () => {
    expect(sharesFrom('right').every((share) => share >= 0.5)).toBe(true);
    expect(sharesFrom('door').filter((share) => share < 0.5).length).toBeGreaterThanOrEqual(1);
  });
});
