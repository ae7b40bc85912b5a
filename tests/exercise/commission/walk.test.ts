/** Points of a walk-test count only when the learner's own run bears them out. */
import { describe, expect, it } from 'vitest';
import { diskLibrary } from '../../../src/cli/files.ts';
import type { CommissionExercise, WalkAnswer } from '../../../src/exercise/commission/types.ts';
import { placesOf, sectorsOf, truePoints, type Walked, walkWatcher } from '../../../src/exercise/commission/walk.ts';
import { type Target, walkTargets } from '../../../src/exercise/commission/walkProofs.ts';
import { benchScenario } from '../../../src/exercise/edits.ts';
import { exerciseById } from '../../../src/exercise/load.ts';
import { play } from '../../../src/exercise/replay.ts';

const loaded = exerciseById(diskLibrary(), 'walk-test-edges');
if (!loaded.ok) throw new Error(loaded.sentences.join(' '));
const scenario = benchScenario(loaded.value as CommissionExercise, 1);
const TARGETS: Target[] = [
  { kind: 'across', bearingDeg: 35, radiusM: 2 },
  { kind: 'across', bearingDeg: 125, radiusM: 2 },
  { kind: 'seated', bearingDeg: 215, radiusM: 1.5 },
];
const done = walkTargets(scenario, 'A', TARGETS);

function walkedWith(answer: WalkAnswer): Walked {
  const { walked, note } = walkWatcher(answer);
  play(scenario, done.inputs, done.endS * 10, note);
  return walked;
}

const changed = (change: Partial<WalkAnswer['points'][number]>): WalkAnswer => ({
  ...done.answer,
  points: done.answer.points.map((point) => ({ ...point, ...change })),
});

describe('points of a walk-test', () => {
  it('that were walked count, each with the movement it had and what the room answered', () => {
    const points = truePoints(done.answer, walkedWith(done.answer));
    expect(points).toHaveLength(3);
    expect(points.map(({ way }) => way)).toEqual(['across', 'across', 'seated']);
    expect(points.some(({ seen }) => seen)).toBe(true);
    expect(sectorsOf(points, scenario.mount)).toBe(3);
  });

  it('of a place where nobody was, of another person or movement, or with another answer do not count', () => {
    const elsewhere = changed({ atM: [8, 6] });
    expect(truePoints(elsewhere, walkedWith(elsewhere))).toEqual([]);
    const nobody = changed({ personId: 'B' });
    expect(truePoints(nobody, walkedWith(nobody))).toEqual([]);
    const sitting = changed({ way: 'standing' });
    expect(truePoints(sitting, walkedWith(sitting))).toEqual([]);
    const points = done.answer.points.map((point) => ({ ...point, seen: !point.seen }));
    expect(truePoints({ ...done.answer, points }, walkedWith(done.answer))).toEqual([]);
  });

  it('noted twice at one place count once', () => {
    const twice = { ...done.answer, points: done.answer.points.flatMap((p) => [p, { ...p, id: p.id + 10 }]) };
    expect(placesOf(truePoints(twice, walkedWith(twice)))).toHaveLength(3);
  });
});
