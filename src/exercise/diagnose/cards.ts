/** Fault cards: which one a bench has, the room that each of them makes, and the words in which the client complains. */
import { hash32 } from '../../engine/random.ts';
import type { Scenario } from '../../engine/types.ts';
import { benchScenario, drawn, drawnEdits, edited } from '../edits.ts';
import type { Candidate, DiagnoseExercise, Place } from './types.ts';

/** Places of a seed's draws; the exercise's own draws come first (at most 6). */
const TRUTH_DRAW = 20;
const COMPLAINT_DRAW = 21;
/** First place of a card's draws; each card draws by its own name, so that cards do not move together. */
const CARD_DRAW = 30;

export function candidateOf(exercise: DiagnoseExercise, card: string): Candidate {
  const found = exercise.diagnose.candidates.find((candidate) => candidate.card.id === card);
  if (!found) throw new Error(`${exercise.id} has no candidate ${card}`);
  return found;
}

/** The card that is true on this bench. */
export function trueCard(exercise: DiagnoseExercise, seed: number): string {
  const { truths } = exercise.diagnose;
  return truths[drawn(seed, TRUTH_DRAW, truths.length)]!;
}

/** What the client says on this bench. */
export function complaintLine(exercise: DiagnoseExercise, seed: number): string {
  const lines = exercise.diagnose.says ?? candidateOf(exercise, trueCard(exercise, seed)).card.complaints;
  return lines[drawn(seed, COMPLAINT_DRAW, lines.length)]!;
}

/** The room of this bench if `card` were true. Chance (gestures, clouds, noise) is the same for all cards. */
export function cardScenario(exercise: DiagnoseExercise, seed: number, card: string): Scenario {
  const { edit, draws } = candidateOf(exercise, card).card;
  const own = drawnEdits(draws, seed ^ hash32(card), CARD_DRAW);
  return [edit, ...own].reduce(edited, benchScenario(exercise, seed));
}

/** Where something can be measured: the room's desk points, then the exercise's own places. */
export function placesOf(exercise: DiagnoseExercise): Place[] {
  const desks = exercise.scenario.room.deskPoints.map(({ id, label, atM }) => ({ id, label, atM, deskPoint: true }));
  return [...desks, ...exercise.diagnose.places];
}
