/** Hatching that stands for a difference of temperature: denser = larger; leaning right = warmer, leaning left = colder. */

/** From this contrast on, K, lines this far apart, px of the page. The last step has no end. */
export const HATCH_STEPS: readonly { fromK: number; gapPx: number }[] = [
  { fromK: 0.5, gapPx: 15 },
  { fromK: 1, gapPx: 11 },
  { fromK: 2, gapPx: 8 },
  { fromK: 4, gapPx: 5.8 },
  { fromK: 8, gapPx: 4.2 },
  { fromK: 16, gapPx: 3 },
];

/** Width of a hatch line, px. */
export const HATCH_LINE_PX = 1.3;

/** Index of the step, -1 for too small a difference to be hatched. */
export function hatchStep(contrastK: number): number {
  const size = Math.abs(contrastK);
  let step = -1;
  while (step + 1 < HATCH_STEPS.length && size >= HATCH_STEPS[step + 1]!.fromK) step++;
  return step;
}

/** Id of the SVG pattern for a contrast; null: left blank. */
export function hatchId(contrastK: number): string | null {
  const step = hatchStep(contrastK);
  return step < 0 ? null : `hatch-${contrastK > 0 ? 'warm' : 'cold'}-${step}`;
}
