/** What the shape of a diagnose exercise cannot say: names that must exist, a way out, and a room for every card. */
import { checkPlace, checkStory } from '../../scenario/checks.ts';
import { sentence } from '../../scenario/sentences.ts';
import { edited } from '../edits.ts';
import { placesOf } from './cards.ts';
import type { DiagnoseExercise, Test } from './types.ts';

type Path = (string | number)[];

function placeFault(fileName: string, exercise: DiagnoseExercise, at: Path, test: Test): string[] {
  if (test.instrument !== 'luxMeter' && test.instrument !== 'seenAt') return [];
  const places = placesOf(exercise).filter((place) => test.instrument === 'seenAt' || place.deskPoint);
  if (places.some(({ id }) => id === test.place)) return [];
  const what = test.instrument === 'luxMeter' ? 'a desk point' : 'a place';
  return [sentence(fileName, [...at, 'place'], `${what} (${places.map(({ id }) => id).join(', ')})`, test.place)];
}

function candidateFaults(fileName: string, exercise: DiagnoseExercise): string[] {
  const { candidates, truths } = exercise.diagnose;
  const at = ['diagnose', 'candidates'];
  const sentences: string[] = [];
  if (candidates.filter(({ card }) => card.healthy).length !== 1) {
    sentences.push(
      sentence(
        fileName,
        at,
        'a list with exactly one card that is no fault',
        candidates.map(({ card }) => card.id),
      ),
    );
  }
  candidates.forEach(({ card }, i) => {
    if (candidates.findIndex((other) => other.card.id === card.id) < i) {
      sentences.push(sentence(fileName, [...at, i, 'card'], 'a card that no other candidate has', card.id));
    }
    sentences.push(...placeFault(fileName, exercise, [...at, i, 'proof', 'test'], card.proof.test));
    const rooms = [{}, ...card.draws.flat()].map((edit) => edited(edited(exercise.scenario, card.edit), edit));
    const wrong = new Set(rooms.flatMap((room) => checkStory(fileName, room)));
    sentences.push(...[...wrong].map((text) => `${text} (with the card ${card.id})`));
  });
  truths.forEach((truth, i) => {
    if (candidates.some(({ card }) => card.id === truth)) return;
    sentences.push(sentence(fileName, ['diagnose', 'truths', i], 'one of the candidates', truth));
  });
  return sentences;
}

export function taskFaults(fileName: string, exercise: DiagnoseExercise): string[] {
  const { complaint, places, tests } = exercise.diagnose;
  const { room } = exercise.scenario;
  const sentences = candidateFaults(fileName, exercise);
  if (complaint.toS <= complaint.fromS) {
    const expected = `later than fromS (${complaint.fromS})`;
    sentences.push(sentence(fileName, ['diagnose', 'complaint', 'toS'], expected, complaint.toS));
  }
  places.forEach(({ atM }, i) => {
    sentences.push(...checkPlace(fileName, ['diagnose', 'places', i, 'atM'], room, atM));
  });
  tests.forEach((test, i) => {
    sentences.push(...placeFault(fileName, exercise, ['diagnose', 'tests', i], test));
  });
  const desks = room.deskPoints.map(({ id }) => id);
  for (const key of ['below', 'above'] as const) {
    const lit = complaint.kind === 'time' ? complaint[key] : undefined;
    if (lit && !desks.includes(lit.place)) {
      sentences.push(
        sentence(fileName, ['diagnose', 'complaint', key, 'place'], `a desk point (${desks.join(', ')})`, lit.place),
      );
    }
  }
  return sentences;
}
