/**
 * The long run against the signal: half an hour at three seats in two climates, pulses stored under one off-delay and read
 * under another, beside the same time sensed. Nothing is tabulated or drawn by chance, so the two must agree exactly.
 */
import { describe, expect, it } from 'vitest';
import type { TraceEvent } from '../../src/engine/trace.ts';
import type { Scenario } from '../../src/engine/types.ts';
import { runStored, runWithSettings, withSettings } from '../../src/exercise/storedRun.ts';
import { officeDay } from '../support/officeDay.ts';

const FOR_S = 1800;

/** One person who has been at a desk this far right of the detector since the beginning. */
function seatedAt(radiusM: number, roomC: number): Scenario {
  const day = officeDay();
  const { room, mount } = day;
  return withSettings(
    {
      ...day,
      start: { ...day.start, localTime: '00:00:00' },
      room: { ...room, furniture: [], airTemperatureC: roomC, radiantTemperatureC: roomC },
      script: [],
      people: [
        {
          ...day.people[0]!,
          cameFromC: roomC,
          atM: [mount.atM[0] + radiusM, mount.atM[1] + 0.3],
          outsideAtStart: false,
          plan: [{ act: 'reach', headingDeg: 0, gestureEveryS: 45 }],
        },
      ],
    },
    { innerOffDelayS: 900, windowOffDelayS: 900 },
  );
}

const CHANGE = { innerOffDelayS: 60, windowOffDelayS: 180, airOnDelayS: 30, airOffDelayS: 120 };

function offs(events: readonly TraceEvent[]): string[] {
  return events.flatMap((e) => (e.kind === 'output' && !e.on ? [`${e.output} at ${e.tick}`] : []));
}

describe('half an hour at a seat, read and sensed', () => {
  const offsAt: number[] = [];
  for (const roomC of [20, 28]) {
    for (const radiusM of [1.5, 2.5, 3.5]) {
      it(`agrees at ${radiusM} m and ${roomC} °C in every pulse and every switching off`, () => {
        const scenario = seatedAt(radiusM, roomC);
        const { store } = runStored(scenario, null, FOR_S);
        const read = runWithSettings(store, scenario, CHANGE, FOR_S);
        const sensed = runStored(withSettings(scenario, CHANGE), null, FOR_S);
        expect(read.sensedFromTick).toBeNull();
        expect(store.pulses.tick.length).toBeGreaterThan(10);
        expect(offs(read.events)).toEqual(offs(sensed.events));
        expect(read.events).toEqual(sensed.events);
        expect(store.pulses).toEqual(sensed.store.pulses);
        offsAt.push(offs(read.events).length);
      });
    }
  }

  it('had lights going off on somebody, not equally often everywhere', () => {
    expect(Math.max(...offsAt)).toBeGreaterThan(4);
    expect(new Set(offsAt).size).toBeGreaterThan(2);
  });
});
