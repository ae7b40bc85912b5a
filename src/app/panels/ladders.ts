/** Steps of the settings: what one press on plus or minus goes to. Nobody has to type a number. */
import type { ControllerSettings } from '../../engine/types.ts';

/** Settings that are a number. */
export type NumberSetting =
  | 'innerSetpointLx'
  | 'windowSetpointLx'
  | 'innerOffDelayS'
  | 'windowOffDelayS'
  | 'innerDeskFactor'
  | 'windowDeskFactor'
  | 'brightDwellS'
  | 'darkDwellS'
  | 'releaseMarginLx'
  | 'reentryGraceS'
  | 'airOnDelayS'
  | 'airGapLimitS'
  | 'airOffDelayS';

const range = (from: number, to: number, step: number): number[] =>
  Array.from({ length: Math.round((to - from) / step) + 1 }, (_, i) => Math.round((from + i * step) * 100) / 100);

const setpoints = [...range(10, 100, 10), ...range(150, 1000, 50)];
const offDelays = [60, 120, 180, 240, 300, 420, 600, 900, 1200, 1500, 1800];
const factors = [...range(0.5, 5, 0.1), ...range(5.5, 10, 0.5), ...range(11, 20, 1)];

/** Rising values between the limits of the controller. Source of the limits: the product's own settings. */
export const ladders: Record<NumberSetting, readonly number[]> = {
  innerSetpointLx: setpoints,
  windowSetpointLx: setpoints,
  innerOffDelayS: offDelays,
  windowOffDelayS: offDelays,
  innerDeskFactor: factors,
  windowDeskFactor: factors,
  brightDwellS: [60, 120, 180, 300, 420, 600, 900, 1200, 1800],
  darkDwellS: [5, 10, 20, 30, 45, 60, 90, 120],
  releaseMarginLx: [40, 60, 80, 100, 150, 200, 300],
  reentryGraceS: [0, 5, 10, 20, 30, 60],
  airOnDelayS: [0, 30, 60, 120, 180, 240, 300, 420, 600],
  airGapLimitS: [10, 30, 60, 120, 180, 300],
  airOffDelayS: [60, 120, 300, 600, 900, 1200, 1800, 2700, 3600, 5400, 7200],
};

/** Next step of a ladder above (or below) a value that may lie between two steps; the end stays the end. */
export function nextStep(ladder: readonly number[], value: number, direction: 1 | -1): number {
  if (direction === 1) return ladder.find((v) => v > value + 1e-9) ?? value;
  for (let i = ladder.length - 1; i >= 0; i--) {
    const v = ladder[i]!;
    if (v < value - 1e-9) return v;
  }
  return value;
}

/** Where a setting that is switched off (null) comes back. */
export const NULL_RETURNS_TO: Partial<Record<NumberSetting, number>> = {
  innerSetpointLx: 500,
  windowSetpointLx: 500,
  releaseMarginLx: 100,
};

export function numberOf(settings: ControllerSettings, key: NumberSetting): number | null {
  return settings[key];
}
