/** Reading an exercise: text in, an Exercise with its story resolved out, or sentences that name file, path and cause. */
import { checkStory } from '../scenario/checks.ts';
import { idsIn, type Library } from '../scenario/library.ts';
import { type Loaded, loadScenario, loadStory } from '../scenario/load.ts';
import { type Parsed, parseFile } from '../scenario/parse.ts';
import { type ExerciseFile, exerciseFile } from '../scenario/schemas/exercise.ts';
import { sentence } from '../scenario/sentences.ts';
import { commissionFaults, commissionOf } from './commission/load.ts';
import { candidatesOf, loadCards } from './diagnose/load.ts';
import { taskFaults } from './diagnose/loadChecks.ts';
import { editOf } from './editFile.ts';
import { edited } from './edits.ts';
import { exampleFaults, exampleOf } from './example/load.ts';
import type { ObserveExercise } from './observe/types.ts';
import { walkFaults } from './observe/walkChecks.ts';
import type { Exercise, PredictTask } from './types.ts';

/** `part`: key of the file that both instants stand under. */
function windowFaults(fileName: string, part: string, { fromS, toS }: Pick<PredictTask, 'fromS' | 'toS'>): string[] {
  return toS > fromS ? [] : [sentence(fileName, [part, 'toS'], `later than fromS (${fromS})`, toS)];
}

function observeFaults(fileName: string, exercise: ObserveExercise): string[] {
  const { observe } = exercise;
  if (observe.task === 'ratios') return windowFaults(fileName, 'observe', observe);
  return observe.task === 'walks' ? walkFaults(fileName, exercise, observe) : [];
}

function taskFaultsOf(fileName: string, exercise: Exercise): string[] {
  switch (exercise.kind) {
    case 'predict':
      return windowFaults(fileName, 'predict', exercise.predict);
    case 'observe':
      return observeFaults(fileName, exercise);
    case 'diagnose':
      return taskFaults(fileName, exercise);
    case 'commission':
    case 'design':
      return commissionFaults(fileName, exercise);
  }
}

/** What the shape cannot say: every room that a seed can draw must be a room, and times must be in order. */
function faultsOf(fileName: string, exercise: Exercise): string[] {
  const sentences = checkStory(fileName, exercise.scenario);
  exercise.draws.forEach((list, i) => {
    list.forEach((choice, j) => {
      const changed = checkStory(fileName, edited(exercise.scenario, choice));
      sentences.push(...changed.map((text) => `${text} (with draws[${i}][${j}])`));
    });
  });
  return [...sentences, ...taskFaultsOf(fileName, exercise)];
}

/** The story that it happens in: one of the library, or one that the file brings along. */
export function storyOf(story: ExerciseFile['story'], fileName: string, library: Library): Loaded {
  if (typeof story !== 'string') return loadScenario(JSON.stringify(story), `${fileName}, its story`, library);
  if (idsIn(library, '').includes(story)) return loadStory(library, story);
  const known = idsIn(library, '').join(', ');
  return { ok: false, sentences: [sentence(fileName, ['story'], `a story in scenarios (${known})`, story)] };
}

/** `fileName` only appears in sentences. The story may be one of the library's. */
export function loadExercise(text: string, fileName: string, library: Library): Parsed<Exercise> {
  const parsed = parseFile(exerciseFile, text, fileName);
  if (!parsed.ok) return parsed;
  const { $schema: _schema, format: _format, story, change, draws, example, ...file } = parsed.value;
  const loaded = storyOf(story, fileName, library);
  if (!loaded.ok) return loaded;
  const base = { ...loaded.scenario, question: file.question, brief: file.brief, title: file.title, suggested: [] };
  const common = {
    scenario: change ? edited(base, editOf(change)) : base,
    draws: (draws ?? []).map((list) => list.map(editOf)),
    ...(example ? { example: exampleOf(example) } : {}),
  };
  let exercise: Exercise;
  if (file.kind === 'predict' || file.kind === 'observe') exercise = { ...file, ...common };
  else if (file.kind === 'commission' || file.kind === 'design')
    exercise = { ...file, ...common, commission: commissionOf(file.commission) };
  else {
    const cards = loadCards(library);
    if (!cards.ok) return cards;
    const candidates = candidatesOf(file.diagnose.candidates, fileName, cards.value);
    if (!candidates.ok) return candidates;
    const places = (file.diagnose.places ?? []).map((place) => ({ ...place, deskPoint: false }));
    exercise = { ...file, ...common, diagnose: { ...file.diagnose, candidates: candidates.value, places } };
  }
  const faults = faultsOf(fileName, exercise);
  // Words of an example name readings of a room that is one.
  const sentences = faults.length > 0 ? faults : exampleFaults(fileName, exercise);
  return sentences.length > 0 ? { ok: false, sentences } : { ok: true, value: exercise };
}

/** Exercises read before, so that what is remembered of an exercise serves all its attempts; read anew when its text changed. */
const readBefore = new WeakMap<Library, Map<string, { text: string; exercise: Parsed<Exercise> }>>();

function readOnce(library: Library, id: string, text: string): Parsed<Exercise> {
  const known = readBefore.get(library) ?? new Map<string, { text: string; exercise: Parsed<Exercise> }>();
  readBefore.set(library, known);
  const before = known.get(id);
  if (before?.text === text) return before.exercise;
  const exercise = loadExercise(text, `exercises/${id}.json`, library);
  known.set(id, { text, exercise });
  return exercise;
}

/** An exercise of the library by its id. */
export function exerciseById(library: Library, id: string): Parsed<Exercise> {
  const text = library.texts.get(`exercises/${id}.json`);
  if (text !== undefined) return readOnce(library, id, text);
  const known = exerciseIds(library).join(', ') || 'there is none';
  return {
    ok: false,
    sentences: [`${id}: expected an exercise in scenarios/exercises (${known}), but there is none.`],
  };
}

export function exerciseIds(library: Library): string[] {
  return idsIn(library, 'exercises');
}
