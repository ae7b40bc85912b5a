/** How long an example takes when it is played through, as somebody reads it. */
import { feedbackOf, wordsIn } from './template.ts';
import type { ExampleStep, ExampleStop } from './types.ts';

/** Words a second. Source: mean of silent reading in English, 238 words a minute (Brysbaert 2019; from memory). */
const WORDS_PER_S = 238 / 60;
/** To look at the room beside the words, s. Assumed. */
const LOOK_S = 1.5;
/** No step goes by faster, s. Assumed: the room needs as long to move on. */
const LEAST_S = 4;

/** A whole example, stops included, s. Source: the product's own rule, three minutes. */
export const MOST_S = 180;

/** A step stands so long before the next one, s. */
export function stepSeconds({ say }: Pick<ExampleStep, 'say'>): number {
  return Math.max(LEAST_S, LOOK_S + wordsIn(say) / WORDS_PER_S);
}

/** Reading a question with its choices, and the longest of the answers to them, s. */
export function stopSeconds({ question, options }: ExampleStop): number {
  const asked = wordsIn(question) + options.reduce((sum, { say }) => sum + wordsIn(say), 0);
  const longest = Math.max(...options.map((option) => wordsIn(feedbackOf(option).join(' '))));
  return LOOK_S + (asked + longest) / WORDS_PER_S;
}

export function exampleSeconds(steps: readonly ExampleStep[]): number {
  return steps.reduce((sum, step) => sum + stepSeconds(step) + (step.stop ? stopSeconds(step.stop) : 0), 0);
}
