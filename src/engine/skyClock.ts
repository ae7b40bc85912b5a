/** Stage 2 of the tick: the sun's own clock, and fresh samples of sun and sky every ten seconds of room time. */
import { localToUtcMs } from './calendar.ts';
import { type SkyMoment, sampleSky } from './light/light.ts';
import type { LightTables, SkySample } from './light/types.ts';
import type { Scenario, Setup, SimState, Tick } from './types.ts';
import { ticksToSeconds } from './units.ts';

/** Sky and sun are taken this often, in ticks, and interpolated between. Source: decision of the product, 10 s. */
export const SKY_EVERY_TICKS = 100;

/** "08:30" as seconds after midnight. */
export function clockToSeconds(clock: string): number {
  const [hours = '0', minutes = '0', seconds = '0'] = clock.split(':');
  return Number(hours) * 3600 + Number(minutes) * 60 + Number(seconds);
}

/** Local time of the room's clock at a tick, s after midnight of the first day (may pass 86400). */
export function roomClockS(scenario: Scenario, tick: Tick): number {
  return clockToSeconds(scenario.start.localTime) + ticksToSeconds(tick);
}

/** Where sun and sky stand at a tick: the room's clock, moved by whoever moved the sun. */
export function skyMoment(scenario: Scenario, setup: Setup, seed: number, tick: Tick): SkyMoment {
  const sunLocalS = roomClockS(scenario, tick) + setup.sunShiftS;
  return {
    tick,
    utcMs: localToUtcMs(setup.sunLocalDate, sunLocalS, scenario.start.utcOffsetH),
    sky: setup.sky,
    seed,
  };
}

/** Samples kept for each room. Assumed: a day has 8,640; more only costs memory (some 300 bytes each). */
const MOST_SAMPLES = 10_000;
const taken = new WeakMap<LightTables, Map<string, SkySample>>();

/** A sample is a pure function of room and moment: going back, or the same day under other settings, never asks twice. */
function sampleOnce(tables: LightTables, moment: SkyMoment, setup: Setup): SkySample {
  const samples = taken.get(tables) ?? new Map<string, SkySample>();
  if (samples.size === 0) taken.set(tables, samples);
  const key = `${moment.tick} ${moment.utcMs} ${moment.sky} ${moment.seed}`;
  const known = samples.get(key);
  if (known) return known;
  const sample = sampleSky(tables, moment, setup);
  if (samples.size >= MOST_SAMPLES) samples.clear();
  samples.set(key, sample);
  return sample;
}

export function moveSky(scenario: Scenario, state: SimState, tables: LightTables, changed: boolean): void {
  const { light, setup, seed, tick } = state;
  const due = tick >= light.after.tick;
  if (!due && !changed) return;
  const start = tick - (tick % SKY_EVERY_TICKS);
  const take = (at: Tick) => sampleOnce(tables, skyMoment(scenario, setup, seed, at), setup);
  light.before = due && !changed ? light.after : take(start);
  light.after = take(start + SKY_EVERY_TICKS);
}
