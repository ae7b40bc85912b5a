import { describe, expect, it } from 'vitest';
import { diskLibrary } from '../../src/cli/files.ts';
import { createSetup } from '../../src/engine/setup.ts';
import { createSimulation, digestOf, stepSimulation } from '../../src/engine/simulation.ts';
import { type PeopleDay, peopleDay, SKY_SHARES, WORKING_SHARE, yearDays } from '../../src/exercise/year/days.ts';
import { yearJob } from '../../src/exercise/year/job.ts';
import type { YearOrder } from '../../src/exercise/year/types.ts';
import { energyKwh, yearCells, yearLines, yearText } from '../../src/report/year.ts';
import { loadStory } from '../../src/scenario/load.ts';
import { smallStory } from '../support/smallStory.ts';

const scenario = smallStory();

function order(change: Partial<YearOrder> = {}): YearOrder {
  return { scenario, setup: createSetup(scenario), settings: scenario.settings, ...change };
}

/** Floor and desks so pale that no sun warms them: nothing behind people goes by the day. */
function paleSetup() {
  const setup = createSetup(scenario);
  const furniture = setup.furniture.map((piece) => ({ ...piece, reflectance: 0.999 }));
  return { ...setup, furniture, reflectance: { ...setup.reflectance, floor: 0.999 } };
}

/** A few minutes of the story's own people, from an hour of the clock. */
function minutes(startS: number): PeopleDay {
  const schedule = { kind: 'story' as const, people: 1, fromS: startS, toS: startS + 150 };
  return { schedule, people: scenario.people, startS, countFromS: 0, lastS: 150 };
}

function finish(job: ReturnType<typeof yearJob>) {
  while (!job.work(50_000)) {
    // goes on
  }
  return job.result();
}

describe('days that stand for a year', () => {
  const days = yearDays(scenario);

  it('are 36, and weigh as much as the working days of the year', () => {
    expect(days).toHaveLength(36);
    const weight = days.reduce((sum, day) => sum + day.weightDays, 0);
    expect(weight).toBeCloseTo(365 * WORKING_SHARE, 9);
    expect(Object.values(SKY_SHARES).reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12);
  });

  it('know a leap year', () => {
    const leap = yearDays({ ...scenario, start: { ...scenario.start, localDate: '2028-03-18' } });
    expect(leap.reduce((sum, day) => sum + day.weightDays, 0)).toBeCloseTo(366 * WORKING_SHARE, 9);
  });
});

describe('a year of days', () => {
  it('gives with pulses of one sensed day exactly what the whole engine gives on every day', () => {
    const days = yearDays(scenario);
    // Counted from the middle of the visit, so that a pulse at another instant would show as another length.
    const people = { ...minutes(12 * 3600), countFromS: 30 };
    const pale = order({ setup: paleSetup() });
    const reused = finish(yearJob(pale, { days, people }));
    const whole = finish(yearJob(pale, { days, people, reuse: false }));
    expect(reused).toEqual(whole);
    expect(reused.days.some((day) => day.inner.litS > 0)).toBe(true);
    // Days differ, or the comparison would be of one thing with itself.
    expect(new Set(reused.days.map((day) => day.inner.litS)).size).toBeGreaterThan(1);
  });

  it('neglects the sun of other days behind people, which moves no figure of a sunny room by a second', () => {
    const days = yearDays(scenario).filter((_, i) => i % 7 === 0);
    const people = { ...minutes(12 * 3600), countFromS: 30 };
    const reused = finish(yearJob(order(), { days, people })).days;
    const whole = finish(yearJob(order(), { days, people, reuse: false })).days;
    reused.forEach((day, i) => {
      expect(Math.abs(day.airS - whole[i]!.airS)).toBeLessThan(1);
      expect(Math.abs(day.inner.litS - whole[i]!.inner.litS)).toBeLessThan(1);
    });
  });

  it('leaves a run beside it as it is', () => {
    const alone = createSimulation(scenario);
    for (let tick = 0; tick < 1200; tick++) stepSimulation(alone, []);
    const beside = createSimulation(scenario);
    const job = yearJob(order(), { people: minutes(12 * 3600) });
    for (let tick = 0; tick < 1200; tick++) {
      stepSimulation(beside, []);
      job.work(60);
    }
    expect(job.result().days.length).toBeGreaterThan(0);
    expect(digestOf(beside.state)).toBe(digestOf(alone.state));
  });

  it('runs the room as it is now: closed blinds keep the window row on, other settings count', () => {
    const days = yearDays(scenario).filter(({ month, sky }) => month === 3 && sky === 'clear');
    const litS = (closedShare: number, settings = scenario.settings) => {
      const setup = { ...createSetup(scenario), blinds: [{ windowId: 'window', closedShare }] };
      return finish(yearJob(order({ setup, settings }), { days, people: minutes(16 * 3600) })).days[0]!.window.litS;
    };
    expect(litS(0)).toBe(0);
    expect(litS(1)).toBeGreaterThan(60);
    expect(litS(1, { ...scenario.settings, windowMode: 'manualOn' })).toBe(0);
  });
});

describe('the people of a day', () => {
  it('are those of a story that lasts a day, at its own hours', () => {
    const story = { ...scenario, endS: 9 * 3600 };
    const day = peopleDay(order({ scenario: story }));
    expect(day.schedule).toMatchObject({ kind: 'story', people: 1 });
    expect(day.people).toBe(story.people);
    expect(day.startS).toBe((8 * 60 + 40) * 60);
  });

  it('of a short story keep office hours, and every delay is over before the first of them comes', () => {
    const day = peopleDay(order());
    expect(day.schedule).toMatchObject({ kind: 'office', people: 1, fromS: 8 * 3600, toS: 17 * 3600 });
    expect(day.startS + day.countFromS).toBe(8 * 3600);
    const { warmUpS, airOffDelayS, innerOffDelayS } = scenario.settings;
    expect(day.countFromS).toBeGreaterThan(warmUpS + Math.max(airOffDelayS, innerOffDelayS));
    const [person] = day.people;
    const starts = person!.plan.flatMap((step) => (step.fromS === undefined ? [] : [step.fromS]));
    expect(starts).toEqual([...starts].sort((a, b) => a - b));
    expect(starts.map((s) => (day.startS + s) / 3600)).toEqual([8, 10, 12, 12.75, 15, 17]);
    expect(person!.plan.at(-1)!.act).toBe('leave');
  });

  it('sit on the chairs of their room, each on another', () => {
    const loaded = loadStory(diskLibrary(), 'sun-comes-round');
    if (!loaded.ok) throw new Error('sun-comes-round');
    const setup = createSetup(loaded.scenario);
    const { people } = peopleDay({ scenario: loaded.scenario, setup, settings: loaded.scenario.settings });
    const seats = people.map(({ plan }) => plan.find((step, i) => step.act === 'walk' && plan[i + 1]?.act === 'type'));
    const places = seats.map((step) => (step?.act === 'walk' ? step.toM.join() : ''));
    const chairs = setup.furniture.filter(({ kind }) => kind === 'chair').map(({ atM }) => atM.join());
    expect(new Set(places).size).toBe(people.length);
    for (const place of places) expect(chairs).toContain(place);
  });
});

describe('the year in words', () => {
  const row = { litS: 7200, daylightS: 3600, timesOn: 2 };
  const days = yearDays(scenario).map((day) => ({ ...day, inner: row, window: { ...row, litS: 0 }, airS: 1800 }));
  const result = {
    schedule: { kind: 'office' as const, people: 2, fromS: 28_800, toS: 61_500 },
    days,
    lamps: { inner: 3, window: 2 },
  };

  it('adds days by their weights, months to a year', () => {
    const lines = yearLines(result);
    expect(lines).toHaveLength(13);
    const workedDays = 365 * WORKING_SHARE;
    expect(lines[12]!.inner.litH).toBeCloseTo(2 * workedDays, 9);
    expect(lines[12]!.airH).toBeCloseTo(0.5 * workedDays, 9);
    expect(lines.slice(0, 12).reduce((sum, line) => sum + line.inner.timesOn, 0)).toBeCloseTo(2 * workedDays, 9);
  });

  it('speaks of kWh only once watts are known, and never of money or savings', () => {
    const without = yearText(result, null).join('\n');
    const withWatts = yearText(result, 30).join('\n');
    expect(without).not.toMatch(/kWh/);
    expect(withWatts).toMatch(/kWh/);
    expect(`${without}${withWatts}`).not.toMatch(/sav(e|ing)|cost|€|\$|money/i);
    expect(without).toMatch(/not a forecast/);
    expect(energyKwh(1000, 3, 30)).toBe(90);
    expect(yearCells(yearLines(result)[12]!, result.lamps, 30)).toContain(
      String(Math.round(2 * 365 * WORKING_SHARE * 0.09)),
    );
  });
});
