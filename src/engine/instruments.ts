/** Instruments held into a run: what they read at the shown instant. They look at state and tables and change neither. */
import type { DetectorView, ReadingParts } from './light/detectorParts.ts';
import { daylitRoom, readingParts, roomExitance } from './light/detectorShares.ts';
import { detectorView } from './light/detectorView.ts';
import { type BetweenSkies, probeLight } from './light/probe.ts';
import type { ProbePlace, ProbeReading } from './light/probePlace.ts';
import type { Simulation, StepResult } from './simulation.ts';
import { skyMoment } from './skyClock.ts';

/** The shown tick lies between two samples of the sky; the same share as the readings of the detector use. */
function betweenSkies(sim: Simulation): BetweenSkies {
  const { scenario, state } = sim;
  const { before, after } = state.light;
  const tick = Math.max(0, state.tick - 1);
  const span = after.tick - before.tick;
  return {
    before: skyMoment(scenario, state.setup, state.seed, before.tick),
    after: skyMoment(scenario, state.setup, state.seed, after.tick),
    share: span > 0 ? Math.min(1, Math.max(0, (tick - before.tick) / span)) : 0,
  };
}

/** Lamps as the readings of this instant were taken with. `step`: what the last tick brought, null right after a seek. */
function lampLevels(sim: Simulation, step: StepResult | null): { inner: number; window: number } {
  return step?.lamps ?? { inner: sim.state.plant.innerLevel, window: sim.state.plant.windowLevel };
}

/** Lux at places at the shown instant, in the light that the desk points have at it. */
export function probesOf(sim: Simulation, step: StepResult | null, places: readonly ProbePlace[]): ProbeReading[] {
  if (places.length === 0) return [];
  return probeLight(sim.tables.light, betweenSkies(sim), lampLevels(sim, step), sim.state.setup, places);
}

/** What one photometer sees, and what its reading is made of. */
export interface PhotometerView {
  view: DetectorView;
  parts: ReadingParts;
}

/** Both photometers at the shown instant. */
export function photometersOf(
  sim: Simulation,
  step: StepResult | null,
): { inner: PhotometerView; window: PhotometerView } {
  const tables = sim.tables.light;
  const { before, after, share } = betweenSkies(sim);
  const levels = lampLevels(sim, step);
  const { doors } = sim.state.setup;
  const first = daylitRoom(tables, before);
  const days = { before: first, after: share > 0 ? daylitRoom(tables, after) : first, share };
  const day = share > 0.5 ? days.after : days.before;
  const exitance = roomExitance(tables, day, levels, doors);
  const one = (which: 0 | 1): PhotometerView => ({
    view: detectorView(tables, day, exitance, levels, which),
    parts: readingParts(tables, days, levels, doors, which),
  });
  return { inner: one(0), window: one(1) };
}
