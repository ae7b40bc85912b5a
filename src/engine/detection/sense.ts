import type { BodyBuffer, DetectorModel, Pulse, RoomSpec, Setup } from '../types.ts';
import type { MovementState, MovementTables } from './types.ts';

/** Pure function of its arguments; cached by the caller. */
export function buildMovementTables(model: DetectorModel, _room: RoomSpec, _setup: Setup): MovementTables {
  const { holdUv, switchOnUv, reducedFactor } = model;
  return {
    thresholdsUv: {
      hold: holdUv,
      switchOn: switchOnUv,
      holdReduced: holdUv * reducedFactor,
      switchOnReduced: switchOnUv * reducedFactor,
    },
  };
}

export function createMovementState(_model: DetectorModel, _seed: number): MovementState {
  return { filters: [] };
}

export interface SenseArguments {
  tables: MovementTables;
  state: MovementState;
  /** The five sub-steps of this tick. */
  bodies: BodyBuffer[];
  /** Radiance excess per body and part kind, W m-2 sr-1. */
  radiance: Float64Array;
  maskedSectors: number[];
  /** Owners (see BodyBuffer) whose jump in flux since the last sub-step is absorbed: placed by hand, not moved. */
  placedOwners: number[];
  /** Filled: [channel * 5 + subStep], µV. */
  signalUv: Float32Array;
}

/** One tick of sensing: five sub-steps of flux, chain, noise, comparators. Returns the pulses in order. */
export function senseMovement(args: SenseArguments): Pulse[] {
  args.signalUv.fill(0);
  return [];
}
