/**
 * How bright sky and sun are. These are typical values of a sky condition, not a forecast: real skies of the same kind
 * may be half or twice as bright.
 */
import { cos, exp, PI, pow, sin, sqrt } from '../../math.ts';
import type { SkyCondition } from '../../types.ts';
import { degToRad } from '../../units.ts';
import { cloudsAt } from './clouds.ts';

/** Illuminance of the sun outside the air at mean distance, lx. Source: IES model, 127.5 klx, from memory. */
export const EXTRATERRESTRIAL_LX = 127_500;

/** Extinction per air mass. Source: IES clear sky 0.21, from memory. Larger: a weaker sun, above all a low one. */
export const CLEAR_EXTINCTION = 0.21;
/** Extinction per air mass in haze. Assumed: 0.35, the hazy end of clear skies. */
export const HAZY_EXTINCTION = 0.35;
/** Share of the beam that haze takes out and the sky gives back downwards. Assumed: 0.5; 0 makes haze darken the sky. */
export const HAZE_RETURNED_SHARE = 0.5;
/** Part of the clear level by which a cloud edge beside the sun may raise the sky, at most. Assumed: 0.3. */
export const EDGE_RAISE_MAX = 0.3;

/** Horizontal sky illuminance at -6 degrees sun altitude (end of civil twilight), lx. Source: about 3 lx, from memory. */
export const CIVIL_TWILIGHT_LX = 3;
/** Floor at night, lx. Assumed: 0.01 (no moon, some sky glow); nothing in the room reacts below 1 lx. */
export const NIGHT_LX = 0.01;

/** A + B sin^C, lx. Source: IES calculation of daylight (clear, partly cloudy, overcast), constants from memory. */
const SKY_LEVEL = {
  clear: { a: 800, b: 15_500, c: 0.5 },
  partlyCloudy: { a: 300, b: 45_000, c: 1 },
  overcast: { a: 300, b: 21_000, c: 1 },
} as const;
export type SkyLevel = keyof typeof SKY_LEVEL;

/** Horizontal illuminance of the sky alone, lx, sun at or above the horizon. */
export function skyHorizontalLx(level: SkyLevel, sunAltitudeDeg: number): number {
  const { a, b, c } = SKY_LEVEL[level];
  const sinAltitude = sunAltitudeDeg > 0 ? sin(degToRad(sunAltitudeDeg)) : 0;
  return a + b * (c === 1 ? sinAltitude : sqrt(sinAltitude));
}

/** Air passed by the beam, in zenith air masses, curved atmosphere. Source: Kasten & Young 1989, from memory. */
export function airMassKastenYoung(sunAltitudeDeg: number): number {
  const base = sunAltitudeDeg + 6.07995;
  return 1 / (sin(degToRad(sunAltitudeDeg)) + 0.50572 * pow(base, -1.6364));
}

/** Factor for the distance of the sun. Source: 1 + 0.034 cos(2 pi (J - 2) / 365), from memory. */
export function extraterrestrialFactor(dayOfYear: number): number {
  return 1 + 0.034 * cos((2 * PI * (dayOfYear - 2)) / 365);
}

/** Beam left after `airMass` of air, lx on a plane facing the sun. Source: Bouguer's law. */
export function beamLx(outsideAirLx: number, extinction: number, airMass: number): number {
  return outsideAirLx * exp(-extinction * airMass);
}

/** Apparent radius of the sun, degrees. Source: mean value 0.2666. */
const SUN_RADIUS_DEG = 0.2666;

/** Direct sun on a plane facing it, lx: 0 below the horizon; while it rises, by the share of the disc's height. */
export function directNormalLx(extinction: number, sunAltitudeDeg: number, dayOfYear: number): number {
  if (sunAltitudeDeg <= -SUN_RADIUS_DEG) return 0;
  const disc = Math.min(1, (sunAltitudeDeg + SUN_RADIUS_DEG) / (2 * SUN_RADIUS_DEG));
  const airMass = airMassKastenYoung(Math.max(sunAltitudeDeg, 0));
  return disc * beamLx(EXTRATERRESTRIAL_LX * extraterrestrialFactor(dayOfYear), extinction, airMass);
}

/** Log-linear from the level at sunrise down to 3 lx at -6 degrees and on to the night floor at -12. */
function twilightLx(atHorizonLx: number, sunAltitudeDeg: number): number {
  if (sunAltitudeDeg >= -6) return atHorizonLx * pow(CIVIL_TWILIGHT_LX / atHorizonLx, -sunAltitudeDeg / 6);
  const share = Math.min(1, (-6 - sunAltitudeDeg) / 6);
  return CIVIL_TWILIGHT_LX * pow(NIGHT_LX / CIVIL_TWILIGHT_LX, share);
}

export interface SkyState {
  /** Sky alone on an unobstructed horizontal plane. */
  horizontalSkyLx: number;
  directNormalLx: number;
  cieType: number;
  /** Share of the sun's beam that clouds hide at this instant, 0..1. */
  cloudShare: number;
}

/** Shape of the sky by condition. Source: types of ISO 15469 whose names fit: 12 clear, 13 clear and polluted,
 *  8 partly cloudy with bright circumsolar region, 1 overcast. */
const CIE_TYPE: Record<SkyCondition, number> = { clear: 12, hazy: 13, passingClouds: 8, overcast: 1 };

function hazySkyLx(sunAltitudeDeg: number, dayOfYear: number): number {
  const lost =
    directNormalLx(CLEAR_EXTINCTION, sunAltitudeDeg, dayOfYear) -
    directNormalLx(HAZY_EXTINCTION, sunAltitudeDeg, dayOfYear);
  const sinAltitude = sunAltitudeDeg > 0 ? sin(degToRad(sunAltitudeDeg)) : 0;
  return skyHorizontalLx('clear', sunAltitudeDeg) + HAZE_RETURNED_SHARE * lost * sinAltitude;
}

/**
 * Levels of sky and sun. A pure function: the clouds are those of this seed at this instant. `utcS`: Unix time in s
 * (it may be any running second count; clouds depend on it and on the seed alone).
 */
export function skyState(
  condition: SkyCondition,
  sunAltitudeDeg: number,
  dayOfYear: number,
  utcS: number,
  seed: number,
): SkyState {
  const cieType = CIE_TYPE[condition];
  const altitudeDeg = Math.max(0, sunAltitudeDeg);
  let skyLx: number;
  let beam = 0;
  let cloudShare = condition === 'overcast' ? 1 : 0;
  if (condition === 'overcast') {
    skyLx = skyHorizontalLx('overcast', altitudeDeg);
  } else if (condition === 'passingClouds') {
    // The IES partly-cloudy sky is a mean over sun and cloud; so is this one: beam on and off, sky with bright edges.
    const clouds = cloudsAt(utcS, seed);
    cloudShare = clouds.sunHidden;
    const raise = Math.min(EDGE_RAISE_MAX, 0.4 * (1 - clouds.sunHidden) * clouds.near);
    skyLx = skyHorizontalLx('partlyCloudy', altitudeDeg) * (1 + raise);
    beam = (1 - cloudShare) * directNormalLx(CLEAR_EXTINCTION, sunAltitudeDeg, dayOfYear);
  } else {
    const hazy = condition === 'hazy';
    skyLx = hazy ? hazySkyLx(altitudeDeg, dayOfYear) : skyHorizontalLx('clear', altitudeDeg);
    beam = directNormalLx(hazy ? HAZY_EXTINCTION : CLEAR_EXTINCTION, sunAltitudeDeg, dayOfYear);
  }
  if (sunAltitudeDeg < 0) skyLx = twilightLx(skyLx, sunAltitudeDeg);
  return { horizontalSkyLx: skyLx, directNormalLx: beam, cieType, cloudShare };
}
