import { describe, expect, it } from 'vitest';
import { DAY_SAMPLE_S, DAY_SAMPLES, dayLightOf, daySample } from '../../src/engine/dayLight.ts';
import { createSimulation, digestOf, type Simulation, stepSimulation } from '../../src/engine/simulation.ts';
import { clockToSeconds } from '../../src/engine/skyClock.ts';
import type { ControllerSettings } from '../../src/engine/types.ts';
import { smallStory } from '../support/smallStory.ts';

const scenario = { ...smallStory(), sky: 'overcast' as const };

function simWith(change: Partial<ControllerSettings> = {}): Simulation {
  return createSimulation({ ...scenario, settings: { ...scenario.settings, ...change } });
}

function dayOf(sim: Simulation) {
  return dayLightOf(
    sim,
    Array.from({ length: DAY_SAMPLES }, (_, i) => daySample(sim, i)),
  );
}

describe('light over the whole day', () => {
  it('is what the run itself reads when it gets there, with the lamps as they are', () => {
    const clockS = 9 * 3600;
    const sim = simWith();
    const ticks = (clockS - clockToSeconds(scenario.start.localTime)) * 10;
    let step = stepSimulation(sim, []);
    while (sim.state.tick <= ticks) step = stepSimulation(sim, []);
    const day = dayOf(sim);
    const { inner, window } = day.courses.asNow;
    const i = clockS / DAY_SAMPLE_S;
    expect(inner.ceilingReadingLx[i]).toBeCloseTo(step.light.readings.innerLx, 6);
    expect(window.ceilingReadingLx[i]).toBeCloseTo(step.light.readings.windowLx, 6);
    expect(window.poorest!.lx[i]).toBeCloseTo(step.light.deskLx[0]!, 6);
  });

  it('reads the simulation and leaves it as it is', () => {
    const sim = simWith();
    const before = digestOf(sim.state);
    dayOf(sim);
    expect(digestOf(sim.state)).toBe(before);
  });

  it('is dark at night, brightest about noon, and lamps add the same lux to every hour', () => {
    const sim = simWith();
    sim.state.plant.windowLevel = 1;
    const { off, asNow } = dayOf(sim).courses;
    const lx = off.window.poorest!.lx;
    const doorLx = lx[0]!;
    const brightest = lx.indexOf(Math.max(...lx));
    expect(Math.abs(brightest * DAY_SAMPLE_S - 12.4 * 3600)).toBeLessThan(3600);
    expect(lx[brightest]! - doorLx).toBeGreaterThan(100);
    const added = asNow.window.poorest!.lx.map((value, i) => value - lx[i]!);
    for (const value of added) expect(value).toBeCloseTo(sim.tables.light.rowLx.window[2]!, 9);
  });

  it('keeps three quantities apart: reading x desk factor is the estimate, lamps are not in it', () => {
    const sim = simWith({ innerDeskFactor: 4 });
    const { off, bySetpoint } = dayOf(sim).courses;
    off.inner.ceilingReadingLx.forEach((reading, i) => {
      expect(off.inner.daylightEstimateLx[i]).toBeCloseTo(4 * reading, 9);
      expect(bySetpoint.inner.daylightEstimateLx[i]).toBeCloseTo(4 * reading, 9);
    });
    expect(Math.max(...bySetpoint.inner.level)).toBe(1);
  });

  it('switches by setpoint and release: on below the one, off from the other, as before in between', () => {
    const sim = simWith({ windowSetpointLx: 300, releaseMarginLx: 200, windowDeskFactor: 6 });
    const day = dayOf(sim);
    const { level, daylightEstimateLx } = day.courses.bySetpoint.window;
    expect(day.limits.window).toEqual({ setpointLx: 300, releaseLx: 500 });
    let kept = 0;
    level.forEach((is, i) => {
      const lx = daylightEstimateLx[i]!;
      if (lx < 300) expect(is).toBe(1);
      else if (lx >= 500) expect(is).toBe(0);
      else {
        expect(is).toBe(level[i - 1]);
        kept++;
      }
    });
    expect(level).toContain(0);
    expect(kept).toBeGreaterThan(0);
  });

  it('takes lamps for daylight where their share is not learned', () => {
    const sim = simWith({ lampShare: 'off', windowSetpointLx: null });
    const { bySetpoint } = dayOf(sim).courses;
    const { level, daylightEstimateLx, ceilingReadingLx } = bySetpoint.window;
    expect(level.every((is) => is === 1)).toBe(true);
    expect(daylightEstimateLx[0]).toBeCloseTo(ceilingReadingLx[0]! * scenario.settings.windowDeskFactor, 9);
    expect(daylightEstimateLx[0]).toBeGreaterThan(50);
  });
});
