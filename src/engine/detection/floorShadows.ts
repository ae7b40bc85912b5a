/** Floor that furniture hides from the detector: each box's shadow, as if the detector were a lamp. */
import type { Box } from '../room/boxes.ts';
import { areaM2, clipConvex, hullOf, rectangle } from '../room/clip.ts';
import type { PointM } from '../types.ts';
import type { Surroundings } from './types.ts';

export interface FloorShadow {
  furnitureId: string;
  glass: boolean;
  /** Top of what throws it, m. */
  topM: number;
  /** Convex outline on the floor, room metres. */
  outlineM: PointM[];
  areaM2: number;
}

/** A box that reaches up to the detector hides everything behind it; its shadow is drawn to this many times the distance.
 *  Assumed: 40 leads out of any room. */
const ENDLESS = 40;

/** Smaller shadows are left out, m2. Assumed: a chair leg's; they would only be specks. */
const LEAST_M2 = 0.02;

/** Convex: the shadow of a box from a point is the hull of its corners' shadows. */
export function floorShadows(s: Surroundings, boxes: readonly Box[]): FloorShadow[] {
  const [ex, ey, ez] = s.eyeM;
  const floor = rectangle(0, 0, s.roomM[0], s.roomM[1]);
  return boxes.flatMap(({ furnitureId, glass, minM, maxM }) => {
    const points: PointM[] = [];
    for (const x of [minM[0], maxM[0]]) {
      for (const y of [minM[1], maxM[1]]) {
        for (const z of [minM[2], maxM[2]]) {
          const far = z < ez ? Math.min(ez / (ez - z), ENDLESS) : ENDLESS;
          points.push([ex + (x - ex) * far, ey + (y - ey) * far]);
        }
      }
    }
    const outlineM = clipConvex(hullOf(points), floor);
    const area = areaM2(outlineM);
    return area > LEAST_M2 ? [{ furnitureId, glass, topM: maxM[2], outlineM, areaM2: area }] : [];
  });
}
