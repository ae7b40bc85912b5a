/** Rooms as the learner finds them: one for each card, run without acts to the instant of taking over. */
import type { Tick } from '../../engine/types.ts';
import { secondsToTicks } from '../../engine/units.ts';
import { cardScenario, trueCard } from './cards.ts';
import type { DiagnoseExercise } from './types.ts';
import { advance, createWorld, movementKey, type World } from './world.ts';

interface FoundRooms {
  seed: number;
  byCard: Map<string, World>;
  /** The first room of each movement: it senses, the others are given its pulses. */
  leaders: Map<string, World>;
}

/** Of one bench at a time: marks are made bench by bench, and rooms are large. */
const rooms = new WeakMap<DiagnoseExercise, FoundRooms>();

/** The learner takes over here. */
export function beginTick(exercise: DiagnoseExercise): Tick {
  return secondsToTicks(exercise.diagnose.beginS);
}

function roomsOf(exercise: DiagnoseExercise, seed: number): FoundRooms {
  const known = rooms.get(exercise);
  if (known?.seed === seed) return known;
  const fresh: FoundRooms = { seed, byCard: new Map(), leaders: new Map() };
  rooms.set(exercise, fresh);
  return fresh;
}

/** The room of a card; nobody may advance it: fork it, or follow with it. */
export function foundRoom(exercise: DiagnoseExercise, seed: number, card: string): World {
  const { byCard, leaders } = roomsOf(exercise, seed);
  const known = byCard.get(card);
  if (known) return known;
  const scenario = cardScenario(exercise, seed, card);
  const key = movementKey(scenario);
  const world = createWorld(scenario, [], leaders.get(key) ?? null, card === trueCard(exercise, seed));
  advance(world, beginTick(exercise));
  if (!world.leader) leaders.set(key, world);
  byCard.set(card, world);
  return world;
}
