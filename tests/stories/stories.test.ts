/** Every bundled story keeps the promise that its question makes; events come from a run without a screen. */
import { describe, expect, it } from 'vitest';
import { storyFrom } from '../../src/cli/stories.ts';
import { createSimulation, digestOf, stepSimulation } from '../../src/engine/simulation.ts';
import type { OutputId } from '../../src/engine/types.ts';
import { secondsToTicks } from '../../src/engine/units.ts';
import { run, STORIES, seenAtS, story, switchings } from './support.ts';

describe('stories', () => {
  it('are at least five', () => {
    expect(STORIES.length).toBeGreaterThanOrEqual(5);
  });

  it.each(STORIES)('%s loads, asks in at most nine words, and runs the same twice', (path) => {
    const scenario = storyFrom(path)!;
    expect(scenario).not.toBeNull();
    expect(scenario.question.split(/\s+/).length).toBeLessThanOrEqual(9);
    const digests = [1, 2].map(() => {
      const sim = createSimulation(scenario);
      for (let tick = 0; tick < 1200; tick++) stepSimulation(sim, []);
      return digestOf(sim.state);
    });
    expect(digests[0]).toBe(digests[1]);
  });

  it.each(STORIES)('%s has at least 550 lx from its lamps alone at every desk', (path) => {
    const scenario = storyFrom(path)!;
    const night = {
      ...scenario,
      people: [],
      supplyAtStart: false,
      script: [{ atS: 1, input: { kind: 'supply', on: true } as const }],
      start: { ...scenario.start, localTime: '00:30:00' },
    };
    const sim = createSimulation(night);
    let deskLx: number[] = [];
    for (let tick = 0; tick < 60; tick++) deskLx = stepSimulation(sim, []).light.deskLx;
    expect(Math.min(...deskLx)).toBeGreaterThanOrEqual(550);
  });
});

describe('winter-walk-in', () => {
  it('lights both rows when someone walks in, and the air contact half a minute after the first movement', () => {
    const events = run(story('winter-walk-in'), 60);
    const [inner] = switchings(events, 'innerRow');
    const [window] = switchings(events, 'windowRow');
    const [air] = switchings(events, 'airContact');
    expect(inner).toMatchObject({ on: true, why: 'seenAndDark' });
    expect(window).toMatchObject({ on: true, why: 'seenAndDark' });
    expect(inner!.atS).toBeLessThanOrEqual(6);
    expect(air).toMatchObject({ on: true, why: 'onDelayOver' });
    const firstSeenS = events.find((e) => e.kind === 'seen')!.tick / 10;
    expect(air!.atS).toBeCloseTo(firstSeenS + 30, 5);
  });
});

describe('sun-comes-round', () => {
  it('releases the window row by daylight while the inner row stays on', () => {
    const events = run(story('sun-comes-round'), 4500);
    expect(switchings(events, 'windowRow').at(-1)).toMatchObject({ on: false, why: 'brightLongEnough' });
    expect(switchings(events, 'innerRow')).toEqual([expect.objectContaining({ on: true })]);
  });
});

describe('quiet-reader', () => {
  it('goes dark on the reader once, comes back with a greater movement, and later is seen just in time', () => {
    const scenario = story('quiet-reader');
    const events = run(scenario, scenario.endS);
    const [, dark, relit, ...more] = switchings(events, 'innerRow');
    expect(dark).toMatchObject({ on: false, why: 'nobodySeen' });
    expect(relit).toMatchObject({ on: true, why: 'seenAndDark' });
    expect(relit!.atS - dark!.atS).toBeLessThan(120);
    expect(more).toEqual([]);
    const later = seenAtS(events).filter((atS) => atS >= relit!.atS);
    const gaps = later.slice(1).map((atS, i) => atS - later[i]!);
    expect(Math.max(...gaps)).toBeGreaterThan(0.9 * scenario.settings.innerOffDelayS);
  });
});

describe('meeting-and-fan', () => {
  it('switches the rows off after the last movement and the air contact later, each for want of movement', () => {
    const events = run(story('meeting-and-fan'), 1800);
    const lastSeenS = events.filter((e) => e.kind === 'seen').at(-1)!.tick / 10;
    const off = (output: OutputId) => switchings(events, output).at(-1)!;
    expect(off('innerRow')).toMatchObject({ on: false, why: 'nobodySeen' });
    expect(off('innerRow').atS).toBeCloseTo(lastSeenS + 300, 5);
    expect(off('windowRow').atS).toBeCloseTo(lastSeenS + 300, 5);
    expect(off('airContact')).toMatchObject({ on: false, why: 'nobodySeen' });
    expect(off('airContact').atS).toBeCloseTo(lastSeenS + 900, 5);
  });
});

describe('it-goes-out-on-us', () => {
  it('goes dark on the reader within seven minutes, with no pulse for the whole off-delay before', () => {
    const events = run(story('it-goes-out-on-us'), 420);
    const off = switchings(events, 'innerRow').find((s) => !s.on)!;
    expect(off).toMatchObject({ why: 'nobodySeen' });
    const before = events.filter((e) => e.kind === 'seen' && e.tick / 10 < off.atS).at(-1)!;
    expect(off.atS - before.tick / 10).toBeCloseTo(300, 5);
  });

  it('stays lit all morning with an off-delay of ten minutes', () => {
    const scenario = story('it-goes-out-on-us');
    const events = run(scenario, scenario.endS, { innerOffDelayS: 600, windowOffDelayS: 600 });
    expect(switchings(events, 'innerRow')).toEqual([expect.objectContaining({ on: true })]);
    expect(switchings(events, 'windowRow')).toEqual([expect.objectContaining({ on: true })]);
  });
});

describe('why-only-one-row', () => {
  it('keeps the window row off for daylight and the inner row on, from the first movement to the end', () => {
    const scenario = story('why-only-one-row');
    const events = run(scenario, scenario.endS);
    expect(switchings(events, 'windowRow')).toEqual([]);
    expect(switchings(events, 'innerRow')).toEqual([expect.objectContaining({ on: true, why: 'seenAndDark' })]);
    expect(events.some((e) => e.kind === 'row' && e.row === 'window' && e.to === 'daylightIsEnough')).toBe(true);
  });
});

describe('white-paper', () => {
  it('raises the ceiling reading by a fifth or more and the light on the table by less than a twelfth', () => {
    const scenario = story('white-paper');
    const sim = createSimulation({ ...scenario, people: [] });
    const at = (s: number) => {
      let light = stepSimulation(sim, []).light;
      while (sim.state.tick < secondsToTicks(s)) light = stepSimulation(sim, []).light;
      return { readingLx: light.readings.innerLx, deskLx: light.deskLx[0]! };
    };
    const before = at(590);
    const after = at(620);
    expect(after.readingLx / before.readingLx).toBeGreaterThan(1.2);
    expect(after.deskLx / before.deskLx).toBeLessThan(1 + 1 / 12);
  });

  it('makes the inner row let go, though the table is no brighter', () => {
    const events = run(story('white-paper'), 1200);
    const off = switchings(events, 'innerRow').find((s) => !s.on)!;
    expect(off).toMatchObject({ why: 'brightLongEnough' });
    expect(off.atS).toBeCloseTo(900, 0);
  });
});

describe('set-at-night', () => {
  it('lets the window row go while its poorest desk has less daylight than the setpoint', () => {
    const scenario = story('set-at-night');
    const sim = createSimulation(scenario);
    let released = false;
    for (let tick = 0; tick < secondsToTicks(scenario.endS) && !released; tick++) {
      const { events } = stepSimulation(sim, []);
      released = events.some((e) => e.kind === 'output' && e.output === 'windowRow' && !e.on);
    }
    expect(released).toBe(true);
    // The inner row is put out by its button: what is left on the desks is daylight.
    const input = { kind: 'press', input: 'inner' } as const;
    let deskLx: number[] = [];
    for (let k = 0; k < 20; k++) {
      const { tick } = sim.state;
      deskLx = stepSimulation(sim, k === 0 ? [{ tick, serial: 0, input }] : []).light.deskLx;
    }
    const windowDesks = scenario.room.deskPoints.flatMap((d, i) => (d.row === 'window' ? [deskLx[i]!] : []));
    expect(Math.min(...windowDesks)).toBeLessThan(scenario.settings.windowSetpointLx! * 0.9);
  });
});

describe('hunting', () => {
  it('switches the window row dozens of times on a smooth morning', () => {
    const flips = switchings(run(story('hunting'), 9000), 'windowRow');
    expect(flips.length).toBeGreaterThan(24);
  });

  it('switches it off once and for good with the lamp share learned and the automatic margin', () => {
    const scenario = story('hunting');
    const flips = switchings(
      run(scenario, scenario.endS, { lampShare: 'learned', releaseMarginLx: null }),
      'windowRow',
    );
    expect(flips.map((f) => f.on)).toEqual([true, false]);
  });
});
