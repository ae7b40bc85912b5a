/**
 * A year of 36 days, each run by the ordinary engine. People move alike on all of them, so their day is sensed once, on
 * the first of the 36, and its pulses are given to the other 35; that the sun of other days lies elsewhere behind people
 * is neglected. Works in slices, so that whoever runs it can
 * show how far it is and can stop. Knows no clock: what a slice may cost is counted in ticks.
 */
import { createSimulation, type Simulation, type StepResult, stepSimulation } from '../../engine/simulation.ts';
import type { Pulse, Scenario, Tick } from '../../engine/types.ts';
import { secondsToTicks, ticksToSeconds } from '../../engine/units.ts';
import { type PeopleDay, peopleDay, yearDays } from './days.ts';
import type { DayResult, RowDay, YearDay, YearOrder, YearResult } from './types.ts';

/** Nobody keeps a room lit for longer than this, ticks. Source: the length of a day. */
const DAY_TICKS = 864_000;
const NO_PULSES: Pulse[] = [];

function twoDigits(n: number): string {
  return n < 10 ? `0${n}` : `${n}`;
}

/** Seconds after midnight as HH:MM:SS. */
function clockText(s: number): string {
  return `${twoDigits(Math.floor(s / 3600))}:${twoDigits(Math.floor(s / 60) % 60)}:${twoDigits(Math.floor(s) % 60)}`;
}

/** The room as it is now, as a scenario to begin anew with: its script only draws the blinds as they are. */
export function furnished({ scenario, setup, settings }: YearOrder): Scenario {
  const { furniture, luminaires = scenario.room.luminaires, reflectance, airTemperatureC, radiantTemperatureC } = setup;
  const blinds = setup.blinds
    .filter((blind) => blind.closedShare > 0)
    .map(({ windowId, closedShare }) => ({ atS: 0, input: { kind: 'setBlind', windowId, closedShare } as const }));
  const doors = scenario.room.doors.map((door) => {
    const now = setup.doors.find((d) => d.doorId === door.id);
    return now ? { ...door, openAtStart: now.open } : door;
  });
  return {
    ...scenario,
    room: { ...scenario.room, doors, furniture, luminaires, reflectance, airTemperatureC, radiantTemperatureC },
    mount: setup.mount,
    settings,
    supplyAtStart: true,
    warmThings: setup.warmThings,
    script: blinds,
  };
}

/** The room as it is now, on one of the days, with the day's people. */
export function dayScenario(order: YearOrder, people: PeopleDay, day: YearDay): Scenario {
  const scenario = furnished(order);
  return {
    ...scenario,
    start: { ...scenario.start, localDate: day.localDate, localTime: clockText(people.startS) },
    sky: day.sky,
    people: people.people,
  };
}

interface RowCount {
  litTicks: number;
  daylightTicks: number;
  timesOn: number;
}

/** One day being run. */
interface Run {
  sim: Simulation;
  inner: RowCount;
  window: RowCount;
  airTicks: number;
  done: boolean;
}

function emptyRow(): RowCount {
  return { litTicks: 0, daylightTicks: 0, timesOn: 0 };
}

function startDay(order: YearOrder, people: PeopleDay, day: YearDay): Run {
  const sim = createSimulation(dayScenario(order, people, day));
  return { sim, inner: emptyRow(), window: emptyRow(), airTicks: 0, done: false };
}

function countRow(row: RowCount, lit: boolean, byDaylight: boolean): void {
  if (lit) row.litTicks++;
  if (byDaylight) row.daylightTicks++;
}

function count(run: Run, step: StepResult): void {
  const { inner, window, air } = run.sim.state.control;
  countRow(run.inner, inner.contactClosed, inner.state === 'daylightIsEnough');
  countRow(run.window, window.contactClosed, window.state === 'daylightIsEnough');
  if (air.contactClosed) run.airTicks++;
  for (const event of step.events) {
    if (event.kind !== 'output' || !event.on || event.output === 'airContact') continue;
    run[event.output === 'innerRow' ? 'inner' : 'window'].timesOn++;
  }
}

function rowDay({ litTicks, daylightTicks, timesOn }: RowCount): RowDay {
  return { litS: ticksToSeconds(litTicks), daylightS: ticksToSeconds(daylightTicks), timesOn };
}

function dayResult(run: Run, day: YearDay): DayResult {
  return { ...day, inner: rowDay(run.inner), window: rowDay(run.window), airS: ticksToSeconds(run.airTicks) };
}

function allOff(sim: Simulation): boolean {
  const { inner, window, air } = sim.state.control;
  return inner.state === 'waiting' && window.state === 'waiting' && !air.contactClosed;
}

/** Works one tick of a day; `pulses` null: sensed by this run itself. Returns what was sensed. */
function workTick(run: Run, people: PeopleDay, pulses: Map<Tick, Pulse[]> | null): StepResult {
  const { sim } = run;
  const { tick } = sim.state;
  const step = stepSimulation(sim, [], pulses ? (pulses.get(tick) ?? NO_PULSES) : null);
  if (tick >= secondsToTicks(people.countFromS)) count(run, step);
  run.done = (tick >= secondsToTicks(people.lastS) && allOff(sim)) || tick + 1 >= DAY_TICKS;
  return step;
}

export interface YearJob {
  /** Works about `ticks` ticks; true when the year is done. */
  work(ticks: number): boolean;
  /** 0-1, by ticks of work. */
  share(): number;
  /** Days done so far, in order; the 36 of them when `work` has said so. */
  result(): YearResult;
}

/** What sensing a tick costs, in ticks without. Source: measured on the drawing office with two people, 28 s against 1.2 s a day. */
const SENSED_COST = 24;

export interface YearOptions {
  days?: readonly YearDay[];
  people?: PeopleDay;
  /** False: all of the engine on every day, nothing reused; for checking. The figures are the same but for the sun that
   *  lies behind people, which is that of the first day otherwise. */
  reuse?: boolean;
}

export function yearJob(order: YearOrder, options: YearOptions = {}): YearJob {
  const { days = yearDays(order.scenario), people = peopleDay(order), reuse = true } = options;
  const results: DayResult[] = [];
  const pulses = new Map<Tick, Pulse[]>();
  const dayTicks = secondsToTicks(people.lastS);
  const costOf = (day: number) => (day === 0 || !reuse ? SENSED_COST : 1);
  const wholeCost = days.reduce((sum, _day, i) => sum + costOf(i), 0) * dayTicks;
  let doneCost = 0;
  let run: Run | null = null;
  const workOne = (): void => {
    run ??= startDay(order, people, days[results.length]!);
    const sensing = results.length === 0 || !reuse;
    const step = workTick(run, people, sensing ? null : pulses);
    if (sensing && reuse && step.pulses.length > 0) pulses.set(step.tick, [...step.pulses]);
    doneCost += costOf(results.length);
    if (!run.done) return;
    results.push(dayResult(run, days[results.length]!));
    run = null;
  };
  return {
    work: (ticks) => {
      for (let cost = 0; cost < ticks && results.length < days.length; cost += costOf(results.length)) workOne();
      return results.length >= days.length;
    },
    share: () => (results.length >= days.length ? 1 : Math.min(0.999, doneCost / Math.max(1, wholeCost))),
    result: () => ({
      schedule: people.schedule,
      days: [...results],
      lamps: {
        inner: order.scenario.room.luminaires.filter((l) => l.row === 'inner').length,
        window: order.scenario.room.luminaires.filter((l) => l.row === 'window').length,
      },
    }),
  };
}
