/** Reading an example: what its shape cannot say. */
import { checkStory } from '../../scenario/checks.ts';
import type { ExampleFile } from '../../scenario/schemas/example.ts';
import { sentence } from '../../scenario/sentences.ts';
import { commissionFaults } from '../commission/load.ts';
import type { CommissionExercise } from '../commission/types.ts';
import { editOf } from '../editFile.ts';
import type { Exercise } from '../types.ts';
import { factTable, splitName } from './facts.ts';
import { exampleSeconds, MOST_S } from './pace.ts';
import { feedbackOf, namesIn, piecesOf, textsOf, wordsIn } from './template.ts';
import { twinOf } from './twin.ts';
import type { Example, ExampleStep } from './types.ts';

/** Source: the product's own rule: three stops, feedback of at most 60 words. */
const STOPS = 3;
const MOST_WORDS = 60;

export function exampleOf({ change, ...file }: ExampleFile): Example {
  return { ...file, ...(change ? { change: editOf(change) } : {}) };
}

type Path = (string | number)[];
type Say = (path: Path, expected: string, found: unknown) => void;

function stepFaults(exercise: Exercise, known: ReadonlySet<string>, step: ExampleStep, at: Path, say: Say): void {
  const days = exercise.kind === 'commission' || exercise.kind === 'design' ? exercise.commission.days : null;
  if (step.plan !== undefined && !days) say([...at, 'plan'], 'left out where nothing is set up', step.plan);
  if (step.day !== undefined && !days?.some(({ id }) => id === step.day)) {
    say([...at, 'day'], `a proving day (${(days ?? []).map(({ id }) => id).join(', ') || 'there is none'})`, step.day);
  }
  for (const { at: key, text } of textsOf(step)) {
    if (!piecesOf(text)) say([...at, ...key], 'words with readings in braces, such as {clock} or {lastSeen}', text);
    for (const name of namesIn(text)) {
      if (!known.has(splitName(name).plain))
        say([...at, ...key], `readings that there are (${[...known].join(', ')})`, name);
    }
  }
  if (!step.stop) return;
  const leading = step.stop.options.filter(({ leads }) => leads).length;
  if (leading !== 1) say([...at, 'stop', 'options'], 'choices of which exactly one leads on', leading);
  step.stop.options.forEach((option, i) => {
    const words = wordsIn(feedbackOf(option).join(' '));
    if (words > MOST_WORDS) say([...at, 'stop', 'options', i], `at most ${MOST_WORDS} words in its four parts`, words);
  });
}

/** Of a design the twin's own points, and the choice among them, are checked as the exercise's are. */
function designFaults(fileName: string, exercise: Exercise, say: Say): string[] {
  const { design } = exercise.example ?? {};
  if (exercise.kind !== 'design') {
    if (design !== undefined) say(['design'], 'left out where nothing is designed', design);
    return [];
  }
  if (!design) {
    say(['design'], 'points of its own and the best of them', design);
    return [];
  }
  const twin = twinOf(exercise) as CommissionExercise;
  return commissionFaults(fileName, twin).map((text) => `${text} (with example.design)`);
}

function cardFault(exercise: Exercise, { card }: Example, say: Say): void {
  if (exercise.kind !== 'diagnose') {
    if (card !== undefined) say(['card'], 'left out where no cause is looked for', card);
    return;
  }
  const cards = exercise.diagnose.candidates.map((one) => one.card.id);
  if (card === undefined || !cards.includes(card)) say(['card'], `one of the candidates (${cards.join(', ')})`, card);
}

/** `fileName` only appears in sentences. */
export function exampleFaults(fileName: string, exercise: Exercise): string[] {
  const { example } = exercise;
  if (!example) return [];
  const sentences: string[] = [];
  const say: Say = (path, expected, found) => {
    sentences.push(sentence(fileName, ['example', ...path], expected, found));
  };
  if (exercise.kind === 'observe' && exercise.observe.task === 'walks')
    say([], 'left out: two walks are shown beside each other, not one after the other', 'an example');
  cardFault(exercise, example, say);
  const designed = designFaults(fileName, exercise, say);
  const known = new Set(factTable(twinOf(exercise)).keys());
  example.steps.forEach((step, i) => {
    stepFaults(exercise, known, step, ['steps', i], say);
  });
  const stops = example.steps.filter(({ stop }) => stop).length;
  if (stops !== STOPS) say(['steps'], `steps of which exactly ${STOPS} stop to ask`, stops);
  if (example.steps.at(-1)?.stop)
    say(['steps', example.steps.length - 1, 'stop'], 'left out of the last step', 'a stop');
  const seconds = Math.ceil(exampleSeconds(example.steps));
  if (seconds > MOST_S) say(['steps'], `steps that are read in ${MOST_S} s or less`, seconds);
  const room = checkStory(fileName, twinOf(exercise).scenario).map((text) => `${text} (with example.change)`);
  return [...sentences, ...designed, ...room];
}
