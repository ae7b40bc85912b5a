import { beforeEach, describe, expect, it, vi } from 'vitest';
import { linkHash, readLink } from '../../src/app/state/deepLink.ts';
import { marksUpTo } from '../../src/app/state/marks.ts';
import {
  forgetSave,
  putSaveAside,
  readSave,
  type Saved,
  writePosition,
  writeRecording,
} from '../../src/app/state/saves.ts';
import { getApp, noteContextLoss, setApp } from '../../src/app/state/store.ts';
import { clearUndo, rememberUndo, takeUndo } from '../../src/app/state/undo.ts';
import type { TraceEvent } from '../../src/engine/trace.ts';
import type { Scenario } from '../../src/engine/types.ts';

const scenario = {
  id: 'a-story',
  seed: 7,
  start: { localDate: '2026-11-17', localTime: '06:28:00', utcOffsetH: 1 },
} as Scenario;

describe('a link', () => {
  it('says which story, instant, view and overlay', () => {
    setApp({ scenario, shownTick: 1500, view: 'plan', overlay: 'sight' });
    const hash = linkHash(true);
    expect(readLink(hash, '')).toEqual({
      story: 'a-story',
      job: null,
      seed: 1,
      aid: null,
      at: '06:30:30',
      view: 'plan',
      overlay: 'sight',
      lecture: false,
    });
  });

  it('keeps the instant out of the address, so that a reload goes on', () => {
    setApp({ scenario, shownTick: 1500, view: 'room', overlay: 'none' });
    expect(linkHash(false)).toBe('#story=a-story');
  });

  it('ignores views that do not exist, and takes the view from the query too', () => {
    expect(readLink('#view=hologram', '').view).toBeNull();
    expect(readLink('', '?view=plan').view).toBe('plan');
  });
});

describe('autosave', () => {
  let store: Map<string, string>;
  beforeEach(() => {
    store = new Map();
    vi.stubGlobal('localStorage', {
      getItem: (key: string) => store.get(key) ?? null,
      setItem: (key: string, value: string) => store.set(key, value),
      removeItem: (key: string) => store.delete(key),
    });
  });
  const recording = {
    format: 1,
    engine: 'x',
    scenarioId: 'a-story',
    seed: 7,
    inputs: [],
    headTick: 900,
    digests: [],
  } as const;
  const selection = { kind: 'output', output: 'windowRow' } as const;

  it('brings back the recording and the instant', () => {
    expect(writeRecording({ ...recording, inputs: [], digests: [] })).toBe(true);
    writePosition(scenario, 800, selection, true);
    const saved = readSave(scenario) as Saved;
    expect(saved?.tick).toBe(800);
    expect(saved?.recording?.headTick).toBe(900);
    expect(saved?.selection).toEqual(selection);
  });

  it('does not mix up seeds, and forgets when told', () => {
    writePosition(scenario, 801, selection, true);
    expect(readSave({ ...scenario, seed: 8 })).toBeNull();
    forgetSave('a-story');
    expect(readSave(scenario)).toBeNull();
  });

  it.each([
    ['cut off in the middle', '{"format":1,"inputs":[{'],
    ['of another shape', '{"seed":7}'],
    ['a list', '[]'],
    ['null', 'null'],
    [
      'with inputs that are no acts',
      '{"format":1,"seed":7,"headTick":9,"inputs":[{"tick":1,"serial":0}],"digests":[]}',
    ],
    ['with a time before the start', '{"format":1,"seed":7,"headTick":-1,"inputs":[],"digests":[]}'],
  ])('calls a recording %s damaged, and keeps it under another name', (_what, text) => {
    writePosition(scenario, 803, selection, true);
    store.set('halflit/recording/a-story', text);
    expect(readSave(scenario)).toBe('damaged');
    putSaveAside('a-story');
    expect(readSave(scenario)).toBeNull();
    expect(JSON.parse(store.get('halflit/damaged/a-story')!)[0]).toBe(text);
  });

  it('calls a damaged position damaged too', () => {
    writeRecording({ ...recording, inputs: [], digests: [] });
    store.set('halflit/position/a-story', '{"tick":"soon"}');
    expect(readSave(scenario)).toBe('damaged');
  });

  it('says so when the browser stores nothing, and goes on', () => {
    vi.stubGlobal('localStorage', {
      getItem: () => {
        throw new Error('denied');
      },
      setItem: () => {
        throw new Error('full');
      },
      removeItem: () => {
        throw new Error('denied');
      },
    });
    expect(writeRecording({ ...recording, inputs: [], digests: [] })).toBe(false);
    expect(() => writePosition(scenario, 802, selection, true)).not.toThrow();
    expect(readSave(scenario)).toBeNull();
    expect(() => forgetSave('a-story')).not.toThrow();
  });
});

describe('undo', () => {
  it('takes back the newest act first, and knows when there is none', () => {
    clearUndo();
    rememberUndo([{ kind: 'supply', on: true }]);
    rememberUndo([{ kind: 'setSky', sky: 'clear' }]);
    expect(getApp().undoDepth).toBe(2);
    expect(takeUndo()).toEqual([{ kind: 'setSky', sky: 'clear' }]);
    expect(takeUndo()).toEqual([{ kind: 'supply', on: true }]);
    expect(takeUndo()).toEqual([]);
    expect(getApp().undoDepth).toBe(0);
  });
});

describe('a lost picture', () => {
  it('comes back by itself once, and gives way to the plan the second time within a minute', () => {
    setApp({ noRoomView: null, view: 'room' });
    noteContextLoss(1_000);
    expect(getApp().view).toBe('room');
    noteContextLoss(100_000);
    expect(getApp().view).toBe('room');
    noteContextLoss(120_000);
    expect(getApp()).toMatchObject({ noRoomView: 'contextLost', view: 'plan' });
  });
});

describe('marks', () => {
  const pulse = (tick: number, counted: boolean): TraceEvent => ({
    tick,
    kind: 'pulse',
    counted,
    pulse: { subStep: 0, channel: 0, polarity: 1, level: 'hold', signalUv: 9, bearingDeg: 0, atM: [tick, 0] },
  });

  it('are those of counted pulses up to the instant shown, none from its future', () => {
    const events = [pulse(10, true), pulse(20, false), pulse(30, true), pulse(40, true)];
    expect(marksUpTo(30, events).map((m) => m.tick)).toEqual([10, 30]);
  });
});
