/** Turning the plane of the side section. */
import { setApp } from '../../state/store.ts';

/** Steps of the plane, degrees. Source: the product's own steps for turning views. */
const STEP_DEG = 15;

export function turnSection(steps: number): void {
  setApp((s) => ({ sectionDeg: ((((s.sectionDeg ?? 0) + steps * STEP_DEG) % 360) + 360) % 360 }));
}
