/** A bare room with a detector, and bodies of a few ellipsoids that tests move as they like. */
import dome from '../../scenarios/detectors/dome-a.json' with { type: 'json' };
import { buildMovementTables, createMovementState, senseMovement } from '../../src/engine/detection/sense.ts';
import type { MovementState, MovementTables } from '../../src/engine/detection/types.ts';
import {
  type BodyBuffer,
  createBodyBuffer,
  type DetectorModel,
  MOST_BODIES,
  NUMBERS_PER_PART,
  PART_KINDS,
  PARTS_PER_BODY,
  type PartKind,
  type Pulse,
  type RoomSpec,
  type Setup,
  type Vector3,
} from '../../src/engine/types.ts';
import { SUB_STEPS } from '../../src/engine/units.ts';

export const DOME: DetectorModel = dome;

export function bareRoom(sizeM: Vector3 = [40, 40, 3.2]): RoomSpec {
  const grey = { front: 0.5, back: 0.5, left: 0.5, right: 0.5, floor: 0.3, ceiling: 0.8 };
  return {
    widthM: sizeM[0],
    depthM: sizeM[1],
    heightM: sizeM[2],
    backWallFacesDeg: 180,
    reflectance: grey,
    windows: [],
    doors: [],
    furniture: [],
    luminaires: [],
    maintenanceFactor: 0.8,
    deskPoints: [],
    airTemperatureC: 20,
    radiantTemperatureC: 20,
  };
}

export function bareSetup(room: RoomSpec, change: Partial<Setup> = {}): Setup {
  return {
    mount: { atM: [room.widthM / 2, room.depthM / 2], heightM: 3, turnDeg: 0 },
    sky: 'overcast',
    sunShiftS: 0,
    sunLocalDate: '2026-01-15',
    airTemperatureC: room.airTemperatureC,
    radiantTemperatureC: room.radiantTemperatureC,
    blinds: [],
    doors: [],
    furniture: [],
    reflectance: room.reflectance,
    warmThings: [],
    ...change,
  };
}

export interface TestPart {
  kind: PartKind;
  /** Relative to the body's floor point. */
  centreM: Vector3;
  /** Semi-axes, m. */
  halfM: Vector3;
}

/** Upright body 1.75 m tall. Assumed: sizes of the ordinary adult, only their order matters here. */
export const MANIKIN: TestPart[] = [
  { kind: 'hair', centreM: [0, 0, 1.68], halfM: [0.09, 0.1, 0.09] },
  { kind: 'face', centreM: [0, 0.03, 1.6], halfM: [0.075, 0.085, 0.11] },
  { kind: 'clothing', centreM: [0, 0, 1.25], halfM: [0.19, 0.12, 0.28] },
  { kind: 'clothing', centreM: [0, 0, 0.95], halfM: [0.17, 0.12, 0.15] },
  { kind: 'clothing', centreM: [-0.24, 0, 1.25], halfM: [0.05, 0.05, 0.17] },
  { kind: 'clothing', centreM: [0.24, 0, 1.25], halfM: [0.05, 0.05, 0.17] },
  { kind: 'clothing', centreM: [-0.25, 0.02, 0.97], halfM: [0.04, 0.04, 0.14] },
  { kind: 'clothing', centreM: [0.25, 0.02, 0.97], halfM: [0.04, 0.04, 0.14] },
  { kind: 'hand', centreM: [-0.25, 0.03, 0.78], halfM: [0.03, 0.045, 0.08] },
  { kind: 'hand', centreM: [0.25, 0.03, 0.78], halfM: [0.03, 0.045, 0.08] },
  { kind: 'clothing', centreM: [-0.1, 0, 0.65], halfM: [0.085, 0.085, 0.24] },
  { kind: 'clothing', centreM: [0.1, 0, 0.65], halfM: [0.085, 0.085, 0.24] },
  { kind: 'clothing', centreM: [-0.1, 0, 0.25], halfM: [0.055, 0.055, 0.24] },
  { kind: 'clothing', centreM: [0.1, 0, 0.25], halfM: [0.055, 0.055, 0.24] },
];

/** Typical excess radiance at 20 degrees by part kind. Source: detection physics, Planck 8-14 um with ordinary clothing. */
export const WARM: Record<PartKind, number> = { hair: 4.4, face: 9.5, clothing: 3.2, hand: 7.5, thing: 5 };

export interface TestBody {
  owner: number;
  atM: [number, number];
  parts: TestPart[];
  key?: number;
}

let nextKey = 1;

export function fillBuffer(buffer: BodyBuffer, bodies: TestBody[]): void {
  buffer.count = bodies.length;
  bodies.forEach((body, b) => {
    buffer.owner[b] = body.owner;
    buffer.poseKey[b] = body.key ?? nextKey++;
    const from = b * PARTS_PER_BODY * NUMBERS_PER_PART;
    buffer.parts.fill(0, from, from + PARTS_PER_BODY * NUMBERS_PER_PART);
    body.parts.forEach((part, p) => {
      const k = from + p * NUMBERS_PER_PART;
      buffer.parts[k] = body.atM[0] + part.centreM[0];
      buffer.parts[k + 1] = body.atM[1] + part.centreM[1];
      buffer.parts[k + 2] = part.centreM[2];
      buffer.parts[k + 3] = part.halfM[0];
      buffer.parts[k + 7] = part.halfM[1];
      buffer.parts[k + 11] = part.halfM[2];
      buffer.partKind[b * PARTS_PER_BODY + p] = PART_KINDS.indexOf(part.kind);
    });
  });
}

export interface Stage {
  tables: MovementTables;
  state: MovementState;
  bodies: BodyBuffer[];
  radiance: Float64Array;
  signalUv: Float32Array;
  maskedSectors: number[];
}

export function createStage(room = bareRoom(), setup = bareSetup(room), seed = 1, model = DOME): Stage {
  const radiance = new Float64Array(MOST_BODIES * PART_KINDS.length);
  for (let owner = 0; owner < MOST_BODIES; owner++) setRadiance(radiance, owner, 1);
  return {
    tables: buildMovementTables(model, room, setup),
    state: createMovementState(model, seed),
    bodies: Array.from({ length: SUB_STEPS }, () => createBodyBuffer(MOST_BODIES)),
    radiance,
    signalUv: new Float32Array(4 * SUB_STEPS),
    maskedSectors: [],
  };
}

export function setRadiance(radiance: Float64Array, owner: number, share: number): void {
  PART_KINDS.forEach((kind, k) => {
    radiance[owner * PART_KINDS.length + k] = WARM[kind] * share;
  });
}

export interface StageRun {
  pulses: (Pulse & { tick: number })[];
  /** Signal per channel at every sub-step, µV. */
  signalUv: number[][];
}

/** Runs `ticks` ticks; `at(subStepIndex)` gives the bodies of each sub-step. Noise is off unless asked for. */
export function runStage(
  stage: Stage,
  ticks: number,
  at: (step: number) => TestBody[],
  options: {
    noise?: boolean;
    placedOwners?: (tick: number) => number[];
    sceneChanged?: (tick: number) => boolean;
  } = {},
): StageRun {
  const run: StageRun = { pulses: [], signalUv: [[], [], [], []] };
  for (let tick = 0; tick < ticks; tick++) {
    for (let s = 0; s < SUB_STEPS; s++) fillBuffer(stage.bodies[s]!, at(tick * SUB_STEPS + s));
    const pulses = senseMovement({
      ...stage,
      noise: options.noise ?? false,
      placedOwners: options.placedOwners?.(tick) ?? [],
      sceneChanged: options.sceneChanged?.(tick) ?? false,
    });
    for (const pulse of pulses) run.pulses.push({ ...pulse, tick });
    for (let c = 0; c < 4; c++) {
      for (let s = 0; s < SUB_STEPS; s++) run.signalUv[c]!.push(stage.signalUv[c * SUB_STEPS + s]!);
    }
  }
  return run;
}

/** Largest |signal| of all channels, µV. */
export function peakUv(run: StageRun, channels = [0, 1, 2, 3]): number {
  return Math.max(...channels.flatMap((c) => run.signalUv[c]!.map(Math.abs)));
}
