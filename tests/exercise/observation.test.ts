/** A record that is read: its moments, what tags earn, the beliefs that show in them, and the proofs of every bench. */
import { describe, expect, it } from 'vitest';
import { diskLibrary } from '../../src/cli/files.ts';
import { ENGINE_VERSION } from '../../src/engine/simulation.ts';
import { attemptText, readAttempt } from '../../src/exercise/attempt.ts';
import { benchScenario } from '../../src/exercise/edits.ts';
import { exerciseById, loadExercise } from '../../src/exercise/load.ts';
import { markAttempt } from '../../src/exercise/mark.ts';
import { allDesksRead, judgeRatios, metersOf, solutionRatios } from '../../src/exercise/observe/ratios.ts';
import { judgeTags, momentsOf, solutionTags, TAG_WITHIN_S, tagLines } from '../../src/exercise/observe/tags.ts';
import type { ObserveAnswers, ObserveExercise, Tag } from '../../src/exercise/observe/types.ts';
import { playFor } from '../../src/exercise/predict/solution.ts';
import type { TrueEdge } from '../../src/exercise/predict/truth.ts';
import { PROOF_SEEDS, proveExercise } from '../../src/exercise/proofs.ts';
import type { Attempt } from '../../src/exercise/types.ts';
import { tagBelief, tagLineText } from '../../src/report/text/observe.ts';

const library = diskLibrary();

function job(id: string): ObserveExercise {
  const loaded = exerciseById(library, id);
  if (!loaded.ok) throw new Error(loaded.sentences.join(' '));
  if (loaded.value.kind !== 'observe') throw new Error(`${id} is no observation`);
  return loaded.value;
}

const room = job('read-the-room');
const SEED = 2;
const played = playFor(room, SEED);
const truths = momentsOf(room.observe, played.events);
const right = solutionTags(truths);

function attempt(tags: Tag[]): Attempt {
  return {
    format: 1,
    exercise: room.id,
    seed: SEED,
    engine: ENGINE_VERSION,
    names: ['Bench 2'],
    aid: room.aid,
    inputs: [],
    headTick: room.observe.toS * 10,
    digests: played.digests,
    answers: { observe: { tags } },
  };
}

const totalOf = (tags: Tag[]): number => markAttempt(room, attempt(tags), played).total;

describe('Read the room', () => {
  it.each(PROOF_SEEDS)(
    'proves itself on bench %i: solution, nothing, one cause, mistakes by name, random ones',
    (seed) => {
      const results = proveExercise(room, seed, 20);
      expect(results).toHaveLength(8);
      expect(results.filter(({ fault }) => fault !== null)).toEqual([]);
    },
  );

  it('asks for six switchings with five different causes', () => {
    expect(truths).toHaveLength(6);
    expect(new Set(truths.map(({ cause }) => cause))).toEqual(
      new Set(['seen', 'onDelay', 'brightForDwell', 'delayFromLastPulse', 'presenceOnly']),
    );
  });

  it('switches at other instants on other benches', () => {
    const instants = [1, 2, 3, 4].map((seed) => momentsOf(room.observe, playFor(room, seed).events).map((t) => t.atS));
    expect(new Set(instants.map((list) => JSON.stringify(list))).size).toBeGreaterThan(2);
  });
});

describe('a tag', () => {
  const shifted = (byS: number): Tag[] => right.map((tag) => ({ ...tag, atS: tag.atS + byS }));

  it('counts up to two seconds from the switching, and not beyond', () => {
    expect(totalOf(shifted(TAG_WITHIN_S - 0.1))).toBe(100);
    expect(totalOf(shifted(-(TAG_WITHIN_S - 0.1)))).toBe(100);
    expect(totalOf(shifted(TAG_WITHIN_S + 0.1))).toBe(0);
  });

  it('counts for its own output only', () => {
    const rows = right.map((tag): Tag => (tag.output === 'airContact' ? { ...tag, output: 'innerRow' } : tag));
    expect(totalOf(rows)).toBeCloseTo((100 * 4) / 6, 0);
  });

  it('earns nothing with another cause; the two true causes of a fan that goes off both count', () => {
    const fan = right.map((tag): Tag => (tag.cause === 'presenceOnly' ? { ...tag, cause: 'delayFromLastPulse' } : tag));
    expect(totalOf(fan)).toBe(100);
    const one = right.map((tag, i): Tag => (i === 0 ? { ...tag, cause: 'button' } : tag));
    expect(totalOf(one)).toBeCloseTo((100 * 5) / 6, 1);
  });

  it('too many lowers the worth of each: tagging everything everywhere does not pass', () => {
    const everywhere: Tag[] = [];
    for (let atS = 1; atS < room.observe.toS; atS += 4) everywhere.push({ ...right[0]!, atS });
    expect(totalOf([...right, ...everywhere])).toBeLessThan(5);
  });

  it('belongs to the nearest switching, and each switching has one tag', () => {
    const at = (atS: number): TrueEdge => ({
      atS,
      on: true,
      output: 'innerRow',
      cause: 'seen',
      delayS: 0,
      lastSeenS: null,
    });
    const tag = (atS: number): Tag => ({ atS, output: 'innerRow', cause: 'seen' });
    const judged = judgeTags([at(10), at(13)], [tag(11.8), tag(11.9), tag(9)]);
    expect(judged.map(({ truth, tag: put }) => [truth?.atS ?? null, put?.atS ?? null])).toEqual([
      [10, 9],
      [13, 11.9],
      [null, 11.8],
    ]);
    expect(tagLines(judged).reduce((sum, { of }) => sum + of, 0)).toBeCloseTo((100 * 2) / 3, 9);
  });
});

describe('Two readings', () => {
  const twoReadings = job('two-readings');
  const scenario = benchScenario(twoReadings, SEED);
  const meter = metersOf(scenario, [], 200);
  const readings = allDesksRead(scenario, 100, meter);
  const ratios = solutionRatios(scenario, readings, meter);
  const points = (answers: ObserveAnswers): number =>
    judgeRatios(scenario, answers, meter).lines.reduce((sum, line) => sum + line.points, 0);

  it.each(PROOF_SEEDS)(
    'proves itself on bench %i: solution, nothing, no readings, mistakes by name, random',
    (seed) => {
      const results = proveExercise(twoReadings, seed, 20);
      expect(results).toHaveLength(6);
      expect(results.filter(({ fault }) => fault !== null)).toEqual([]);
    },
  );

  it('counts a ratio up to a tenth from that of the readings, half up to two tenths', () => {
    const said = (share: number) => points({ readings, ratios: { ...ratios, inner: ratios.inner * share } });
    expect([0.91, 1.09].map(said)).toEqual([100, 100]);
    expect([0.89, 1.11, 0.81, 1.19].map(said)).toEqual([75, 75, 75, 75]);
    expect([0.79, 1.21].map(said)).toEqual([50, 50]);
  });

  it('needs a reading on every desk of the row', () => {
    expect(points({ readings: readings.slice(1), ratios })).toBe(50);
    expect(points({ readings: [], ratios })).toBe(0);
  });

  it('reads each desk anew: figures written into the attempt by hand change nothing', () => {
    const forged = readings.map((reading) => ({ ...reading, deskLx: 999, ceilingLx: 1 }));
    expect(points({ readings: forged, ratios })).toBe(100);
    expect(points({ readings: forged, ratios: { inner: 999, window: 999 } })).toBe(0);
  });

  it('takes no reading from beyond its end, nor from a desk that is not there', () => {
    expect(points({ readings: readings.map((r) => ({ ...r, tick: 9000 })), ratios })).toBe(0);
    expect(meter(100, 'no-such-desk')).toBeNull();
  });

  it('shows different ratios on different benches', () => {
    const seen = [1, 2, 3, 4].map((seed) => {
      const bench = benchScenario(twoReadings, seed);
      const benchMeter = metersOf(bench, [], 101);
      return solutionRatios(bench, allDesksRead(bench, 100, benchMeter), benchMeter).window.toFixed(2);
    });
    expect(new Set(seen).size).toBeGreaterThan(1);
  });
});

describe('an attempt', () => {
  it('has the same mark after writing, reading and replaying', () => {
    const tags = right.slice(0, 5);
    const read = readAttempt(attemptText(attempt(tags)), 'a.json');
    expect(read.ok).toBe(true);
    if (!read.ok) return;
    const mark = markAttempt(room, read.value);
    expect(mark).toEqual(markAttempt(room, attempt(tags), played));
    expect(mark).toMatchObject({ pass: true, firstMismatchTick: null });
  });

  it('of another bench is noticed at replay', () => {
    expect(markAttempt(room, { ...attempt(right), seed: 3 }).firstMismatchTick).not.toBeNull();
  });

  it('with a cause that there is not is refused in a sentence', () => {
    const text = attemptText(attempt(right)).replace('"cause":"onDelay"', '"cause":"magic"');
    const read = readAttempt(text, 'a.json');
    expect(read.ok).toBe(false);
    expect((read as { sentences: string[] }).sentences.join(' ')).toMatch(/^a\.json.*cause/);
  });
});

describe('an exercise file', () => {
  it('that asks for another task is refused in a sentence', () => {
    const text = library.texts.get('exercises/read-the-room.json')!.replace('"task": "tags"', '"task": "songs"');
    const read = loadExercise(text, 'x.json', library);
    expect((read as { sentences: string[] }).sentences.join(' ')).toMatch(/^x\.json.*task/);
  });
});

describe('an exercise file of ratios', () => {
  it('whose end lies before its beginning is refused in a sentence', () => {
    const text = library.texts.get('exercises/two-readings.json')!.replace('"toS": 60', '"toS": 5');
    const read = loadExercise(text, 'x.json', library);
    expect((read as { sentences: string[] }).sentences.join(' ')).toMatch(/observe.*toS must be later than fromS/);
  });
});

describe('what is said about a reading', () => {
  const clock = (s: number): string => `at-${s}`;

  it('keeps each belief to sixty words, with its instant', () => {
    for (const id of ['rowOffNobodySeen', 'fanFollowsLight', 'crossingSwitches'] as const) {
      const text = tagBelief({ id, output: 'windowRow', atS: 77, delayS: 120 }, clock);
      expect(text.split(/\s+/).length).toBeLessThanOrEqual(60);
      expect(text).toContain('at-77');
      expect(text).toContain('Next:');
      expect(text).not.toMatch(/wrong|well done|good/i);
    }
  });

  it('tells the true cause beside the one that was said', () => {
    const [line] = tagLines(judgeTags(truths.slice(0, 1), [{ ...right[0]!, cause: 'button' }]));
    const text = tagLineText(line!.say as Parameters<typeof tagLineText>[0], clock);
    expect(text).toContain('its button was pressed');
    expect(text).toContain('someone was seen and it was dark enough');
  });
});
