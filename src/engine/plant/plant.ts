/** Lamps and air unit follow what they are fed. Until the mains circuit is solved (a later room), a closed contact feeds its row. */
import type { PlantState } from './types.ts';

/**
 * Light output gained per tick at switch-on: full output after 0.4 s.
 * Assumed: LED drivers start within about half a second; slower, and the lamp share would be learned from a lamp still rising.
 */
const LEVEL_PER_TICK = 0.25;

export function createPlant(): PlantState {
  return { innerLevel: 0, windowLevel: 0, airRunning: false };
}

export function drivePlant(plant: PlantState, contacts: { inner: boolean; window: boolean; air: boolean }): void {
  plant.innerLevel = contacts.inner ? Math.min(1, plant.innerLevel + LEVEL_PER_TICK) : 0;
  plant.windowLevel = contacts.window ? Math.min(1, plant.windowLevel + LEVEL_PER_TICK) : 0;
  plant.airRunning = contacts.air;
}
