/** The nouns of the engine that more than one stage needs. Stage-private shapes live in `<stage>/types.ts`. */
export * from './nouns/basics.ts';
export * from './nouns/bodies.ts';
export * from './nouns/detector.ts';
export * from './nouns/inputs.ts';
export * from './nouns/people.ts';
export * from './nouns/room.ts';

import type { ControlState } from './control/types.ts';
import type { MovementState } from './detection/types.ts';
import type { LightState } from './light/types.ts';
import type { FaceId, RowId, Tick } from './nouns/basics.ts';
import type { DetectorMount } from './nouns/detector.ts';
import type { WarmThingSpec } from './nouns/people.ts';
import type { FurnitureSpec, LuminaireSpec, SkyCondition } from './nouns/room.ts';
import type { PersonState } from './people/types.ts';
import type { PlantState } from './plant/types.ts';
import type { WiresState } from './wires.ts';

/** The part of the world that inputs can change (settings live in the controller, who may refuse them). */
export interface Setup {
  mount: DetectorMount;
  sky: SkyCondition;
  sunShiftS: number;
  sunLocalDate: string;
  airTemperatureC: number;
  radiantTemperatureC: number;
  blinds: { windowId: string; closedShare: number }[];
  doors: { doorId: string; open: boolean }[];
  furniture: FurnitureSpec[];
  /** Absent until a lamp is moved or changed: then all of them. Absent, so that a run without it keeps its digests. */
  luminaires?: LuminaireSpec[];
  reflectance: Record<FaceId, number>;
  warmThings: WarmThingSpec[];
  /** As the detector's own, until it is wiped clean; absent: clean. */
  photometerClearShare?: number;
  /** A cloth over the detector, a torch before it; absent until the first. They end by themselves. */
  coveredUntilTick?: Tick;
  torch?: { side: RowId; untilTick: Tick };
}

/** Complete and plain: survives JSON unchanged, and nothing else affects the future. */
export interface SimState {
  engine: string;
  tick: Tick;
  seed: number;
  /** Named random streams, in order of first use; `values` is the generator's own state. */
  random: { name: string; values: number[] }[];
  setup: Setup;
  people: PersonState[];
  wires: WiresState;
  movement: MovementState;
  /** Only while stored pulses stand in for sensing: `movement` is as of this tick, so that sensing cannot go on from here
   *  but from the minute before, where the state is whole. */
  movementAsOfTick?: Tick;
  light: LightState;
  control: ControlState;
  plant: PlantState;
}
