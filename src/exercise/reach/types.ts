/** How far a detector sees in its room, as data that crosses from the worker to the page. */
import type { DetectorMount } from '../../engine/types.ts';

/** Walking across the line of sight, walking straight in, reaching while seated. */
export type ReachKind = 'across' | 'toward' | 'seated';
export const REACH_KINDS: readonly ReachKind[] = ['across', 'toward', 'seated'];

/** One direction, from the detector's floor point. */
export interface ReachRay {
  /** Bearing in the room, clockwise from the back wall, degrees. */
  bearingDeg: number;
  /** Where the wall ends the floor for a body, m. */
  limitM: number;
  /** Outermost place seen in at least half of all tries, m; null: nowhere in this direction. */
  halfM: number | null;
  /** The same in at least nine of ten tries. */
  nineTenthsM: number | null;
  /** Stretches nearer than `halfM` that are not seen in half of all tries, m from the detector. */
  gapsM: [fromM: number, toM: number][];
  /** Places tried, m, and the share of tries seen at each; empty for walks in, which are seen from one distance on. */
  triedM: number[];
  share: number[];
}

export interface ReachOutline {
  kind: ReachKind;
  rays: ReachRay[];
  /** Where the share of seen tries crosses one half, and the walls that cut it: [x, y, x, y, …], room metres. */
  linesM: number[][];
}

export interface ReachOutlines {
  /** Fingerprint of all that they were worked out from. */
  key: string;
  mount: DetectorMount;
  roomTemperatureC: number;
  speedMps: number;
  reduced: boolean;
  outlines: ReachOutline[];
}
