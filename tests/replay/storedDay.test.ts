/** Twenty-four hours in an office, sensed once, then run under five other settings: each as if it had been sensed. */
import { beforeAll, describe, expect, it } from 'vitest';
import { digestOf } from '../../src/engine/simulation.ts';
import type { ControllerSettings, Scenario } from '../../src/engine/types.ts';
import { secondsToTicks } from '../../src/engine/units.ts';
import { type RunResult, runStored, runWithSettings, withSettings } from '../../src/exercise/storedRun.ts';
import { officeDay } from '../support/officeDay.ts';

const DAY_S = 86400;
const MORNING_S = 5400;
/** A day takes some 5 s to sense. `HALFLIT_LONG=1` gives every setting its whole day, otherwise the first one alone. */
const WHOLE_DAYS = process.env.HALFLIT_LONG === '1';

const SETTINGS: Partial<ControllerSettings>[] = [
  { innerOffDelayS: 300, windowOffDelayS: 900 },
  { innerSetpointLx: 300, windowSetpointLx: 750, brightDwellS: 120 },
  { reducedSensitivity: true },
  { innerMode: 'manualOn', windowMode: 'shortImpulse' },
  { adaptiveDelay: true, airOnDelayS: 30, airOffDelayS: 300 },
];

/** Digests every half hour, and the run. */
function day(run: (each: NonNullable<Parameters<typeof runStored>[4]>) => RunResult) {
  const digests: string[] = [];
  const { events, sensedFromTick, store } = run((_, sim) => {
    if (sim.state.tick % 18_000 === 0 && sim.state.movementAsOfTick === undefined) digests.push(digestOf(sim.state));
  });
  return { events, sensedFromTick, store, digests };
}

describe('a day in the office', () => {
  const scenario: Scenario = officeDay();
  let first: ReturnType<typeof day>;
  beforeAll(() => {
    first = day((each) => runStored(scenario, null, DAY_S, [], each));
  }, 120_000);

  it('has people seen in the morning and in the afternoon, and nobody at night', () => {
    const hours = new Set(first.events.flatMap((e) => (e.kind === 'seen' ? [Math.floor(e.tick / 36_000)] : [])));
    for (const hour of [1, 3, 7]) expect(hours).toContain(hour);
    for (const hour of [12, 17, 23]) expect(hours).not.toContain(hour);
  });

  it.each(SETTINGS)(
    'is under %j what it would have been sensed, every event and every half hour',
    (change) => {
      const forS = WHOLE_DAYS || change === SETTINGS[0] ? DAY_S : MORNING_S;
      const read = day((each) => runWithSettings(first.store, scenario, change, forS, [], each));
      const fresh = day((each) => runStored(withSettings(scenario, change), null, forS, [], each));
      expect(read.sensedFromTick).toBeNull();
      // Thousands of events: compared as texts, which are told at once when they differ.
      const before = first.events.filter((event) => event.tick < secondsToTicks(forS));
      expect(JSON.stringify(fresh.events) === JSON.stringify(before)).toBe(false);
      expect(JSON.stringify(fresh.events) === JSON.stringify(read.events)).toBe(true);
      expect(read.digests).toHaveLength(Math.floor(forS / 1800));
      expect(read.digests).toEqual(fresh.digests);
    },
    120_000,
  );
});
