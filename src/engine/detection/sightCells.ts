/** The picture of what the detector sees: each half of each facet's beam, drawn on the first surface that it meets. */

import type { DetectorModel, Vector3 } from '../types.ts';
import { imageOf } from './lens.ts';
import { sectorOf } from './lookup.ts';
import { sceneDistanceM } from './scene.ts';
import type { Facet, MovementTables } from './types.ts';

/** A closed outline where the beam's weight has fallen to half, room metres. */
export interface SightOutline {
  channel: number;
  polarity: 1 | -1;
  ring: number;
  /** [x, y, z, x, y, z, …] */
  outlineM: number[];
  masked: boolean;
}

/** Points on each of the four sides. Assumed: far outlines bend; fewer would cut their corners visibly. */
const POINTS_PER_SIDE = 4;

/** Corners of the unit square in order. */
const CORNERS = [
  [-1, -1],
  [1, -1],
  [1, 1],
  [-1, 1],
] as const;

function outline(model: DetectorModel, tables: MovementTables, f: Facet, polarity: 1 | -1): number[] {
  const { surroundings, turnSin, turnCos } = tables;
  const [ex, ey, ez] = surroundings.eyeM;
  const middleMm = (polarity * model.elementSpacingMm) / 2;
  const points: number[] = [];
  for (let side = 0; side < 4; side++) {
    const from = CORNERS[side]!;
    const to = CORNERS[(side + 1) % 4]!;
    for (let k = 0; k < POINTS_PER_SIDE; k++) {
      const share = k / POINTS_PER_SIDE;
      const across = middleMm + ((from[0] + (to[0] - from[0]) * share) * model.elementWidthMm) / 2;
      const along = ((from[1] + (to[1] - from[1]) * share) * model.elementLengthMm) / 2;
      const d = imageOf(model, f, across, along);
      const dx = d[0] * turnCos + d[1] * turnSin;
      const dy = d[1] * turnCos - d[0] * turnSin;
      const t = sceneDistanceM(surroundings, dx, dy, d[2]);
      points.push(ex + dx * t, ey + dy * t, ez + d[2] * t);
    }
  }
  return points;
}

function isMasked(middle: Vector3, maskedSectors: readonly number[]): boolean {
  return maskedSectors.includes(sectorOf(middle[0], middle[1]));
}

/**
 * Two outlines per facet. The element's edges are where the softened beam has half its weight, so these lines and the
 * map agree (tests/detection/sightCells.test.ts). Edges of furniture are met to within the spacing of the points.
 */
export function sightCells(
  model: DetectorModel,
  tables: MovementTables,
  maskedSectors: readonly number[],
): SightOutline[] {
  return tables.facets.flatMap((f) =>
    ([1, -1] as const).map((polarity) => ({
      channel: f.channel,
      polarity,
      ring: f.ring,
      outlineM: outline(model, tables, f, polarity),
      masked: isMasked(imageOf(model, f, (polarity * model.elementSpacingMm) / 2, 0), maskedSectors),
    })),
  );
}
