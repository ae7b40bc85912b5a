/**
 * A headless laboratory for detection: an empty room, one person, the real people and detection stages. Ranges are
 * measured as an installer would walk them, with the controller's own rules for a trigger.
 */
import { buildMovementTables, createMovementState, senseMovement } from '../../engine/detection/sense.ts';
import type { MovementState, MovementTables } from '../../engine/detection/types.ts';
import { cos, PI, sin } from '../../engine/math.ts';
import { advancePeople, createPeople, poseTick, radiateBodies } from '../../engine/people/people.ts';
import type { PersonState } from '../../engine/people/types.ts';
import { streamFor } from '../../engine/random.ts';
import {
  type BodyBuffer,
  createBodyBuffer,
  type DetectorModel,
  MOST_BODIES,
  PART_KINDS,
  type PersonSpec,
  type PlanStep,
  type PointM,
  type Pulse,
  type RoomSpec,
  type Setup,
  type WarmThingSpec,
} from '../../engine/types.ts';
import { SUB_STEPS, TICK_S, TICKS_PER_S } from '../../engine/units.ts';

/** Side of the laboratory, m. Assumed: the outermost beams end on the floor inside it up to 4 m mounting. */
const LAB_SIDE_M = 50;

export interface LabConditions {
  model: DetectorModel;
  mountingHeightM: number;
  roomTemperatureC: number;
  /** Changes to the bare room (screens, desks, warm things). */
  setup?: Partial<Setup>;
}

export interface Lab {
  tables: MovementTables;
  setup: Setup;
  model: DetectorModel;
  /** The detector's floor point. */
  centreM: PointM;
  /** Inside measures of the room that walks keep to, m. */
  roomM: readonly [widthM: number, depthM: number];
  /** Clip-on sectors on the detector; see ControllerSettings. */
  maskedSectors: readonly number[];
  /** Sensing with reduced sensitivity. */
  reduced: boolean;
}

function labRoom(c: LabConditions): RoomSpec {
  return {
    widthM: LAB_SIDE_M,
    depthM: LAB_SIDE_M,
    heightM: c.mountingHeightM + 0.05,
    backWallFacesDeg: 180,
    reflectance: { front: 0.5, back: 0.5, left: 0.5, right: 0.5, floor: 0.3, ceiling: 0.8 },
    windows: [],
    doors: [],
    furniture: [],
    luminaires: [],
    maintenanceFactor: 0.8,
    deskPoints: [],
    airTemperatureC: c.roomTemperatureC,
    radiantTemperatureC: c.roomTemperatureC,
  };
}

export function createLab(c: LabConditions): Lab {
  const room = labRoom(c);
  const setup: Setup = {
    mount: { atM: [LAB_SIDE_M / 2, LAB_SIDE_M / 2], heightM: c.mountingHeightM, turnDeg: 0 },
    sky: 'overcast',
    sunShiftS: 0,
    sunLocalDate: '2026-01-15',
    airTemperatureC: c.roomTemperatureC,
    radiantTemperatureC: c.roomTemperatureC,
    blinds: [],
    doors: [],
    furniture: [],
    reflectance: room.reflectance,
    warmThings: [],
    ...c.setup,
  };
  return {
    tables: buildMovementTables(c.model, room, setup),
    setup,
    model: c.model,
    centreM: [LAB_SIDE_M / 2, LAB_SIDE_M / 2],
    roomM: [LAB_SIDE_M, LAB_SIDE_M],
    maskedSectors: [],
    reduced: false,
  };
}

/** The comparator level that a lab's sensitivity asks for. */
export function levelIn(lab: Lab, level: 'hold' | 'switchOn'): Pulse['level'] {
  if (!lab.reduced) return level;
  return level === 'hold' ? 'holdReduced' : 'switchOnReduced';
}

/** Insulation of office clothing by season, clo. Assumed: a suit below 22 °C, summer clothes above 25; ranges in a warm
 *  room would be shorter in a suit. Source of the two values: ISO 7730 table of typical ensembles (from memory). */
export function officeClothingClo(roomTemperatureC: number): number {
  const share = Math.min(Math.max((roomTemperatureC - 22) / 3, 0), 1);
  return 1 - 0.5 * share;
}

export function labPerson(lab: Lab, atM: PointM, plan: PlanStep[], headingDeg = 0): PersonSpec {
  return {
    id: 'A',
    heightM: 1.75,
    clothingClo: officeClothingClo(lab.setup.airTemperatureC),
    cameFromC: lab.setup.airTemperatureC,
    atM,
    headingDeg,
    outsideAtStart: false,
    plan,
  };
}

/** Floor point at a distance and bearing from the detector, moved `alongM` clockwise along the tangent. */
export function placeAt(lab: Lab, radiusM: number, bearingDeg: number, alongM = 0): PointM {
  const s = sin((bearingDeg * PI) / 180);
  const c = cos((bearingDeg * PI) / 180);
  return [lab.centreM[0] + radiusM * s + alongM * c, lab.centreM[1] + radiusM * c - alongM * s];
}

export interface Watch {
  lab: Lab;
  state: MovementState;
  people: PersonState[];
  things: WarmThingSpec[];
  tick: number;
  random: { random: { name: string; values: number[] }[]; seed: number };
  bodies: BodyBuffer[];
  radiance: Float64Array;
  signalUv: Float32Array;
  maskedSectors: number[];
  noise: boolean;
  /** Scales all radiances (1 = as they are); lets tests reverse or double the contrast. */
  contrast: number;
  /** Feeds 25 instead of 50 poses a second. */
  halfRate: boolean;
  held: BodyBuffer[];
  lastBodies: BodyBuffer | null;
}

export function startWatch(lab: Lab, specs: PersonSpec[], seed = 1, noise = true): Watch {
  return {
    lab,
    state: createMovementState(lab.model, seed),
    people: createPeople(specs),
    things: lab.setup.warmThings,
    tick: 0,
    random: { random: [], seed },
    bodies: Array.from({ length: SUB_STEPS }, () => createBodyBuffer(MOST_BODIES)),
    radiance: new Float64Array(MOST_BODIES * PART_KINDS.length),
    signalUv: new Float32Array(4 * SUB_STEPS),
    maskedSectors: [...lab.maskedSectors],
    noise,
    contrast: 1,
    halfRate: false,
    held: [],
    lastBodies: null,
  };
}

/** Moves people on by a tick without looking. */
export function movePeople(watch: Watch): void {
  const stream = streamFor(watch.random, 'gestures');
  advancePeople(watch.people, watch.tick, stream);
  stream.save();
}

/** Poses at 25 instead of 50 a second: every second one is that of the sub-step before. */
function holdEverySecondPose(watch: Watch): void {
  const { bodies } = watch;
  const held = bodies.map((body, s) => {
    if ((watch.tick * SUB_STEPS + s) % 2 === 0) return body;
    return s > 0 ? bodies[s - 1]! : (watch.lastBodies ?? body);
  });
  watch.lastBodies = structuredClone(held[SUB_STEPS - 1]!);
  watch.held = held;
}

/** One tick: people, poses, radiance, sensing. */
export function watchTick(watch: Watch): Pulse[] {
  movePeople(watch);
  radiateBodies(watch.people, watch.things, watch.lab.setup, watch.tick, watch.radiance);
  if (watch.contrast !== 1) for (let k = 0; k < watch.radiance.length; k++) watch.radiance[k]! *= watch.contrast;
  poseTick(watch.people, watch.things, watch.tick, watch.bodies);
  if (watch.halfRate) holdEverySecondPose(watch);
  watch.tick++;
  const { state, radiance, maskedSectors, signalUv, noise } = watch;
  return senseMovement({
    tables: watch.lab.tables,
    state,
    bodies: watch.halfRate ? watch.held : watch.bodies,
    radiance,
    maskedSectors,
    placedOwners: [],
    signalUv,
    noise,
  });
}

export interface WatchedPulse extends Pulse {
  /** Since the watch began, s. */
  atS: number;
}

/** Returned by `each` below when enough has been seen. */
export const STOP = Symbol('stop');

/** Watches for `durationS`; pulses of the given level with their times. `each` sees every tick and may end it. */
export function watchFor(
  watch: Watch,
  durationS: number,
  level: Pulse['level'] | null,
  each?: (watch: Watch, pulses: readonly WatchedPulse[]) => unknown,
): WatchedPulse[] {
  const pulses: WatchedPulse[] = [];
  const ticks = Math.round(durationS * TICKS_PER_S);
  for (let k = 0; k < ticks; k++) {
    for (const pulse of watchTick(watch)) {
      if (level !== null && pulse.level !== level) continue;
      pulses.push({ ...pulse, atS: (watch.tick - 1) * TICK_S + (pulse.subStep * TICK_S) / SUB_STEPS });
    }
    if (each?.(watch, pulses) === STOP) break;
  }
  return pulses;
}

/** Largest |signal| of the given channels while watching, µV. */
export function peakWhile(watch: Watch, durationS: number, channels: readonly number[] = [0, 1, 2, 3]): number {
  let peak = 0;
  watchFor(watch, durationS, null, ({ signalUv }) => {
    for (const c of channels) {
      for (let s = 0; s < SUB_STEPS; s++) peak = Math.max(peak, Math.abs(signalUv[c * SUB_STEPS + s]!));
    }
  });
  return peak;
}

/** Two pulses of one channel must come within this time to switch on, s. Source: the controller's switch-on rule. */
const PAIR_WITHIN_S = 4;

/** When the switch-on rule is first met, s; null: never. `pulses` of level switchOn, in order. */
export function switchOnAtS(pulses: readonly WatchedPulse[]): number | null {
  const lastS: number[] = [];
  for (const pulse of pulses) {
    const before = lastS[pulse.channel];
    if (before !== undefined && pulse.atS - before <= PAIR_WITHIN_S) return pulse.atS;
    lastS[pulse.channel] = pulse.atS;
  }
  return null;
}
