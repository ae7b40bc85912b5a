/** A torch held before the photometers: a small source, seen by whichever of them looks its way. */
import { cos, sin } from '../math.ts';
import type { RowId } from '../types.ts';
import { degToRad } from '../units.ts';
import type { SceneSensor } from './scene.ts';
import { sensorWeighting } from './sensors.ts';

/** Light on a surface that faces the torch, lx. Assumed: a pocket torch of 100 cd at `TORCH_AWAY_M`. */
const TORCH_LX = 500;
/** The torch is held so far from straight below, degrees. Assumed: half way to the ceiling, by eye. */
export const TORCH_LEAN_DEG = 45;
/** … and so far from the detector, m; what `TORCH_LX` is told for. Assumed: an arm's bend; nearer is brighter by its square. */
export const TORCH_AWAY_M = 0.45;

/**
 * Reading that the torch adds to a photometer, lx. `side`: held on the side where that row's photometer belongs (windows
 * or room), whichever way the detector is turned. What the room reflects of the torch is neglected: it is of the order
 * of 1 % of the light that falls straight in.
 */
export function torchLx(sensor: SceneSensor, side: RowId): number {
  const lean = degToRad(TORCH_LEAN_DEG);
  const y = (side === 'window' ? 1 : -1) * sin(lean);
  return TORCH_LX * Math.max(0, sensorWeighting(sensor)(0, y, -cos(lean)));
}
