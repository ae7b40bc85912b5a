/**
 * The fast road: what moves every frame passes React by. The session writes here, the scene and canvases read.
 * Nothing in here is computed by the page; it is what the worker sent last.
 */
import type { FloorShadow } from '../../engine/detection/floorShadows.ts';
import type { SideSection } from '../../engine/detection/sideSection.ts';
import type { Frame } from '../../engine/frame.ts';
import type { LightField } from '../../engine/light/types.ts';
import type { Recording } from '../../engine/recording.ts';
import type { WarmthView } from '../../engine/warmth.ts';
import type { PulseMark, SightCell } from '../../host/messages.ts';

export interface Live {
  frame: Frame | null;
  /** The frame before, for views that blend two; null after a seek. */
  previousFrame: Frame | null;
  /** performance.now() when `frame` arrived, ms. */
  frameAtMs: number;
  field: LightField | null;
  /** Rises with every new field: rebuild textures when it changes. */
  fieldVersion: number;
  sightCells: SightCell[];
  /** Floor that furniture hides from the detector; comes with the cells. */
  shadows: FloorShadow[];
  sightVersion: number;
  /** Null until it is wanted. */
  warmth: WarmthView | null;
  section: SideSection | null;
  /** Latest places of pulses, oldest first; the Sight Map draws the recent ones. */
  marks: PulseMark[];
  /** Digests of the run so far, and what was done in it, as last saved. */
  digests: Recording['digests'];
  inputs: Recording['inputs'];
}

export const live: Live = {
  frame: null,
  previousFrame: null,
  frameAtMs: 0,
  field: null,
  fieldVersion: 0,
  sightCells: [],
  shadows: [],
  sightVersion: 0,
  warmth: null,
  section: null,
  marks: [],
  digests: [],
  inputs: [],
};

const listeners = new Set<() => void>();

/** Calls `fn` after every change of `live`. Returns the way to stop. The scene's one gateway to redraw. */
export function onLive(fn: () => void): () => void {
  listeners.add(fn);
  return () => listeners.delete(fn);
}

/** Tells every view that `live` changed. */
export function invalidateLive(): void {
  for (const fn of listeners) fn();
}
