/** How bright the picture is drawn for a given light. Numbers come from tags; this only keeps the picture readable. */

/** Exposure at a mean of 600 lx, how far it follows the mean, and its limits. Assumed: by the power .8, so that a dim room
 *  still looks dim and a sunny one bright; by 1 every hour would look the same, by 0 night would be black. */
const EXPOSURE = { at600: 0.55, power: 0.8, least: 0.1, most: 110 };

/** `meanLx` per source: daylight, inner row, window row, doors; `lamps` levels 0-1. */
export function exposureAim(meanLx: readonly number[], lamps: { inner: number; window: number }): number {
  const mean = meanLx[0]! + meanLx[1]! * lamps.inner + meanLx[2]! * lamps.window + meanLx[3]!;
  const aim = EXPOSURE.at600 * (600 / Math.max(mean, 0.1)) ** EXPOSURE.power;
  return Math.min(Math.max(aim, EXPOSURE.least), EXPOSURE.most);
}
