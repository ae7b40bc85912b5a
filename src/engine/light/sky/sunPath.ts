/** The sun's way over one day as points, for drawing. Twilight included: points below the horizon are kept. */
import { localToUtcMs, parseLocalDate } from '../../calendar.ts';
import { sunPosition } from './sun.ts';

/** Step between points, s. Assumed: ten minutes, 2.5 degrees of the sun's way; the chord is then within 0.03 degrees of it. */
export const PATH_EVERY_S = 600;
const DAY_S = 86_400;

export interface SunPoint {
  /** Local time of the place, s after midnight. */
  localS: number;
  altitudeDeg: number;
  azimuthDeg: number;
}

export interface SunPath {
  localDate: string;
  points: SunPoint[];
}

/** From local midnight to the next, refraction included. Degrees; longitude positive to the east. */
export function sunPath(
  latitudeDeg: number,
  longitudeDeg: number,
  localDate: string,
  utcOffsetH: number,
  everyS: number = PATH_EVERY_S,
): SunPath {
  const points: SunPoint[] = [];
  for (let localS = 0; localS <= DAY_S; localS += everyS) {
    const utcMs = localToUtcMs(localDate, localS, utcOffsetH);
    points.push({ localS, ...sunPosition(utcMs, latitudeDeg, longitudeDeg) });
  }
  return { localDate, points };
}

/**
 * Days that bound the sun's ways of a year, and the even one between. Source: solstices fall on 20 to 22 June and 20 to
 * 23 December, the equinox of March on 19 to 21; on the days chosen here the declination is within 0.5 degrees of it.
 */
export function boundingDates(localDate: string): { june: string; december: string; equinox: string } {
  const year = `000${parseLocalDate(localDate).year}`.slice(-4);
  return { june: `${year}-06-21`, december: `${year}-12-21`, equinox: `${year}-03-20` };
}
