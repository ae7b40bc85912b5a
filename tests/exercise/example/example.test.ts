/** Worked examples: each plays to its end, says what is so on a bench of its own, and its file is checked place by place. */
import { describe, expect, it } from 'vitest';
import { diskLibrary } from '../../../src/cli/files.ts';
import { exampleSeconds, MOST_S } from '../../../src/exercise/example/pace.ts';
import { proveExample } from '../../../src/exercise/example/proofs.ts';
import { feedbackOf } from '../../../src/exercise/example/template.ts';
import { EXAMPLE_SEED } from '../../../src/exercise/example/twin.ts';
import type { Example } from '../../../src/exercise/example/types.ts';
import { workExample } from '../../../src/exercise/example/work.ts';
import { exerciseById, exerciseIds, loadExercise } from '../../../src/exercise/load.ts';
import type { Exercise } from '../../../src/exercise/types.ts';
import { pathNames } from '../../../src/report/path.ts';
import { filledText } from '../../../src/report/text/example.ts';

const library = diskLibrary();
const all = exerciseIds(library).map((id) => {
  const read = exerciseById(library, id);
  if (!read.ok) throw new Error(read.sentences.join(' '));
  return read.value;
});
const shown = all.filter((exercise): exercise is Exercise & { example: Example } => exercise.example !== undefined);
const named = shown.map((exercise) => [exercise.id, exercise] as const);

/** Words that praise or condemn: answers at a stop are told what follows from them, no more. */
const JUDGING = /\b(wrong|correct|incorrect|right answer|well done|good|great|excellent|perfect|bravo|sadly)\b/i;
/** Readings are taken from the run; a number of lux, a clock or a length that stands in the file would be typed by hand. */
const TYPED = /\d+ ?lx|\d{1,2}:\d{2}/;

describe('Worked examples', () => {
  it('there is one for each kind of exercise', () => {
    expect(new Set(shown.map(({ kind }) => kind))).toEqual(
      new Set(['observe', 'predict', 'diagnose', 'commission', 'design']),
    );
  });

  it.each(named)(
    '%s: plays to its end, its expert passes, its claims hold, no learner has its bench',
    (_, exercise) => {
      const results = proveExample(exercise);
      expect(results).toHaveLength(4);
      expect(results.filter(({ fault }) => fault !== null)).toEqual([]);
      expect(EXAMPLE_SEED).toBeGreaterThan(9999);
    },
    120_000,
  );

  it.each(named)('%s: is read in three minutes, with three stops and readings from the run alone', (_, exercise) => {
    const { steps } = exercise.example;
    expect(exampleSeconds(steps)).toBeLessThanOrEqual(MOST_S);
    expect(steps.filter(({ stop }) => stop)).toHaveLength(3);
    const texts = JSON.stringify(steps);
    expect(texts).not.toMatch(TYPED);
    expect(texts).not.toMatch(JUDGING);
  });

  it.each(named)(
    '%s: every answer is told in four parts of at most 60 words',
    (_, exercise) => {
      const names = pathNames(exercise);
      const worked = workExample(exercise);
      for (const { say, stop, facts } of worked.steps) {
        expect(filledText(say, facts, names)).not.toMatch(/[{}]|undefined|NaN/);
        for (const option of stop?.options ?? []) {
          const told = feedbackOf(option).map((part) => filledText(part, facts, names));
          expect(told.every((part) => part.trim().length > 0)).toBe(true);
          expect(told.join(' ').split(/\s+/).length).toBeLessThanOrEqual(60);
        }
      }
    },
    60_000,
  );
});

const ID = 'when-does-it-go-dark';
const FILE = JSON.parse(library.texts.get(`exercises/${ID}.json`)!) as { example: Example };

/** The sentences about the file with its example changed. */
function saidOf(change: (example: Example) => void): string {
  const file = structuredClone(FILE);
  change(file.example);
  const read = loadExercise(JSON.stringify(file), 'own.json', library);
  return read.ok ? '' : read.sentences.join('\n');
}

describe('The file of an example', () => {
  it('is told by its place what is not as expected', () => {
    expect(saidOf(() => undefined)).toBe('');
    expect(saidOf(({ steps }) => Object.assign(steps[1]!, { sai: 'x' }))).toContain(
      'example.steps[1].sai is not a known key',
    );
    expect(saidOf(({ steps }) => Object.assign(steps[2]!, { say: 'at {clok}' }))).toMatch(
      /example\.steps\[2\]\.say must be readings that there are \(clock, .*but is "clok"/,
    );
    expect(saidOf(({ steps }) => Object.assign(steps[2]!, { say: 'at {clock' }))).toContain(
      'example.steps[2].say must be words',
    );
    expect(saidOf(({ steps }) => delete steps[1]!.stop)).toContain(
      'example.steps must be steps of which exactly 3 stop',
    );
    expect(saidOf(({ steps }) => Object.assign(steps[1]!.stop!.options[1]!, { leads: true }))).toContain(
      'example.steps[1].stop.options must be choices of which exactly one leads on, but is 2',
    );
    expect(saidOf(({ steps }) => Object.assign(steps[1]!.stop!.options[0]!, { did: 'so '.repeat(60) }))).toContain(
      'example.steps[1].stop.options[0] must be at most 60 words in its four parts',
    );
    expect(saidOf((example) => Object.assign(example, { card: 'manual-on' }))).toContain(
      'example.card must be left out',
    );
    expect(saidOf(({ steps }) => Object.assign(steps[0]!, { day: 'night' }))).toContain(
      'example.steps[0].day must be a proving day',
    );
    expect(saidOf(({ steps }) => steps.push(...steps.slice(3), ...steps.slice(3), ...steps.slice(3)))).toContain(
      'example.steps must be',
    );
  });

  const proofOf = (change: (example: Example) => void): string => {
    const file = structuredClone(FILE);
    change(file.example);
    const read = loadExercise(JSON.stringify(file), 'own.json', library);
    if (!read.ok) throw new Error(read.sentences.join(' '));
    return proveExample(read.value)
      .flatMap(({ proof, fault }) => (fault === null ? [] : [`${proof}: ${fault}`]))
      .join('\n');
  };

  it('does not prove itself with a claim that is not so, an act that the expert does not do, or a bench that is drawn', () => {
    expect(proofOf(({ steps }) => Object.assign(steps[2]!, { holds: [{ output: 'innerRow', on: true }] }))).toContain(
      'what the example says holds: example.steps[2].holds: {"output":"innerRow","on":true} is not so at 273.6 s.',
    );
    expect(proofOf(({ steps }) => Object.assign(steps[2]!, { when: { act: 0, is: 'claim' } }))).toContain(
      "example.steps[2].when: act 0 is edge, not claim; the expert's acts are 0 edge, 1 edge, 2 edge.",
    );
    expect(
      proofOf(({ steps }) => Object.assign(steps[6]!, { when: { switches: 'innerRow', on: false, nth: 9 } })),
    ).toContain('example.steps[6].when: this run has no such switching.');
    const drawn = proofOf((example) =>
      Object.assign(example, { change: { settings: { innerOffDelayS: 240, windowOffDelayS: 240 } } }),
    );
    expect(drawn).toContain('the bench of the example is no bench of the job: a seed can draw it');
  }, 120_000);
});
