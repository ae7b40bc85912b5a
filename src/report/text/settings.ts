/** Settings: their names, their values as text. One table for the sheet, the events and the command line. */
import type { ControllerSettings } from '../../engine/types.ts';
import { luxText, minuteSecond } from './format.ts';
import { modeName } from './names.ts';

export const settingName: Record<keyof ControllerSettings, string> = {
  innerMode: 'Inner row mode',
  windowMode: 'Window row mode',
  innerSetpointLx: 'Inner row setpoint',
  windowSetpointLx: 'Window row setpoint',
  innerOffDelayS: 'Inner row off-delay',
  windowOffDelayS: 'Window row off-delay',
  innerDeskFactor: 'Inner row desk factor',
  windowDeskFactor: 'Window row desk factor',
  delaysCoupled: 'One off-delay for both rows',
  brightDwellS: 'Bright dwell',
  darkDwellS: 'Dark dwell',
  releaseMarginLx: 'Release margin',
  lampShare: 'Lamp share',
  adaptiveDelay: 'Adaptive off-delay',
  reentryGraceS: 'Re-entry grace',
  airOnDelayS: 'Air contact on-delay',
  airGapLimitS: 'Air contact gap limit',
  airOffDelayS: 'Air contact off-delay',
  buttonPolicy: 'Button policy',
  oneButtonForBothRows: 'One button for both rows',
  reducedSensitivity: 'Reduced sensitivity',
  maskedSectors: 'Masked sectors',
  settingsLock: 'Settings lock',
  warmUpS: 'Warm-up',
};

export const lockName: Record<ControllerSettings['settingsLock'], string> = {
  open: 'open',
  dialsOnly: 'dials only',
  handHeldOnly: 'hand-held only',
};

export const policyName: Record<ControllerSettings['buttonPolicy'], string> = {
  onAndOff: 'on and off',
  onOnly: 'on only',
};

export const shareName: Record<ControllerSettings['lampShare'], string> = {
  learned: 'learned at each switching',
  off: 'not taken off',
};

/** Bearings covered by a clip-on sector, from the window arrow, clockwise. */
export function sectorName(sector: number): string {
  return `${sector * 30}°–${sector * 30 + 30}°`;
}

/** Text of one setting's value. */
export function settingValue<K extends keyof ControllerSettings>(key: K, value: ControllerSettings[K]): string {
  switch (key) {
    case 'innerSetpointLx':
    case 'windowSetpointLx':
      return value === null ? 'brightness ignored' : luxText(value as number);
    case 'releaseMarginLx':
      return value === null ? 'automatic' : luxText(value as number);
    case 'innerMode':
    case 'windowMode':
      return modeName[value as ControllerSettings['innerMode']];
    case 'lampShare':
      return shareName[value as ControllerSettings['lampShare']];
    case 'buttonPolicy':
      return policyName[value as ControllerSettings['buttonPolicy']];
    case 'settingsLock':
      return lockName[value as ControllerSettings['settingsLock']];
    case 'innerDeskFactor':
    case 'windowDeskFactor':
      return (value as number).toFixed(1);
    case 'maskedSectors': {
      const sectors = value as number[];
      return sectors.length === 0 ? 'none' : sectors.map(sectorName).join(', ');
    }
    default:
      if (typeof value === 'boolean') return value ? 'yes' : 'no';
      return minuteSecond(value as number);
  }
}

export function settingChangeText(key: keyof ControllerSettings, change: Partial<ControllerSettings>): string {
  const value = change[key];
  return `${settingName[key]} ${value === undefined ? '' : settingValue(key, value)}`.trim();
}
