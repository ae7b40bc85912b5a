import type { Frame } from '../engine/frame.ts';
import type { PersonAnswer } from '../engine/personSight.ts';
import type { Explanation, TraceEvent } from '../engine/trace.ts';
import type { ControllerSettings, OutputId, Scenario, Setup, Tick } from '../engine/types.ts';

/** What a plan draws of an instant. */
export type RoomMoment = Pick<Moment, 'scenario' | 'setup' | 'frame'>;

/** One instant of a run, with what is needed to draw and tell it. */
export interface Moment {
  scenario: Scenario;
  setup: Setup;
  settings: ControllerSettings;
  frame: Frame;
  explanations: Record<OutputId, Explanation>;
  /** Up to this instant, oldest first. */
  events: readonly TraceEvent[];
  /** When a counted pulse last arose at each Stand-in, by letter; absent where nobody kept count. */
  personSeenTick?: Readonly<Record<string, Tick>>;
  /** Seen or not, why not, by how much; absent where nobody asked. */
  sights?: readonly PersonAnswer[];
}
