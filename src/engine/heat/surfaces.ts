/** Temperatures of what a detector sees of a person: clothing, hair, face, hands. */
import { balanceSurfaceC, CLO_M2K_PER_W, type Climate, WATTS_PER_MET } from './comfort.ts';

/** Emissivity of skin in 8-14 um. Source: J. Biomed. Opt. 14(2) 024006 (2009): near-black at 10.6 um. */
export const SKIN_EMISSIVITY = 0.98;
/** Emissivity of clothing in 8-14 um. Source: US NIJ abstract gives .82-.88 for single fabrics; several layers of
 *  folds act blacker. Assumed .90: lower it to .82 and clothed contrast falls by 9 %. */
export const CLOTHING_EMISSIVITY = 0.9;
/** Emissivity of hair in 8-14 um. Assumed: as clothing, a fibrous pile. Larger makes heads stand out a little more. */
export const HAIR_EMISSIVITY = 0.9;
/** Emissivity of painted, woven or furry things. Assumed: paints, paper, fur lie between .85 and .95. */
export const THING_EMISSIVITY = 0.9;

/** Air moving past a person in a still room, m/s. Assumed: usual office draught; more cools the clothing. */
export const ROOM_AIR_MPS = 0.1;

/** Mean skin temperature, °C, valid to about 36 °C. Source: linear fit, from memory, about ±1 K. */
export function skinC(airC: number): number {
  return 33.4 + 0.165 * (airC - 22);
}

/** Source: linear fit, from memory, ±1.5 K. */
export function faceC(airC: number): number {
  return 33.2 + 0.155 * (airC - 20);
}

/** Source: linear fit, from memory, ±1.5 K; fingers near 30 °C at the cool end of comfort agree with Wang, Zhang,
 *  Arens and Huizenga, UC Berkeley. */
export function handC(airC: number): number {
  return 30.5 + 0.34 * (airC - 20);
}

/** Source: share of the way from air to scalp, from memory, ±1.5 K. */
export function hairC(airC: number): number {
  return airC + 0.45 * (34.5 - airC);
}

/** Air speed relative to a person working at `metabolicMet`, m/s. Source: ISO 7730:2005 allows 0.005 (M - 58) on top. */
export function relativeAirMps(metabolicMet: number): number {
  const extra = 0.005 * (metabolicMet * WATTS_PER_MET - WATTS_PER_MET);
  return ROOM_AIR_MPS + Math.max(extra, 0);
}

/**
 * Mean clothing surface, °C: skin as above behind the insulation, the outside in balance by the ISO 7730 exchange.
 * Above 30 °C the comfort skin temperature of that standard is too low, so it is not used here.
 */
export function clothedC(climate: Climate, clothingClo: number): number {
  return balanceSurfaceC(skinC(climate.airC), clothingClo * CLO_M2K_PER_W, climate);
}
