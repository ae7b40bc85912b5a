import { beforeEach, describe, expect, it } from 'vitest';
import { createHost, type Host } from '../../src/host/host.ts';
import type { FromWorker } from '../../src/host/messages.ts';
import { smallStory } from '../support/smallStory.ts';

const scenario = smallStory();

/** A page with a clock of its own: every reading of the clock costs a little, waiting moves it on. */
class Page {
  nowMs = 0;
  told: FromWorker[] = [];
  private queue: { atMs: number; fn: () => void }[] = [];
  host: Host = createHost({
    post: (message) => this.told.push(structuredClone(message)),
    clock: () => {
      this.nowMs += 0.01;
      return this.nowMs;
    },
    later: (fn, delayMs) => this.queue.push({ atMs: this.nowMs + delayMs, fn }),
  });

  /** Lets wall time pass. */
  pass(ms: number): void {
    const endMs = this.nowMs + ms;
    for (let guard = 0; guard < 100_000; guard++) {
      this.queue.sort((a, b) => a.atMs - b.atMs);
      const next = this.queue[0];
      if (!next || next.atMs > endMs) break;
      this.queue.shift();
      this.nowMs = Math.max(this.nowMs, next.atMs);
      next.fn();
    }
    this.nowMs = Math.max(this.nowMs, endMs);
  }

  of<T extends FromWorker['type']>(type: T): Extract<FromWorker, { type: T }>[] {
    return this.told.filter((message): message is Extract<FromWorker, { type: T }> => message.type === type);
  }

  lastFrame() {
    return this.of('frame').at(-1)!;
  }
}

let page: Page;
beforeEach(() => {
  page = new Page();
  page.host.receive({ type: 'load', scenario });
  page.pass(500);
});

describe('the host', () => {
  it('loads: says so, and gives frame, setup and light, standing at the start', () => {
    expect(page.of('failed')).toEqual([]);
    expect(page.of('loaded')).toHaveLength(1);
    expect(page.lastFrame()).toMatchObject({ frame: { tick: 0 }, status: { running: false, headTick: 0 } });
    expect(page.of('setup')).toHaveLength(1);
    expect(page.of('field')).toHaveLength(1);
  });

  it('runs at the asked speed with at most 30 frames a second and tells every tick once', () => {
    page.host.receive({ type: 'run', speed: 60 });
    page.pass(2000);
    page.host.receive({ type: 'pause' });
    const { frame, status } = page.lastFrame();
    expect(status.running).toBe(false);
    expect(Math.abs(frame.tick - 1200)).toBeLessThan(30);
    expect(page.of('frame').length).toBeLessThanOrEqual(65);
    const chunks = page.of('series').map(({ chunk }) => chunk);
    let nextTick = 0;
    for (const chunk of chunks) {
      expect(chunk.fromTick).toBe(nextTick);
      nextTick += chunk.signalUv.length / 2;
    }
    expect(nextTick).toBe(frame.tick + 1);
    const ticks = page.of('events').flatMap(({ events }) => events.map((event) => event.tick));
    expect(ticks.length).toBeGreaterThan(5);
    expect([...ticks].sort((a, b) => a - b)).toEqual(ticks);
  });

  it('takes gathered acts as one moment while standing still', () => {
    page.host.receive({ type: 'act', input: { kind: 'setSky', sky: 'clear' } });
    page.host.receive({ type: 'act', input: { kind: 'moveSun', shiftS: 100, localDate: null } });
    page.host.receive({ type: 'act', input: { kind: 'moveSun', shiftS: 7200, localDate: null } });
    page.pass(50);
    expect(page.lastFrame().frame.tick).toBe(0);
    expect(page.of('setup').at(-1)!.setup).toMatchObject({ sky: 'clear', sunShiftS: 7200 });
    expect(
      page
        .of('recording')
        .at(-1)!
        .recording.inputs.map(({ tick }) => tick),
    ).toEqual([0, 0]);
    expect(page.of('field').length).toBeGreaterThan(1);
  });

  it('cuts the record when something is done in the past, keeps the branch and restores it', () => {
    page.host.receive({ type: 'step', ticks: 400 });
    page.host.receive({ type: 'seek', tick: 100 });
    page.host.receive({ type: 'act', input: { kind: 'press', input: 'window' } });
    page.pass(50);
    expect(page.of('cut').at(-1)).toMatchObject({ tick: 100, branches: [{ index: 0, cutTick: 101, headTick: 399 }] });
    expect(page.lastFrame()).toMatchObject({ frame: { tick: 101 }, status: { headTick: 101 } });
    page.told = [];
    page.host.receive({ type: 'restoreBranch', index: 0 });
    expect(page.of('cut')[0]).toMatchObject({ tick: 100 });
    expect(page.of('series')[0]!.chunk.fromTick).toBe(101);
    expect(page.lastFrame()).toMatchObject({ frame: { tick: 100 }, status: { headTick: 399 } });
  });

  it('runs to the next switching and stands there, and goes back to the one before', () => {
    page.host.receive({ type: 'nextEvent', direction: 1 });
    page.pass(3000);
    const { frame, status } = page.lastFrame();
    expect(status.running).toBe(false);
    const switched = page
      .of('events')
      .flatMap(({ events }) => events.filter((e) => e.kind === 'output' || e.kind === 'row'));
    expect(switched.map((event) => event.tick)).toContain(frame.tick);
    page.host.receive({ type: 'nextEvent', direction: 1 });
    page.pass(3000);
    expect(page.lastFrame().frame.tick).toBeGreaterThan(frame.tick);
    page.host.receive({ type: 'nextEvent', direction: -1 });
    expect(page.lastFrame().frame.tick).toBe(frame.tick);
  });

  it('explains any past instant and names the request', () => {
    page.host.receive({ type: 'step', ticks: 200 });
    page.host.receive({ type: 'explain', requestId: 42, output: 'airContact', tick: 50 });
    expect(page.of('explained')[0]).toMatchObject({ requestId: 42, explanation: { output: 'airContact', tick: 50 } });
    expect(page.lastFrame().frame.tick).toBe(199);
  });

  it('answers a seek at once while running slowly, and runs on from there', () => {
    page.host.receive({ type: 'step', ticks: 300 });
    page.host.receive({ type: 'run', speed: 0.1 });
    page.pass(300);
    page.host.receive({ type: 'seek', tick: 50 });
    page.pass(20);
    expect(page.lastFrame()).toMatchObject({ frame: { tick: 50 }, status: { running: true } });
    page.pass(3000);
    expect(page.lastFrame().frame.tick).toBe(53);
  });

  it('sends the Sight Map when it is wanted, and again when the detector has moved or is masked', () => {
    expect(page.of('sightMap')).toEqual([]);
    page.host.receive({ type: 'wantSightMap', wanted: true });
    const first = page.of('sightMap')[0]!.cells;
    expect(first.length).toBeGreaterThan(100);
    expect(first.every((cell) => cell.outlineM.length % 3 === 0 && !cell.masked)).toBe(true);
    page.host.receive({
      type: 'act',
      input: { kind: 'moveDetector', mount: { atM: [1, 1], heightM: 2.8, turnDeg: 0 } },
    });
    page.pass(50);
    expect(page.of('sightMap').at(-1)!.cells).not.toEqual(first);
    page.host.receive({ type: 'act', input: { kind: 'setSettings', change: { maskedSectors: [0, 1, 2] } } });
    page.pass(50);
    expect(
      page
        .of('sightMap')
        .at(-1)!
        .cells.some((cell) => cell.masked),
    ).toBe(true);
    const sent = page.of('sightMap').length;
    page.host.receive({ type: 'step', ticks: 20 });
    expect(page.of('sightMap')).toHaveLength(sent);
  });

  it('answers lux meters at once with the number of the question, and at most ten times a second while running', () => {
    const places = [
      { id: '1', positionM: [2, 2, 0] as [number, number, number], normal: [0, 0, 1] as [number, number, number] },
    ];
    page.host.receive({ type: 'probe', requestId: 7, places });
    const [first] = page.of('probed');
    expect(first).toMatchObject({ requestId: 7, tick: 0, readings: [{ id: '1', covered: false }] });
    page.host.receive({ type: 'run', speed: 10 });
    page.pass(2000);
    const told = page.of('probed').length - 1;
    expect(told).toBeGreaterThan(10);
    expect(told).toBeLessThanOrEqual(21);
    expect(page.of('probed').at(-1)!.tick).toBeGreaterThan(150);
    page.host.receive({ type: 'pause' });
    page.host.receive({ type: 'probe', requestId: 8, places: [] });
    const sent = page.of('probed').length;
    page.host.receive({ type: 'step', ticks: 5 });
    expect(page.of('probed')).toHaveLength(sent);
  });

  it('tells what the photometers see only while somebody looks; the parts are the ceiling reading', () => {
    page.host.receive({ type: 'step', ticks: 20 });
    expect(page.of('photometers')).toEqual([]);
    page.host.receive({ type: 'wantPhotometers', wanted: true });
    const { inner } = page.of('photometers')[0]!;
    const sum = Object.values(inner.parts).flatMap((seen) => Object.values(seen));
    const { ceilingReadingLx } = page.lastFrame().frame.light.inner;
    expect(sum.reduce((a, b) => a + b, 0) / ceilingReadingLx).toBeCloseTo(1, 6);
    page.host.receive({ type: 'wantPhotometers', wanted: false });
    page.host.receive({ type: 'step', ticks: 20 });
    expect(page.of('photometers')).toHaveLength(1);
  });

  it('stops when it is told to', () => {
    page.host.receive({ type: 'run', speed: 10 });
    page.pass(100);
    page.host.receive({ type: 'stop' });
    const told = page.told.length;
    page.pass(1000);
    expect(page.told).toHaveLength(told);
  });

  it('works on to an instant beyond what is known', () => {
    page.host.receive({ type: 'seek', tick: 777 });
    page.pass(3000);
    expect(page.lastFrame()).toMatchObject({ frame: { tick: 777 }, status: { running: false, headTick: 777 } });
  });

  it('opens a saved run where it was left, with its record', () => {
    page.host.receive({ type: 'step', ticks: 300 });
    page.host.receive({ type: 'act', input: { kind: 'press', input: 'inner' } });
    page.pass(50);
    const saved = page.of('recording').at(-1)!.recording;
    const other = new Page();
    other.host.receive({ type: 'load', scenario, recording: saved, atTick: 120 });
    other.pass(5000);
    expect(other.of('refused')).toEqual([]);
    expect(other.lastFrame()).toMatchObject({ frame: { tick: 120 }, status: { headTick: 300 } });
    expect(other.of('series')[0]!.chunk.signalUv).toHaveLength(602);
    const events = (told: Page) => told.of('events').flatMap((message) => message.events);
    expect(events(other)).toEqual(events(page));
  });

  it('says when a saved run goes another way', () => {
    page.host.receive({ type: 'step', ticks: 700 });
    page.host.receive({ type: 'pause' });
    const saved = page.of('recording').at(-1)!.recording;
    const other = new Page();
    other.host.receive({
      type: 'load',
      scenario,
      recording: { ...saved, digests: saved.digests.map((d) => ({ ...d, digest: 'ffffffffffffffff' })) },
    });
    other.pass(5000);
    expect(other.of('refused')[0]!.sentence).toContain('08:40');
    expect(other.of('loaded')).toHaveLength(1);
  });

  it('refuses acts that do not fit the room, in a sentence, and goes on', () => {
    page.host.receive({ type: 'act', input: { kind: 'placePerson', personId: 'A', atM: [50, 1] } });
    page.pass(50);
    expect(page.of('refused')[0]!.sentence).toBe('That place is outside the room.');
    expect(page.of('recording')).toEqual([]);
  });

  it('tells a failure instead of falling silent', () => {
    const broken = { ...scenario, detectorModel: null } as unknown as typeof scenario;
    page.host.receive({ type: 'load', scenario: broken });
    page.pass(500);
    expect(page.of('failed')[0]!.sentence).toMatch(/^The room stopped working/);
  });
});
