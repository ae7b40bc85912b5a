/** Settings as a timeline writes them, and what the controller calls them. */
import type { ControllerSettings, RowMode, SettingsLock } from '../../engine/types.ts';
import { array, integer, number, object, onlyMembers, refuse, truth, word } from './check.ts';
import type { TimelineSettings } from './types.ts';

const MODES = new Map<string, RowMode>([
  ['auto-on/auto-off', 'autoOn'],
  ['manual-on/auto-off', 'manualOn'],
  ['short-impulse', 'shortImpulse'],
]);
const POLICIES = new Map<string, ControllerSettings['buttonPolicy']>([
  ['on-and-off', 'onAndOff'],
  ['on-only', 'onOnly'],
]);
const LOCKS = new Map<string, SettingsLock>([
  ['open', 'open'],
  ['dials only', 'dialsOnly'],
  ['hand-held only', 'handHeldOnly'],
]);
type Settings = Partial<ControllerSettings>;
type Reader = (value: unknown, path: string) => Settings;

function setpoint(value: unknown, path: string): number | null {
  if (value === 'brightness ignored') return null;
  if (typeof value !== 'number') refuse(path, 'a number >= 0 or "brightness ignored"', value);
  return number(value, path);
}

const READERS: Record<string, Reader> = {
  inner_mode: (v, p) => ({ innerMode: word(v, p, MODES) }),
  window_mode: (v, p) => ({ windowMode: word(v, p, MODES) }),
  inner_setpoint_lx: (v, p) => ({ innerSetpointLx: setpoint(v, p) }),
  window_setpoint_lx: (v, p) => ({ windowSetpointLx: setpoint(v, p) }),
  inner_off_delay_s: (v, p) => ({ innerOffDelayS: number(v, p) }),
  window_off_delay_s: (v, p) => ({ windowOffDelayS: number(v, p) }),
  delays_coupled: (v, p) => ({ delaysCoupled: truth(v, p) }),
  dark_dwell_s: (v, p) => ({ darkDwellS: number(v, p) }),
  bright_dwell_s: (v, p) => ({ brightDwellS: number(v, p) }),
  air_on_delay_s: (v, p) => ({ airOnDelayS: number(v, p) }),
  air_gap_limit_s: (v, p) => ({ airGapLimitS: number(v, p) }),
  air_off_delay_s: (v, p) => ({ airOffDelayS: number(v, p) }),
  button_policy: (v, p) => ({ buttonPolicy: word(v, p, POLICIES) }),
  one_button_for_both_rows: (v, p) => ({ oneButtonForBothRows: truth(v, p) }),
  reentry_grace_s: (v, p) => ({ reentryGraceS: number(v, p) }),
  reduced_sensitivity: (v, p) => ({ reducedSensitivity: truth(v, p) }),
  adaptive_delay: (v, p) => ({ adaptiveDelay: truth(v, p) }),
  masked_sectors: (v, p) => ({ maskedSectors: array(v, p).map((k, i) => integer(k, `${p}[${i}]`, 0, 11)) }),
  settings_lock: (v, p) => ({ settingsLock: word(v, p, LOCKS) }),
  warm_up_s: (v, p) => ({ warmUpS: number(v, p) }),
};

const ANGLE = 'mounting_angle_deg';

/** Reads a set of settings; unknown names and values are refused with their path. */
export function readSettings(value: unknown, path: string): TimelineSettings {
  const written = object(value, path);
  onlyMembers(written, path, [...Object.keys(READERS), ANGLE], 'setting');
  const read: TimelineSettings = { settings: {}, mountingAngleDeg: null };
  for (const [name, setting] of Object.entries(written)) {
    if (name === ANGLE) read.mountingAngleDeg = number(setting, `${path}.${name}`, -360, 360);
    else Object.assign(read.settings, READERS[name]?.(setting, `${path}.${name}`));
  }
  return read;
}
