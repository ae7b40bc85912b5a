/** Settings of the controller as a file may change them; the ranges are the device's own. */
import type * as z from 'zod/mini';
import type { ControllerSettings } from '../../engine/types.ts';
import { between, list, oneOf, optional, orNull, shape, wholeBetween, yesNo } from './words.ts';

const mode = () => optional(oneOf(['autoOn', 'manualOn', 'shortImpulse']));
const setpoint = () => optional(orNull(between(10, 1000, 'lx'), 'a number from 10 to 1000 lx'));
const offDelay = () => optional(between(60, 1800, 's'));
const deskFactor = () => optional(between(0.5, 20, ''));

export const settingsChange = shape(
  {
    innerMode: mode(),
    windowMode: mode(),
    innerSetpointLx: setpoint(),
    windowSetpointLx: setpoint(),
    innerOffDelayS: offDelay(),
    windowOffDelayS: offDelay(),
    innerDeskFactor: deskFactor(),
    windowDeskFactor: deskFactor(),
    delaysCoupled: optional(yesNo()),
    brightDwellS: optional(between(60, 1800, 's')),
    darkDwellS: optional(between(5, 120, 's')),
    releaseMarginLx: optional(orNull(between(20, 500, 'lx'), 'a number from 20 to 500 lx')),
    lampShare: optional(oneOf(['learned', 'off'])),
    adaptiveDelay: optional(yesNo()),
    reentryGraceS: optional(between(0, 60, 's')),
    airOnDelayS: optional(between(0, 600, 's')),
    airGapLimitS: optional(between(1, 600, 's')),
    airOffDelayS: optional(between(60, 7200, 's')),
    buttonPolicy: optional(oneOf(['onAndOff', 'onOnly'])),
    oneButtonForBothRows: optional(yesNo()),
    reducedSensitivity: optional(yesNo()),
    maskedSectors: optional(list(wholeBetween(0, 11), 'sectors', 12)),
    settingsLock: optional(oneOf(['open', 'dialsOnly', 'handHeldOnly'])),
    warmUpS: optional(between(0, 120, 's')),
  },
  'settings to change',
) satisfies z.ZodMiniType<Partial<ControllerSettings>>;
