/** What anybody does to the room, and the story that it begins with. */
import type { ButtonId, FaceId, PointM, RowId, Tick } from './basics.ts';
import type { ControllerSettings, DetectorModel, DetectorMount } from './detector.ts';
import type { PersonSpec, PlanStep, WarmThingSpec } from './people.ts';
import type { LampDistribution, RoomSpec, Site, SkyCondition } from './room.ts';

/** A story: everything needed to run it, references already resolved (`src/scenario` reads the JSON). */
export interface Scenario {
  id: string;
  title: string;
  /** The question over the picture, at most nine words. */
  question: string;
  /** One or two plain sentences for whoever opens it. */
  brief: string;
  seed: number;
  start: { localDate: string; localTime: string; utcOffsetH: number };
  /** The story is meant to be watched until here; it can run longer. */
  endS: number;
  /** Speed that Run begins with. */
  speed: number;
  site: Site;
  room: RoomSpec;
  sky: SkyCondition;
  detectorModel: DetectorModel;
  mount: DetectorMount;
  settings: ControllerSettings;
  supplyAtStart: boolean;
  people: PersonSpec[];
  warmThings: WarmThingSpec[];
  script: { atS: number; input: Input }[];
  /** Acts offered quietly once the story has shown its point; null = words only (an act done with the hand). */
  suggested?: { say: string; input: Input | null }[];
}

/** What anybody does to the room. Instants inside a tick are `offsetMs` 0-99, default 0. */
export type Input =
  | { kind: 'setSettings'; change: Partial<ControllerSettings>; via?: 'dial' | 'handHeld' }
  | { kind: 'takePresentLight'; row: RowId }
  | { kind: 'walkTest'; action: 'start' | 'end' }
  | { kind: 'contact'; input: ButtonId; closed: boolean; offsetMs?: number }
  /** A finger: closes the input for `closedMs` (default 300). */
  | { kind: 'press'; input: ButtonId; closedMs?: number; offsetMs?: number }
  | { kind: 'supply'; on: boolean; offsetMs?: number }
  | { kind: 'addPerson'; person: PersonSpec }
  | { kind: 'removePerson'; personId: string }
  /** Set down somewhere at once. Placing is the stage manager's hand, not movement: it gives no pulse. */
  | { kind: 'placePerson'; personId: string; atM: PointM; headingDeg?: number }
  /** Replaces what is left of the plan; the person goes on from where they are. */
  | { kind: 'setPlan'; personId: string; plan: PlanStep[] }
  /** The sun's own clock: shift against the room's clock, and another date (null = the scenario's). */
  | { kind: 'moveSun'; shiftS: number; localDate: string | null }
  | { kind: 'setSky'; sky: SkyCondition }
  | { kind: 'setBlind'; windowId: string; closedShare: number }
  | { kind: 'setDoor'; doorId: string; open: boolean }
  | { kind: 'moveDetector'; mount: DetectorMount }
  | { kind: 'setTemperature'; airTemperatureC: number }
  | { kind: 'setWarmThing'; thingId: string; on: boolean }
  | { kind: 'moveFurniture'; furnitureId: string; atM: PointM }
  | { kind: 'moveLuminaire'; luminaireId: string; atM: PointM }
  /** Other lamps in all luminaires of a row: how their light is spread; its amount stays. */
  | { kind: 'setLampKind'; row: RowId; distribution: LampDistribution }
  | { kind: 'setReflectance'; target: FaceId | string; reflectance: number }
  /** Wiped clean: both photometers see all their light again. */
  | { kind: 'cleanPhotometers' }
  /** A cloth over the whole detector, taken off again after `forS`: it sees nobody, and its photometers see no light. 0: off now. */
  | { kind: 'coverDetector'; forS: number }
  /** A torch shone at the detector for `forS` from the side where that row's photometer belongs. 0: taken away now. */
  | { kind: 'holdTorch'; side: RowId; forS: number };

/** Order of work is total: by tick, then by serial. */
export interface TimedInput {
  tick: Tick;
  serial: number;
  input: Input;
}
