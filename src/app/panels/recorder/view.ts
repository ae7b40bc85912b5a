import type { Frame } from '../../../engine/frame.ts';
import type { Scenario, Tick } from '../../../engine/types.ts';
import type { RecorderLayout } from '../../../report/stripLayout.ts';

/** One picture of the strip: which time lies where. */
export interface StripView {
  /** Changes whenever the strip must be drawn again. */
  turn: number;
  scenario: Scenario;
  widthPx: number;
  layout: RecorderLayout;
  fromTick: Tick;
  toTick: Tick;
  shownTick: Tick;
  /** How far the run has been computed. */
  headTick: Tick;
  running: boolean;
  xOf: (tick: Tick) => number;
  frame: Frame | null;
}
