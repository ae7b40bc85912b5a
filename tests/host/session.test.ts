import { beforeAll, describe, expect, it } from 'vitest';
import { digestOf } from '../../src/engine/simulation.ts';
import { explain } from '../../src/engine/view.ts';
import { chunkOf } from '../../src/host/series.ts';
import {
  act,
  actStandingStill,
  advance,
  createSession,
  explainAt,
  isSwitching,
  knownSwitching,
  recordingOf,
  restoreBranch,
  type Session,
  seek,
  shownTick,
} from '../../src/host/session.ts';
import { smallStory } from '../support/smallStory.ts';

const scenario = smallStory();
const TICKS = 1300;

function worked(ticks: number): Session {
  const session = createSession(scenario);
  advance(session, ticks);
  return session;
}

/** Digests at some instants of an uninterrupted run. */
const INSTANTS = [0, 1, 99, 100, 333, 599, 600, 601, 1000, 1299];
const digestAt = new Map<number, string>();

beforeAll(() => {
  const session = createSession(scenario);
  digestAt.set(0, digestOf(session.sim.state));
  advance(session, TICKS, (step) => {
    if (step.tick > 0 && INSTANTS.includes(step.tick)) digestAt.set(step.tick, digestOf(session.sim.state));
    return true;
  });
});

describe('seeking', () => {
  it('shows every instant as it was, back and forth', () => {
    const session = worked(TICKS);
    for (const tick of [...INSTANTS].reverse().concat(INSTANTS, [601, 99, 1299, 0, 600])) {
      seek(session, tick);
      expect(shownTick(session)).toBe(tick);
      expect([tick, digestOf(session.sim.state)]).toEqual([tick, digestAt.get(tick)]);
    }
  });

  it('leaves events, series and digests as they are when known ground is worked again', () => {
    const session = worked(TICKS);
    const before = JSON.stringify([session.line.events, session.line.digests, session.line.inputs]);
    const series = chunkOf(session.line.series, 0, TICKS);
    seek(session, 200);
    advance(session, TICKS - session.sim.state.tick);
    expect(session.line.headTick).toBe(TICKS);
    expect(JSON.stringify([session.line.events, session.line.digests, session.line.inputs])).toBe(before);
    expect(chunkOf(session.line.series, 0, TICKS)).toEqual(series);
    expect(series.signalUv).toHaveLength(TICKS * 2);
    expect(series.innerEstimateLx).toHaveLength(TICKS / 10);
  });

  it('goes on from the past into new ground exactly as an uninterrupted run', () => {
    const session = worked(700);
    seek(session, 120);
    advance(session, TICKS - session.sim.state.tick);
    expect(digestOf(session.sim.state)).toBe(digestAt.get(1299));
  });

  it('finds the switchings before and after the shown instant', () => {
    const session = worked(TICKS);
    const switchings = [...new Set(session.line.events.filter(isSwitching).map((event) => event.tick))];
    expect(switchings.length).toBeGreaterThan(3);
    seek(session, 0);
    const forward: number[] = [];
    for (let next = knownSwitching(session, 1); next !== null; next = knownSwitching(session, 1)) {
      seek(session, next);
      forward.push(next);
    }
    expect(forward).toEqual(switchings);
    const back: number[] = [];
    for (let last = knownSwitching(session, -1); last !== null; last = knownSwitching(session, -1)) {
      seek(session, last);
      back.push(last);
    }
    expect(back).toEqual(switchings.slice(0, -1).reverse());
  });
});

describe('explaining', () => {
  it('answers for a past instant what was answered then, and does not move the shown room', () => {
    const session = createSession(scenario);
    const then = new Map<number, unknown>();
    advance(session, TICKS, (step) => {
      if ([150, 480, 605, 1100].includes(step.tick))
        then.set(step.tick, structuredClone(explain(session.sim, 'innerRow')));
      return true;
    });
    const digest = digestOf(session.sim.state);
    for (const tick of [605, 150, 1100, 480]) {
      expect(explainAt(session, 'innerRow', tick)).toEqual(then.get(tick));
    }
    expect(digestOf(session.sim.state)).toBe(digest);
    expect(session.line.headTick).toBe(TICKS);
  });

  it('speaks of the new line after a cut', () => {
    const session = worked(TICKS);
    explainAt(session, 'innerRow', 300);
    seek(session, 150);
    act(session, { kind: 'press', input: 'inner' });
    advance(session, 300);
    const fresh = createSession(scenario);
    fresh.line.inputs = [...session.line.inputs];
    advance(fresh, 401);
    expect(explainAt(session, 'innerRow', 400)).toEqual(explain(fresh.sim, 'innerRow'));
  });
});

describe('branching', () => {
  it('sets the old future aside and brings it back whole', () => {
    const session = worked(TICKS);
    const old = JSON.stringify([recordingOf(session), session.line.events]);
    seek(session, 500);
    expect(act(session, { kind: 'press', input: 'window' })).toBe(501);
    expect(session.line.headTick).toBe(501);
    expect(session.line.events.every((event) => event.tick <= 500)).toBe(true);
    advance(session, 400);
    const mine = JSON.stringify([recordingOf(session), session.line.events]);
    expect(restoreBranch(session, 0)).toBe(501);
    expect(JSON.stringify([recordingOf(session), session.line.events])).toBe(old);
    expect(shownTick(session)).toBe(500);
    seek(session, 1299);
    expect(digestOf(session.sim.state)).toBe(digestAt.get(1299));
    restoreBranch(session, 0);
    expect(JSON.stringify([recordingOf(session), session.line.events])).toBe(mine);
  });

  it('leaves nothing of the old future in the new one', () => {
    const session = worked(TICKS);
    seek(session, 500);
    act(session, { kind: 'press', input: 'window' });
    expect(chunkOf(session.line.series, 0, TICKS).signalUv).toHaveLength(501 * 2);
    advance(session, 700);
    const fresh = createSession(scenario);
    fresh.line.inputs = [...session.line.inputs];
    advance(fresh, 1201);
    expect(session.line.digests).toEqual(fresh.line.digests);
    expect(session.line.events).toEqual(fresh.line.events);
    expect(chunkOf(session.line.series, 0, 1201)).toEqual(chunkOf(fresh.line.series, 0, 1201));
  });

  it('does not branch at the head', () => {
    const session = worked(300);
    expect(act(session, { kind: 'press', input: 'window' })).toBeNull();
    expect(session.branches).toHaveLength(0);
  });

  it('refuses a branch that is not there', () => {
    expect(restoreBranch(worked(10), 3)).toBeNull();
  });
});

describe('acting while time stands still', () => {
  it('works one tick however many acts there are, and the last place of a drag counts', () => {
    const session = worked(300);
    for (let i = 1; i <= 20; i++) {
      actStandingStill(session, [{ kind: 'moveSun', shiftS: i * 100, localDate: null }]);
    }
    expect(session.line.headTick).toBe(301);
    expect(session.sim.state.setup.sunShiftS).toBe(2000);
    expect(session.line.inputs).toHaveLength(1);
    expect(session.branches).toHaveLength(0);
  });

  it('gives the run that the same acts would have given in motion', () => {
    const still = worked(300);
    actStandingStill(still, [{ kind: 'press', input: 'inner' }]);
    actStandingStill(still, [{ kind: 'setSky', sky: 'overcast' }]);
    advance(still, 399);
    const moving = worked(300);
    act(moving, { kind: 'press', input: 'inner' });
    act(moving, { kind: 'setSky', sky: 'overcast' });
    advance(moving, 400);
    expect(digestOf(still.sim.state)).toBe(digestOf(moving.sim.state));
    expect(still.line.events).toEqual(moving.line.events);
    expect(recordingOf(still)).toEqual(recordingOf(moving));
  });

  it('is a new moment once the run has gone on', () => {
    const session = worked(300);
    actStandingStill(session, [{ kind: 'setSky', sky: 'clear' }]);
    advance(session, 1);
    actStandingStill(session, [{ kind: 'setSky', sky: 'hazy' }]);
    expect(session.line.inputs.map(({ tick }) => tick)).toEqual([300, 302]);
  });
});
