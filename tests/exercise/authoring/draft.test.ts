/** What somebody does in a story becomes an exercise file that reads, plays the same acts, and is judged by its proofs. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, describe, expect, it, vi } from 'vitest';
import { diskLibrary } from '../../../src/cli/files.ts';
import { grade } from '../../../src/cli/grade.ts';
import { prove } from '../../../src/cli/prove.ts';
import { ENGINE_VERSION } from '../../../src/engine/simulation.ts';
import type { TimedInput } from '../../../src/engine/types.ts';
import { attemptText } from '../../../src/exercise/attempt.ts';
import { type Draft, draftText, idOfTitle, recordedScript } from '../../../src/exercise/authoring/draft.ts';
import { benchScenario } from '../../../src/exercise/edits.ts';
import { fileKindOf } from '../../../src/exercise/fileKind.ts';
import { loadExercise } from '../../../src/exercise/load.ts';
import { playFor, solutionEdges } from '../../../src/exercise/predict/solution.ts';
import { play } from '../../../src/exercise/replay.ts';
import type { PredictExercise } from '../../../src/exercise/types.ts';
import { act, advance, createSession, recordingOf } from '../../../src/host/session.ts';
import { loadStory } from '../../../src/scenario/load.ts';
import { SMALL_STORY_TEXT } from '../../support/smallStory.ts';

const library = diskLibrary();
const folder = mkdtempSync(join(tmpdir(), 'halflit-own-'));
afterAll(() => rmSync(folder, { recursive: true }));
afterEach(() => vi.restoreAllMocks());

const draft: Draft = {
  title: 'Two presses and a way out',
  question: 'Which press does what?',
  brief: 'Somebody presses two buttons.',
  aid: 'guided',
  hints: ['Look at the presses.', 'Compare them with the rows.', 'In another room a press put the row on.'],
  outputs: ['innerRow', 'windowRow'],
  fromS: 60,
  toS: 200,
  toleranceS: 5,
  told: [{ atS: 90, say: 'Window button pressed' }],
  offDelaysS: [],
};

/** The small story with two presses, as the page records them. */
function recorded(): { inputs: TimedInput[]; digests: { tick: number; digest: string }[] } {
  const loaded = loadExercise(draftText(draft, { text: SMALL_STORY_TEXT }, []), 'own.json', library);
  if (!loaded.ok) throw new Error(loaded.sentences.join(' '));
  const session = createSession(benchScenario(loaded.value, 1));
  advance(session, 900);
  act(session, { kind: 'press', input: 'window' });
  advance(session, 305);
  act(session, { kind: 'press', input: 'inner' });
  advance(session, 900);
  const { inputs, digests } = recordingOf(session);
  return { inputs, digests };
}

const { inputs, digests } = recorded();

function read(text: string): PredictExercise {
  const loaded = loadExercise(text, 'own.json', library);
  if (!loaded.ok) throw new Error(loaded.sentences.join(' '));
  return loaded.value as PredictExercise;
}

describe('a recorded job', () => {
  const exercise = read(draftText(draft, { text: SMALL_STORY_TEXT }, inputs));

  it('plays to the same digests as the run it was recorded in', () => {
    const played = play(benchScenario(exercise, 1), [], 2000);
    expect(inputs).toHaveLength(2);
    expect(played.digests).toEqual(digests.slice(0, played.digests.length));
    expect(played.digests.length).toBeGreaterThan(2);
  });

  it('leaves out what was done after its window', () => {
    expect(recordedScript(inputs, 1000).map(({ atS }) => atS)).toEqual([90]);
  });

  it('differs from bench to bench when off-delays are chosen, and not when one alone is', () => {
    const delaysOf = (offDelaysS: number[]): number[] => {
      const job = read(draftText({ ...draft, offDelaysS }, { text: SMALL_STORY_TEXT }, inputs));
      return [1, 2, 3, 4, 5, 6].map((seed) => benchScenario(job, seed).settings.innerOffDelayS);
    };
    expect(new Set(delaysOf([180, 300, 600])).size).toBeGreaterThan(1);
    expect(new Set(delaysOf([180])).size).toBe(1);
  });

  it('takes a bundled story by its id', () => {
    const job = read(draftText(draft, { id: 'winter-walk-in' }, []));
    const story = loadStory(library, 'winter-walk-in');
    expect(story.ok && job.scenario.room).toEqual(story.ok && story.scenario.room);
    expect(job.id).toBe('own-two-presses-and-a-way-out');
  });
});

describe('the command line', () => {
  const path = join(folder, 'own.json');
  const text = draftText(draft, { text: SMALL_STORY_TEXT }, inputs);
  writeFileSync(path, text);

  function said(verb: (words: string[]) => number, words: string[]): { code: number; out: string; err: string } {
    let out = '';
    let err = '';
    vi.spyOn(process.stdout, 'write').mockImplementation((line) => {
      out += line;
      return true;
    });
    vi.spyOn(process.stderr, 'write').mockImplementation((line) => {
      err += line;
      return true;
    });
    return { code: verb(words), out, err };
  }

  it('proves a file by its path', () => {
    const { code, out } = said(prove, [path]);
    expect(out).toMatch(/^proved .*own\.json seed 1: the solution passes$/m);
    expect(out).toContain('0 failed');
    expect(code).toBe(0);
  });

  it('names a window in which nothing switches as what it is: doing nothing passes', () => {
    const quiet = join(folder, 'quiet.json');
    writeFileSync(quiet, draftText({ ...draft, fromS: 195 }, { text: SMALL_STORY_TEXT }, inputs));
    const { code, out } = said(prove, [quiet]);
    expect(out).toMatch(/FAILED .*doing nothing fails; nothing at all has 100 of 100/);
    expect(code).toBe(1);
  });

  it('grades nothing by a job of which two files lie there without saying so', () => {
    const { code, err } = said(grade, [path, join(folder, 'quiet.json')]);
    expect(err).toMatch(/quiet\.json: another file here is the job own-two-presses-and-a-way-out too/);
    expect(code).toBe(1);
    rmSync(join(folder, 'quiet.json'));
  });

  it('grades attempts beside the file of their exercise', () => {
    const exercise = read(text);
    const edges = solutionEdges(exercise, playFor(exercise, 3));
    const attempt = { format: 1 as const, exercise: exercise.id, seed: 3, engine: ENGINE_VERSION, names: ['Bench 3'] };
    const rest = { aid: exercise.aid, inputs: [], headTick: 0, digests: [], answers: { predict: { edges } } };
    writeFileSync(join(folder, 'bench-3.json'), attemptText({ ...attempt, ...rest }));
    const { code, out } = said(grade, [folder]);
    expect(out).toMatch(/^bench-3\.json: own-two-presses-and-a-way-out, seed 3: 100 of 100, pass/m);
    expect(out).toContain('1 passed, 0 failed');
    expect(code).toBe(0);
  });

  it("says in a sentence what a file of one's own lacks", () => {
    const broken = join(folder, 'broken.json');
    writeFileSync(broken, text.replace('"title": "Small story"', '"title": ""'));
    const { code, err } = said(prove, [broken, join(folder, 'none.json')]);
    expect(err).toMatch(/broken\.json: story\.title must be text of 1 to 60 characters/);
    expect(err).toMatch(/none\.json: expected a readable file/);
    expect(code).toBe(1);
    rmSync(broken);
  });
});

it('titles become ids that no bundled exercise has', () => {
  expect(idOfTitle("Who's in, at noon?")).toBe('own-who-s-in-at-noon');
  expect(idOfTitle('Naïve  café — 2')).toBe('own-naive-cafe-2');
  expect(idOfTitle('x'.repeat(80))).toHaveLength(36);
  expect(idOfTitle('???')).toBe('own');
});

it('files are told apart by what they say they are', () => {
  expect(fileKindOf(draftText(draft, { id: 'winter-walk-in' }, inputs))).toBe('exercise');
  expect(fileKindOf(SMALL_STORY_TEXT)).toBe('story');
  expect(fileKindOf('{"kind":"attempt","format":1}')).toBe('attempt');
  expect(fileKindOf('{"kind":"attempt","form')).toBe('attempt');
  expect(fileKindOf('null')).toBe('story');
});
