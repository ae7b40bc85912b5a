import type { Simulation } from '../engine/simulation.ts';
import type { SightCell } from './messages.ts';

export function sightCellsFor(_sim: Simulation): SightCell[] {
  return [];
}
