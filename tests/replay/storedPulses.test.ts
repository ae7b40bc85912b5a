/** Stored pulses in place of sensing: the same run, to the last bit, for as long as nothing reaches the lens otherwise. */
import { beforeAll, describe, expect, it } from 'vitest';
import type { PulseStore } from '../../src/engine/pulseStore.ts';
import { digestOf, restoreState, stepSimulation } from '../../src/engine/simulation.ts';
import type { ControllerSettings, Input, Scenario, SimState, TimedInput } from '../../src/engine/types.ts';
import { runStored, startStoredRun, stepStoredRun, withSettings } from '../../src/exercise/storedRun.ts';
import { smallStory, timedActs } from '../support/smallStory.ts';

const FOR_S = 190;
const scenario = smallStory();
const acts = timedActs();

interface Told {
  events: unknown[];
  digests: string[];
  store: PulseStore;
  sensedFromTick: number | null;
}

/** A run with its digests at every full minute; `given` null senses all of it. */
function told(story: Scenario, inputs: readonly TimedInput[], given: PulseStore | null): Told {
  const digests: string[] = [];
  const run = runStored(story, given, FOR_S, inputs, (_, sim) => {
    if (sim.state.tick % 600 === 0) digests.push(digestOf(sim.state));
  });
  return { events: run.events, digests, store: run.store, sensedFromTick: run.sensedFromTick };
}

function timed(...list: [tick: number, input: Input][]): TimedInput[] {
  return list.map(([tick, input], serial) => ({ tick, serial, input }));
}

/** What another controller may be told; none of it may reach the lens. */
const SETTINGS: [name: string, change: Partial<ControllerSettings>][] = [
  ['longer delays', { innerOffDelayS: 600, windowOffDelayS: 900, airOffDelayS: 30 }],
  ['other setpoints', { innerSetpointLx: 200, windowSetpointLx: null, releaseMarginLx: 20 }],
  ['manual-on and short impulse', { innerMode: 'manualOn', windowMode: 'shortImpulse' }],
  ['reduced sensitivity', { reducedSensitivity: true }],
  ['adaptive delay', { adaptiveDelay: true, innerOffDelayS: 60 }],
  ['a locked controller of other desk factors', { settingsLock: 'dialsOnly', innerDeskFactor: 3, lampShare: 'off' }],
];

describe('stored pulses', () => {
  let sensed: Told;
  beforeAll(() => {
    sensed = told(scenario, acts, null);
  });

  it('are worth storing here', () => {
    expect(sensed.store.pulses.tick.length).toBeGreaterThan(50);
    expect(new Set(sensed.store.pulses.code).size).toBeGreaterThan(20);
    expect(sensed.digests).toHaveLength(3);
  });

  it('give the run that they come from, with the same digest at every minute', () => {
    const read = told(scenario, acts, sensed.store);
    expect(read.sensedFromTick).toBeNull();
    expect(read.events).toEqual(sensed.events);
    expect(read.digests).toEqual(sensed.digests);
  });

  it('survive JSON', () => {
    const store = JSON.parse(JSON.stringify(sensed.store)) as PulseStore;
    expect(told(scenario, acts, store)).toEqual({ ...told(scenario, acts, sensed.store), store });
  });

  for (const [name, change] of SETTINGS) {
    it(`give with ${name} what sensing gives, and are the same pulses`, () => {
      const other = withSettings(scenario, change);
      const read = told(other, acts, sensed.store);
      const fresh = told(other, acts, null);
      expect(read.sensedFromTick).toBeNull();
      expect(fresh.events).not.toEqual(sensed.events);
      expect(read.events).toEqual(fresh.events);
      expect(read.digests).toEqual(fresh.digests);
      expect(fresh.store).toEqual(sensed.store);
    });
  }

  it('stay good when a walk-test is begun, the supply fails, and a wall is painted', () => {
    const inputs = timed(
      [62, { kind: 'setReflectance', target: 'back', reflectance: 0.2 }],
      [70, { kind: 'walkTest', action: 'start' }],
      [420, { kind: 'supply', on: false }],
      [480, { kind: 'supply', on: true }],
    );
    const quiet = told(scenario, [], null);
    const read = told(scenario, inputs, quiet.store);
    const fresh = told(scenario, inputs, null);
    expect(fresh.events).not.toEqual(quiet.events);
    expect(read.sensedFromTick).toBeNull();
    expect(read.events).toEqual(fresh.events);
    expect(read.digests).toEqual(fresh.digests);
    expect(fresh.store).toEqual(quiet.store);
  });

  const TOUCHING: [name: string, tick: number, input: Input][] = [
    ['a mask', 330, { kind: 'setSettings', change: { maskedSectors: [0, 1, 2, 3, 4] } }],
    ['another place of the detector', 640, { kind: 'moveDetector', mount: { atM: [1, 1], heightM: 2.8, turnDeg: 30 } }],
    ['a warmer room', 600, { kind: 'setTemperature', airTemperatureC: 28 }],
    ['a moved desk', 599, { kind: 'moveFurniture', furnitureId: 'desk', atM: [1.4, 2.6] }],
    ['a shut door', 21, { kind: 'setDoor', doorId: 'door', open: false }],
    ['another plan', 100, { kind: 'setPlan', personId: 'A', plan: [{ act: 'walk', toM: [3, 3], speedMps: 0.5 }] }],
    ['a drawn blind', 250, { kind: 'setBlind', windowId: 'window', closedShare: 0.7 }],
    ['another sky', 300, { kind: 'setSky', sky: 'overcast' }],
    ['a moved sun', 500, { kind: 'moveSun', shiftS: 7200, localDate: '2026-06-20' }],
    ['a repainted desk top', 320, { kind: 'setReflectance', target: 'desk', reflectance: 0.8 }],
  ];
  for (const [name, tick, input] of TOUCHING) {
    it(`are read up to ${name} and sensed from there on`, () => {
      const inputs = [...acts, ...timed([tick, input])].sort((a, b) => a.tick - b.tick);
      const read = told(scenario, inputs, sensed.store);
      const fresh = told(scenario, inputs, null);
      // A mask is in force from the tick after the controller took it.
      expect(read.sensedFromTick).toBe(input.kind === 'setSettings' ? tick + 1 : tick);
      expect(read.events).toEqual(fresh.events);
      expect(read.digests).toEqual(fresh.digests);
      expect(read.store).toEqual(fresh.store);
    });
  }

  it('stay good when a locked controller refuses a mask, as they are in force or not', () => {
    const locked = withSettings(scenario, { settingsLock: 'handHeldOnly' });
    const inputs = timed([330, { kind: 'setSettings', change: { maskedSectors: [3] }, via: 'dial' }]);
    const quiet = told(locked, [], null);
    const read = told(locked, inputs, quiet.store);
    expect(read.sensedFromTick).toBeNull();
    expect(read.digests).toEqual(told(locked, inputs, null).digests);
  });

  it('are sensed anew once an act that touched sensing is left out, or comes at another tick', () => {
    const without = acts.filter((act) => act.input.kind !== 'setPlan');
    expect(told(scenario, without, sensed.store).sensedFromTick).toBe(900);
    const later = acts.map((act) => (act.input.kind === 'setPlan' ? { ...act, tick: 905 } : act));
    const read = told(scenario, later, sensed.store);
    expect(read.sensedFromTick).toBe(900);
    expect(read.digests).toEqual(told(scenario, later, null).digests);
  });

  it('go on by sensing where they end', () => {
    const short = runStored(scenario, null, 77.7, acts).store;
    expect(short.untilTick).toBe(777);
    const read = told(scenario, acts, short);
    expect(read.sensedFromTick).toBe(777);
    expect(read.digests).toEqual(sensed.digests);
    expect(read.store).toEqual(sensed.store);
    expect(short.untilTick).toBe(777);
  });

  it('are of no use to another room, seed or engine: all is sensed', () => {
    const warmer = { ...scenario, room: { ...scenario.room, airTemperatureC: 24 } };
    expect(startStoredRun(warmer, sensed.store).sensedFromTick).toBe(0);
    expect(startStoredRun(scenario, sensed.store, scenario.seed + 1).sensedFromTick).toBe(0);
    expect(startStoredRun(scenario, { ...sensed.store, engine: '0' }).sensedFromTick).toBe(0);
    expect(startStoredRun(scenario, sensed.store).sensedFromTick).toBeNull();
  });
});

describe('a state saved while stored pulses are read', () => {
  const store = runStored(scenario, null, 130, acts).store;

  function stateAt(tick: number): SimState {
    const run = startStoredRun(scenario, store);
    while (run.sim.state.tick < tick)
      stepStoredRun(
        run,
        acts.filter((act) => act.tick === run.sim.state.tick),
      );
    return JSON.parse(JSON.stringify(run.sim.state)) as SimState;
  }

  it('says between full minutes how old its memory is, and refuses to be sensed on', () => {
    const state = stateAt(650);
    expect(state.movementAsOfTick).toBe(600);
    const { sim } = startStoredRun(scenario, null);
    restoreState(sim, state);
    expect(() => stepSimulation(sim, [])).toThrow(RangeError);
  });

  it('is whole at a full minute, and can be sensed on from there', () => {
    const state = stateAt(600);
    expect(state.movementAsOfTick).toBeUndefined();
    const fresh = startStoredRun(scenario, null);
    while (fresh.sim.state.tick < 600)
      stepStoredRun(
        fresh,
        acts.filter((act) => act.tick === fresh.sim.state.tick),
      );
    expect(digestOf(state)).toBe(digestOf(fresh.sim.state));
    const { sim } = startStoredRun(scenario, null);
    restoreState(sim, state);
    for (let k = 0; k < 300; k++) {
      const inputs = acts.filter((act) => act.tick === sim.state.tick);
      expect(stepSimulation(sim, inputs).pulses).toEqual(stepSimulation(fresh.sim, inputs).pulses);
    }
    expect(digestOf(sim.state)).toBe(digestOf(fresh.sim.state));
  });

  it('never comes of pulses that do not fit: the tick is refused before it is worked', () => {
    const run = startStoredRun(scenario, store);
    const door = timed([0, { kind: 'setDoor', doorId: 'door', open: false }]);
    const before = digestOf(run.sim.state);
    expect(() => stepSimulation(run.sim, door)).toThrow(RangeError);
    expect(digestOf(run.sim.state)).toBe(before);
  });
});
