/** What a story may leave out. */
import type { ControllerSettings, Site } from '../engine/types.ts';

/**
 * Settings of a detector fresh from its box in our rooms. Ranges stand in `schemas/settings.ts`.
 * Assumed: setpoints, delays and dwells as in the controller's own acceptance timelines, so that a story, a timeline
 * and the Set-up Sheet begin at the same numbers; a larger off-delay hides unseen sitters, a smaller one annoys them.
 */
export const DEFAULT_SETTINGS: ControllerSettings = {
  innerMode: 'autoOn',
  windowMode: 'autoOn',
  innerSetpointLx: 500,
  windowSetpointLx: 500,
  innerOffDelayS: 300,
  windowOffDelayS: 300,
  innerDeskFactor: 3,
  windowDeskFactor: 3,
  delaysCoupled: false,
  brightDwellS: 300,
  darkDwellS: 30,
  releaseMarginLx: null,
  lampShare: 'learned',
  adaptiveDelay: false,
  reentryGraceS: 10,
  airOnDelayS: 180,
  airGapLimitS: 120,
  airOffDelayS: 900,
  buttonPolicy: 'onAndOff',
  oneButtonForBothRows: false,
  reducedSensitivity: false,
  maskedSectors: [],
  settingsLock: 'open',
  warmUpS: 25,
};

/**
 * An open site on ordinary ground. Assumed: ground 0.2 is common practice without snow (twice that gives the ceiling
 * a fifth more); nothing opposite; a rendered façade would reflect 0.3.
 */
export const DEFAULT_SITE: Omit<Site, 'latitudeDeg' | 'longitudeDeg'> = {
  groundReflectance: 0.2,
  obstructionAltitudeDeg: 0,
  obstructionReflectance: 0.3,
};

/** Speed that Run begins with. Assumed: people are watched at the pace they walk. */
export const DEFAULT_SPEED = 1;
/** Seed of a story that names none. Assumed: any fixed number; a changing one would make classes differ. */
export const DEFAULT_SEED = 1;
