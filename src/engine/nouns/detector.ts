/** The detector as data: its sensing part, its place, and the settings of its controller. */
import type { PointM } from './basics.ts';

/** What a data sheet of the sensing part would say; the rings are our own lens. */
export interface DetectorModel {
  id: string;
  rings: { nadirDeg: number; facets: number; areaCm2: number; staggerPitch: number }[];
  lensTransmittance: number;
  focalLengthMm: number;
  blurMm: number;
  elementWidthMm: number;
  elementLengthMm: number;
  elementSpacingMm: number;
  moduleTiltDeg: number;
  thermalTimeS: number;
  electricalTimeS: number;
  responsivityVPerW: number;
  highPassHz: number[];
  lowPassHz: number[];
  noiseUv: number;
  /** Comparator thresholds at factory sensitivity, µV at the chain output. */
  holdUv: number;
  switchOnUv: number;
  hysteresisShare: number;
  /** Both thresholds times this in reduced sensitivity. */
  reducedFactor: number;
  /** Two directional photometers: tilted this far from straight down, this half-angle, towards window and room. */
  photometerTiltDeg: number;
  photometerHalfAngleDeg: number;
  /** Share of their light that dirt or paint on the two light windows lets through, 0-1; absent: clean. */
  photometerClearShare?: number;
}

export interface DetectorMount {
  atM: PointM;
  heightM: number;
  /** Bearing of the window arrow in the room: 0 = towards the back wall, clockwise. */
  turnDeg: number;
}

export type RowMode = 'autoOn' | 'manualOn' | 'shortImpulse';
export type SettingsLock = 'open' | 'dialsOnly' | 'handHeldOnly';

export interface ControllerSettings {
  innerMode: RowMode;
  windowMode: RowMode;
  /** null = brightness ignored. */
  innerSetpointLx: number | null;
  windowSetpointLx: number | null;
  innerOffDelayS: number;
  windowOffDelayS: number;
  innerDeskFactor: number;
  windowDeskFactor: number;
  delaysCoupled: boolean;
  brightDwellS: number;
  darkDwellS: number;
  /** null = automatic: the larger of 40 lx and a fifth of the setpoint. */
  releaseMarginLx: number | null;
  lampShare: 'learned' | 'off';
  adaptiveDelay: boolean;
  reentryGraceS: number;
  airOnDelayS: number;
  airGapLimitS: number;
  airOffDelayS: number;
  buttonPolicy: 'onAndOff' | 'onOnly';
  oneButtonForBothRows: boolean;
  reducedSensitivity: boolean;
  /** Clip-on sectors, k covers bearings 30k to 30k+30 degrees from the window arrow, clockwise. */
  maskedSectors: number[];
  settingsLock: SettingsLock;
  warmUpS: number;
}
