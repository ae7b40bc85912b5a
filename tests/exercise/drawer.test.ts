/** The lecturer's drawer: every cause that an exercise can have lies in it, with a bench that has it. */
import { describe, expect, it } from 'vitest';
import { diskLibrary } from '../../src/cli/files.ts';
import { trueCard } from '../../src/exercise/diagnose/cards.ts';
import { drawerOf } from '../../src/exercise/diagnose/drawer.ts';
import type { DiagnoseExercise } from '../../src/exercise/diagnose/types.ts';
import { exerciseById, exerciseIds } from '../../src/exercise/load.ts';

const library = diskLibrary();
const exercises = exerciseIds(library).flatMap((id): DiagnoseExercise[] => {
  const loaded = exerciseById(library, id);
  return loaded.ok && loaded.value.kind === 'diagnose' ? [loaded.value] : [];
});

describe('the Fault Drawer', () => {
  const drawer = drawerOf(exercises);

  it('holds every cause of every exercise once, healthy rooms among them', () => {
    expect(drawer.length).toBe(exercises.reduce((sum, { diagnose }) => sum + diagnose.truths.length, 0));
    expect(drawer.filter(({ healthy }) => healthy).length).toBeGreaterThanOrEqual(4);
    expect(new Set(drawer.map(({ card }) => card)).size).toBeGreaterThanOrEqual(18);
  });

  it('names a bench that has the cause', () => {
    for (const { exercise, card, seed } of drawer) {
      const job = exercises.find(({ id }) => id === exercise)!;
      expect(trueCard(job, seed)).toBe(card);
    }
  });
});
