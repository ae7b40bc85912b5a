import { afterEach, describe, expect, it, vi } from 'vitest';
import { presentAttempt, setJob } from '../../../src/app/state/job/job.ts';
import { copyUpTo } from '../../../src/app/state/job/tryAgain.ts';
import { live } from '../../../src/app/state/live.ts';
import { COPY_MARK, writePosition, writeRecording } from '../../../src/app/state/saves.ts';
import { diskLibrary } from '../../../src/cli/files.ts';
import type { Recording } from '../../../src/engine/recording.ts';
import { digestOf, ENGINE_VERSION } from '../../../src/engine/simulation.ts';
import type { TimedInput } from '../../../src/engine/types.ts';
import { play } from '../../../src/exercise/replay.ts';
import type { Attempt } from '../../../src/exercise/types.ts';
import { firstMismatchTick, sessionFor } from '../../../src/host/replay.ts';
import { advance, recordingOf } from '../../../src/host/session.ts';
import { loadStory } from '../../../src/scenario/load.ts';

const loaded = loadStory(diskLibrary(), 'winter-walk-in');
if (!loaded.ok) throw new Error(loaded.sentences.join(' '));
const { scenario } = loaded;
const press = (tick: number, serial: number): TimedInput => ({
  tick,
  serial,
  input: { kind: 'press', input: 'inner' },
});
const inputs = [press(100, 0), press(700, 1), press(701, 2)];

function ran(ticks: number) {
  const { id: scenarioId, seed } = scenario;
  const acts: Recording = { format: 1, engine: ENGINE_VERSION, scenarioId, seed, inputs, headTick: 0, digests: [] };
  const session = sessionFor(scenario, acts);
  advance(session, ticks);
  return session;
}

describe('while something else is tried', () => {
  it('the attempt is the one that was marked, whatever is done in the room', () => {
    const attempt: Attempt = {
      format: 1,
      exercise: 'any',
      seed: 1,
      engine: ENGINE_VERSION,
      names: [],
      aid: 'guided',
      inputs: [],
      headTick: 10,
      digests: [],
      answers: {},
    };
    setJob({ tried: { attempt, atS: 1 } });
    live.inputs = inputs;
    expect(presentAttempt()).toBe(attempt);
    setJob({ tried: null });
    expect(presentAttempt()).not.toBe(attempt);
    live.inputs = [];
  });
});

describe('a copy of a run up to a moment', () => {
  const whole = recordingOf(ran(1300));
  const before = structuredClone(whole);
  const copy = copyUpTo(whole, 700, `${scenario.id}${COPY_MARK}`);

  it('holds the acts up to the moment and none after it, and stands at the same state', () => {
    expect(copy.inputs.map(({ tick }) => tick)).toEqual([100, 700]);
    const session = sessionFor(scenario, copy);
    advance(session, copy.headTick);
    expect(firstMismatchTick(session, copy)).toBeNull();
    expect(digestOf(session.sim.state)).toBe(digestOf(play(scenario, inputs.slice(0, 2), 701).sim.state));
  });

  it('goes under a name of its own and leaves the run as it is', () => {
    expect(copy.scenarioId).not.toBe(whole.scenarioId);
    expect(whole).toEqual(before);
  });
});

describe('what is kept of a copy', () => {
  const stored = new Map<string, string>();
  vi.stubGlobal('localStorage', { setItem: (key: string, value: string) => stored.set(key, value) });
  afterEach(() => stored.clear());
  const selection = { kind: 'output', output: 'innerRow' } as const;

  it.each([
    ['the run itself', scenario.id, 2],
    ['a copy of it', `${scenario.id}${COPY_MARK}`, 0],
  ])('%s', (_what, id, entries) => {
    expect(writeRecording(copyUpTo(recordingOf(ran(50)), 20, id))).toBe(true);
    writePosition({ ...scenario, id }, 20, selection, true);
    expect(stored.size).toBe(entries);
  });
});
