/**
 * Where the sun stands. The ephemeris is the `astronomy-engine` package (MIT; checked by its author against NOVAS and
 * JPL Horizons); this file is the only place that touches it. It computes with the host's own sine and cosine, whose
 * last digit may differ between machines, so every angle is rounded to 1e-5 degrees as it enters the engine.
 */
import {
  AstroTime,
  Body,
  Equator,
  EquatorFromVector,
  GeoVector,
  Horizon,
  HourAngle,
  Observer,
  Refraction,
  RotateVector,
  Rotation_EQJ_EQD,
} from 'astronomy-engine';
import { cos, sin } from '../../math.ts';
import { degToRad, wrapDeg } from '../../units.ts';

/** Angles of the sun enter the engine in this step, degrees. Assumed: 1e-5; a larger step would be visible in nothing
 *  below 0.1 degrees, a much smaller one could let last-digit differences between machines through. */
export const SUN_ANGLE_STEP_DEG = 1e-5;
const STEPS_PER_DEG = 100_000;

/** Unix time of the epoch J2000 as the package counts it (2000-01-01 12:00 UTC), ms. Source: IAU epoch J2000.0. */
const J2000_UTC_MS = 946_728_000_000;
const DAY_MS = 86_400_000;

/** Air pressure for which the standard refraction holds, mbar. Source: Saemundsson's formula, quoted for this air. */
export const STANDARD_PRESSURE_MBAR = 1010;
/** Air temperature for which the standard refraction holds, degrees C. Source: as the pressure. */
export const STANDARD_TEMPERATURE_C = 10;

export interface SunPosition {
  /** Above the horizon. */
  altitudeDeg: number;
  /** From true north, clockwise: east 90. */
  azimuthDeg: number;
}

export interface SunOptions {
  /** Lift by the air; default true. */
  refraction?: boolean;
  elevationM?: number;
  pressureMbar?: number;
  temperatureC?: number;
}

function astroTime(utcMs: number): AstroTime {
  return new AstroTime((utcMs - J2000_UTC_MS) / DAY_MS);
}

function roundToStep(deg: number): number {
  return Math.round(deg * STEPS_PER_DEG) / STEPS_PER_DEG;
}

/**
 * Topocentric position of the sun's centre. `utcMs`: Unix time. Longitude is positive to the east.
 * Refraction scales with air density, pressure / 1010 mbar x 283 K / temperature. Good to 0.001 degrees for
 * altitudes above 2 degrees; nearer the horizon real refraction wanders by tenths of a degree.
 */
export function sunPosition(
  utcMs: number,
  latitudeDeg: number,
  longitudeDeg: number,
  options: SunOptions = {},
): SunPosition {
  const time = astroTime(utcMs);
  const observer = new Observer(latitudeDeg, longitudeDeg, options.elevationM ?? 0);
  const equator = Equator(Body.Sun, time, observer, true, true);
  const { altitude, azimuth } = Horizon(time, observer, equator.ra, equator.dec);
  let altitudeDeg = altitude;
  if (options.refraction !== false) {
    const density =
      ((options.pressureMbar ?? STANDARD_PRESSURE_MBAR) / STANDARD_PRESSURE_MBAR) *
      ((273 + STANDARD_TEMPERATURE_C) / (273 + (options.temperatureC ?? STANDARD_TEMPERATURE_C)));
    altitudeDeg += density * Refraction('normal', altitude);
  }
  return { altitudeDeg: roundToStep(altitudeDeg), azimuthDeg: wrapDeg(roundToStep(azimuth)) };
}

/** Unit vector towards a point of the sky: x east, y north, z up. */
export function skyDirection(altitudeDeg: number, azimuthDeg: number): [x: number, y: number, z: number] {
  const altitudeRad = degToRad(altitudeDeg);
  const azimuthRad = degToRad(azimuthDeg);
  return [cos(altitudeRad) * sin(azimuthRad), cos(altitudeRad) * cos(azimuthRad), sin(altitudeRad)];
}

/** Apparent minus mean solar time, minutes: positive when a sundial is ahead of the clock. */
export function equationOfTimeMin(utcMs: number): number {
  const hourAngleH = HourAngle(Body.Sun, astroTime(utcMs), new Observer(0, 0, 0));
  const utcH = (((utcMs % DAY_MS) + DAY_MS) % DAY_MS) / 3_600_000;
  const differenceH = (((hourAngleH - (utcH - 12) + 12) % 24) + 24) % 24;
  return roundToStep((differenceH - 12) * 60);
}

/** Apparent geocentric declination of the sun, equator of date, degrees. */
export function declinationDeg(utcMs: number): number {
  const time = astroTime(utcMs);
  return roundToStep(EquatorFromVector(RotateVector(Rotation_EQJ_EQD(time), GeoVector(Body.Sun, time, true))).dec);
}
