/**
 * Passing clouds: sun and cloud take turns, lengths of both follow a power law, and the wind carries them over.
 * Idea: two-state cover (Morf 2011) with power-law cloud lengths (Bright et al. 2015). Every number is a hash of seed,
 * hour and count, so the sky of any instant is found without running the hours before it.
 */
import { pow } from '../../math.ts';

/** Exponent of the density of cloud lengths. Source: about 1.66 (Wood & Field 2011), from memory. Larger: more small
 *  clouds, more switching. */
export const CLOUD_LENGTH_EXPONENT = 1.66;
/** Shortest cloud, m. Source: 0.1 km, lower end of the power law, from memory. Shorter: flicker that lamps ignore. */
export const CLOUD_LENGTH_MIN_M = 100;
/** Longest cloud, m. Source: 20 km, upper end of the power law, from memory. Longer: whole hours without sun. */
export const CLOUD_LENGTH_MAX_M = 20_000;
/** Least wind at cloud height, m/s. Assumed: 5, one value an hour; slower wind gives longer shadows. */
export const CLOUD_WIND_MIN_MPS = 5;
/** Most wind at cloud height, m/s. Assumed: 12; faster wind gives shorter shadows. */
export const CLOUD_WIND_MAX_MPS = 12;
/** Least share of the sky covered, one value an hour. Assumed: 0.3 (between two and three eighths). Lower: clear. */
export const CLOUD_COVER_MIN = 0.3;
/** Most share of the sky covered. Assumed: 0.7, so that the mean is one half. Higher: overcast hours. */
export const CLOUD_COVER_MAX = 0.7;
/** An edge takes this long to pass the sun, s. Assumed: 30 (10 to 60 are seen); shorter would be a switch. */
export const CLOUD_EDGE_S = 30;
/** A cloud counts as near within half of this, s. Assumed: 120. */
export const CLOUD_NEAR_S = 120;

const HOUR_S = 3600;

/** Mixes three whole numbers to [0, 1). Finaliser of MurmurHash3 (public domain), 32 bit. */
function hashShare(seed: number, block: number, count: number): number {
  let h = (seed | 0) ^ Math.imul(block | 0, 0x9e3779b1) ^ Math.imul(count | 0, 0x85ebca77);
  h ^= h >>> 16;
  h = Math.imul(h, 0x85ebca6b);
  h ^= h >>> 13;
  h = Math.imul(h, 0xc2b2ae35);
  h ^= h >>> 16;
  return (h >>> 0) / 4_294_967_296;
}

const ONE_MINUS_P = 1 - CLOUD_LENGTH_EXPONENT;
const LOW_POWER = pow(CLOUD_LENGTH_MIN_M, ONE_MINUS_P);
const HIGH_POWER = pow(CLOUD_LENGTH_MAX_M, ONE_MINUS_P);

/** Length whose share of shorter clouds is `share`, m. */
function cloudLengthM(share: number): number {
  return pow(LOW_POWER + share * (HIGH_POWER - LOW_POWER), 1 / ONE_MINUS_P);
}

/** Cover of an hour (whole hours of `utcS`), 0..1: mean of its own and the last hour's draw, so that neighbouring hours resemble each other. */
export function coverOfHour(hour: number, seed: number): number {
  const share = (hashShare(seed, hour, 1) + hashShare(seed, hour - 1, 1)) / 2;
  return CLOUD_COVER_MIN + (CLOUD_COVER_MAX - CLOUD_COVER_MIN) * share;
}

/** Seconds with the sun hidden inside [fromS, toS], counted from the start of the hour, within this hour. */
function hiddenInHourS(hour: number, seed: number, fromS: number, toS: number): number {
  const cover = coverOfHour(hour, seed);
  const windMps = CLOUD_WIND_MIN_MPS + (CLOUD_WIND_MAX_MPS - CLOUD_WIND_MIN_MPS) * hashShare(seed, hour, 2);
  let cloudy = hashShare(seed, hour, 3) < cover;
  let atS = 0;
  let hiddenS = 0;
  for (let count = 4; atS < toS; count++) {
    const lengthM = cloudLengthM(hashShare(seed, hour, count));
    // Gaps follow the same law, scaled so that clouds take their share of the time.
    const endS = atS + (cloudy ? lengthM : (lengthM * (1 - cover)) / cover) / windMps;
    if (cloudy) hiddenS += Math.max(0, Math.min(endS, toS) - Math.max(atS, fromS));
    atS = endS;
    cloudy = !cloudy;
  }
  return hiddenS;
}

/** Share of the time around `utcS` (a window of this width, under an hour) with a cloud before the sun. */
function hiddenShare(utcS: number, widthS: number, seed: number): number {
  const fromS = utcS - widthS / 2;
  const toS = utcS + widthS / 2;
  const hour = Math.floor(fromS / HOUR_S);
  const nextS = (hour + 1) * HOUR_S;
  let hiddenS = hiddenInHourS(hour, seed, fromS - hour * HOUR_S, Math.min(toS, nextS) - hour * HOUR_S);
  if (toS > nextS) hiddenS += hiddenInHourS(hour + 1, seed, 0, toS - nextS);
  return hiddenS / widthS;
}

/**
 * Clouds before the sun at an instant: `sunHidden` 0..1, a ramp at every edge because an edge needs its time to pass;
 * `near` 0..1, the same in a wider window: how much cloud stands close to the sun.
 */
export function cloudsAt(utcS: number, seed: number): { sunHidden: number; near: number } {
  return { sunHidden: hiddenShare(utcS, CLOUD_EDGE_S, seed), near: hiddenShare(utcS, CLOUD_NEAR_S, seed) };
}
