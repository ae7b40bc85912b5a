/** A detector placed and lamps assigned to rows, on paper: the room that would be built so. */
import type { Scenario } from '../../engine/types.ts';
import { benchScenario } from '../edits.ts';
import { gestureHolds } from '../reach/measures.ts';
import { polarOf } from '../reach/polygon.ts';
import { labInRoom } from '../reach/roomLab.ts';
import { factorsAt, foundRoom } from './ratio.ts';
import type { CommissionExercise, DesignChoice, LeftRoom } from './types.ts';

/** What nobody has chosen yet: the first point, the arrow as drawn, and all lamps in one row. */
export function foundChoice(exercise: CommissionExercise, seed: number): DesignChoice {
  const { mount, room } = benchScenario(exercise, seed);
  const [first] = exercise.design!.points;
  const rows = Object.fromEntries(room.luminaires.map(({ id }) => [id, 'inner' as const]));
  return { point: first!.id, turnDeg: mount.turnDeg, rows };
}

/** The bench with the detector and the rows of a choice, its factors as found; a point or lamp that the plan does not know changes nothing. */
export function hungScenario(exercise: CommissionExercise, seed: number, choice: DesignChoice): Scenario {
  const scenario = benchScenario(exercise, seed);
  const point = exercise.design!.points.find(({ id }) => id === choice.point);
  const { room, mount } = scenario;
  const hung = { ...mount, atM: point?.atM ?? mount.atM, turnDeg: choice.turnDeg };
  const luminaires = room.luminaires.map((lamp) => ({ ...lamp, row: choice.rows[lamp.id] ?? lamp.row }));
  return { ...scenario, mount: hung, room: { ...room, luminaires } };
}

function designedScenario(exercise: CommissionExercise, seed: number, choice: DesignChoice): Scenario {
  const built = hungScenario(exercise, seed, choice);
  const { factors } = exercise.commission.best;
  // Whoever hangs it measures the desk factors there: that is another job.
  const measured = factors ? factorsAt(built, factors) : {};
  return { ...built, settings: { ...built.settings, ...measured } };
}

export function designedRoom(exercise: CommissionExercise, seed: number, choice: DesignChoice): LeftRoom {
  const scenario = designedScenario(exercise, seed, choice);
  const { settings, setup } = foundRoom(scenario);
  return { settings, setup: { ...setup, luminaires: scenario.room.luminaires } };
}

/** Tries of one seat. Source: as many as the reach outlines make at a place. */
const TRIES = 10;

/** Share of seated reaches that are seen at each of these chairs, 0-1. */
export function seatShares(scenario: Scenario, { settings, setup }: LeftRoom, seats: readonly string[]): number[] {
  const lab = labInRoom({ model: scenario.detectorModel, room: scenario.room, setup, settings });
  return seats.map((id) => {
    const chair = setup.furniture.find((piece) => piece.id === id)!;
    const { bearingDeg, radiusM } = polarOf(setup.mount.atM, chair.atM);
    let seen = 0;
    for (let i = 0; i < TRIES; i++) if (gestureHolds(lab, radiusM, bearingDeg, chair.turnDeg, 'reach', i)) seen++;
    return seen / TRIES;
  });
}
