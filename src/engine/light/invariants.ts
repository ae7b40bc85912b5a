/** Reference rows that whole rooms must satisfy, answered by building the rooms with the engine's own light. */
import { cos, PI, sin, sqrt } from '../math.ts';
import { numberIn, type RowFunctions, RowInputError, type RowInputs, wordIn } from '../rowInputs.ts';
import type { FaceId, Vector3 } from '../types.ts';
import { degToRad } from '../units.ts';
import type { LitScene } from './balance.ts';
import { absorbedLm, lampsElementLx, lightUp, reflectedElementLx, skyElementLx } from './balance.ts';
import type { OutsideLight } from './parts.ts';
import { buildBlindPart, sensorDaylight } from './parts.ts';
import type { LightScene, SceneLamp, SceneSensor } from './scene.ts';
import { sensorWeighting } from './sensors.ts';

function evenReflectance(value: number): Record<FaceId, number> {
  return { left: value, right: value, front: value, back: value, floor: value, ceiling: value };
}

function ceilingLamp(size: Vector3, x: number, y: number, fluxLm: number): SceneLamp {
  return {
    centreM: [size[0] * x, size[1] * y, size[2]],
    sizeM: [0.6, 0.6],
    downLm: fluxLm,
    upLm: 0,
    distribution: 'lambert',
  };
}

/** A closed box without furniture, one lamp in the ceiling. */
export function closedBox(size: Vector3, reflectance: number, fluxLm: number): LightScene {
  return {
    sizeM: size,
    reflectance: evenReflectance(reflectance),
    openings: [],
    boxes: [],
    lampGroups: [[ceilingLamp(size, 0.5, 0.5, fluxLm)]],
    sensors: [],
    yBearingDeg: 0,
    groundReflectance: 0.2,
    obstructionAltitudeDeg: 0,
    obstructionReflectance: 0,
  };
}

const TRIAL_SIZE: Vector3 = [5, 4, 2.8];

function trialSensors(): SceneSensor[] {
  const tilt = degToRad(35);
  return [
    { id: 'desk', positionM: [2.5, 1.5, 0.75], normal: [0, 0, 1], halfAngleDeg: null },
    { id: 'wall', positionM: [0, 2, 1.2], normal: [1, 0, 0], halfAngleDeg: null },
    { id: 'ceiling', positionM: [2.5, 2, 2.8], normal: [0, 0, -1], halfAngleDeg: null },
    { id: 'photometer', positionM: [2.5, 2, 2.8], normal: [0, sin(tilt), -cos(tilt)], halfAngleDeg: 30 },
    { id: 'wide photometer', positionM: [2.5, 2, 2.8], normal: [0, 0, -1], halfAngleDeg: 60 },
  ];
}

/** A room with a window, a hole in the roof, a desk and a cabinet, and two lamps in two groups. */
export function trialRoom(change: Partial<LightScene> = {}): LightScene {
  const size = TRIAL_SIZE;
  return {
    ...closedBox(size, 0.5, 0),
    reflectance: { left: 0.5, right: 0.4, front: 0.6, back: 0.5, floor: 0.2, ceiling: 0.7 },
    openings: [
      {
        id: 'window',
        face: 'back',
        minM: [1, 4, 0.9],
        maxM: [4, 4, 2.3],
        kind: 'window',
        transmittance: 0.6,
        glazed: true,
        insideReflectance: 0.1,
        revealM: 0,
        exitanceLx: 0,
      },
      {
        id: 'roof',
        face: 'ceiling',
        minM: [0.5, 0.5, 2.8],
        maxM: [1.3, 1.1, 2.8],
        kind: 'window',
        transmittance: 1,
        glazed: false,
        insideReflectance: 0,
        revealM: 0,
        exitanceLx: 0,
      },
    ],
    boxes: [
      { minM: [2, 1.1, 0.7], maxM: [3.4, 1.9, 0.73], reflectance: 0.4, furnitureId: null },
      { minM: [4.4, 0.4, 0], maxM: [5, 1.6, 1.8], reflectance: 0.3, furnitureId: null },
    ],
    lampGroups: [[ceilingLamp(size, 0.3, 0.4, 3000)], [ceilingLamp(size, 0.7, 0.7, 2000)]],
    sensors: trialSensors(),
    ...change,
  };
}

/** A sky (and sun) at 40 degrees in the south-west. */
export function trialOutside(cieType: number, skyLx: number, sunLx: number): OutsideLight {
  const altitude = degToRad(40);
  const azimuth = degToRad(230);
  return {
    cieType,
    sunAltitudeDeg: 40,
    sunAzimuthDeg: 230,
    horizontalSkyLx: skyLx,
    directNormalLx: sunLx,
    sunDirection: [cos(altitude) * sin(azimuth), cos(altitude) * cos(azimuth), sin(altitude)],
  };
}

/** Daylight of the scene's sensors with open blinds, lx. */
export function daylightLx(lit: LitScene, light: OutsideLight): number[] {
  const open = buildBlindPart(lit.geometry, lit.sensors, lit.scene.openings.length, []);
  return sensorDaylight(lit.geometry, lit.scene, lit.sensors, open, light);
}

/** The member furthest from `target`. */
function worst(values: number[], target: number): number {
  return values.reduce((far, v) => (Math.abs(v - target) > Math.abs(far - target) ? v : far), target);
}

function superpositionError(): number {
  const lit = lightUp(trialRoom());
  const together = lightUp(trialRoom({ lampGroups: [trialRoom().lampGroups.flat()] }));
  const all = daylightLx(together, trialOutside(12, 9000, 50_000));
  const sky = daylightLx(lit, trialOutside(12, 9000, 0));
  const sun = daylightLx(lit, trialOutside(12, 0, 50_000));
  return Math.max(
    ...lit.sensors.map((s, i) => {
      const whole = all[i]! + together.sensors[i]!.lampLx[0]!;
      return Math.abs(whole - (sky[i]! + sun[i]! + s.lampLx[0]! + s.lampLx[1]!)) / whole;
    }),
  );
}

function energyBalance(withOpenings: boolean): number {
  const lit = lightUp(trialRoom(withOpenings ? {} : { openings: [] }));
  const direct = lampsElementLx(lit);
  let inLm = lit.scene.lampGroups.flat().reduce((sum, lamp) => sum + lamp.downLm + lamp.upLm, 0);
  if (withOpenings) {
    const sky = skyElementLx(lit, trialOutside(12, 9000, 0));
    for (let e = 0; e < direct.length; e++) direct[e]! += sky.elementLx[e]!;
    inLm += sky.enteredLm;
  }
  return absorbedLm(lit, direct) / inLm;
}

function overcastRotationRatio(inputs: RowInputs): number {
  const type = inputs.skyType === undefined ? 1 : numberIn(inputs, 'skyType');
  if (![1, 3, 5, 16].includes(type)) throw new RowInputError('skyType', '1, 3, 5 or 16');
  const light = trialOutside(type, 10_000, 0);
  const before = daylightLx(lightUp(trialRoom()), light);
  const after = daylightLx(lightUp(trialRoom({ yBearingDeg: 90 })), light);
  return worst(
    after.map((lx, i) => lx / before[i]!),
    1,
  );
}

/** Largest reflected light anywhere in a black room with all sources on, lx. */
function blackRoomIndirect(): number {
  const room = trialRoom({ reflectance: evenReflectance(0) });
  const black: LightScene = {
    ...room,
    openings: room.openings.map((o) => ({ ...o, insideReflectance: 0 })),
    boxes: room.boxes.map((b) => ({ ...b, reflectance: 0 })),
  };
  const lit = lightUp(black);
  const direct = lampsElementLx(lit);
  const sky = skyElementLx(lit, trialOutside(12, 9000, 0)).elementLx;
  for (let e = 0; e < direct.length; e++) direct[e]! += sky[e]!;
  const rows = lit.sensors.flatMap((s) => [...s.row.kernel].map((k) => k * 1e5));
  return Math.max(
    ...reflectedElementLx(lit, direct),
    rows.reduce((most, v) => Math.max(most, v), 0),
  );
}

function doubleLampFlux(): number {
  const doubled = trialRoom().lampGroups.map((group) => group.map((lamp) => ({ ...lamp, downLm: 2 * lamp.downLm })));
  const once = lightUp(trialRoom()).sensors;
  const twice = lightUp(trialRoom({ lampGroups: doubled })).sensors;
  return worst(
    twice.flatMap((s, i) => s.lampLx.map((lx, group) => lx / once[i]!.lampLx[group]!)),
    2,
  );
}

function doubleSkyIlluminance(): number {
  const lit = lightUp(trialRoom());
  const once = daylightLx(lit, trialOutside(12, 9000, 0));
  return worst(
    daylightLx(lit, trialOutside(12, 18_000, 0)).map((lx, i) => lx / once[i]!),
    2,
  );
}

/** Steps of the direction integral below, in angle from the axis and round it. Assumed: 600 x 8, error under 0.01 %. */
const RING_STEPS = 600;

/** Reading in a field of luminance 1 over pi, from the weighting itself. */
function weightingIntegral(sensor: SceneSensor): number {
  const [nx, ny, nz] = sensor.normal;
  const weigh = sensorWeighting(sensor);
  const side: Vector3 = Math.abs(nz) > 0.5 ? [1, 0, 0] : [0, 0, 1];
  const along = side[0] * nx + side[1] * ny + side[2] * nz;
  const raw: Vector3 = [side[0] - along * nx, side[1] - along * ny, side[2] - along * nz];
  const length = sqrt(raw[0] * raw[0] + raw[1] * raw[1] + raw[2] * raw[2]);
  let sum = 0;
  for (let i = 0; i < RING_STEPS; i++) {
    const angle = ((i + 0.5) / RING_STEPS) * (PI / 2);
    const [a, b] = [cos(angle), sin(angle) / length];
    const w = weigh(a * nx + b * raw[0], a * ny + b * raw[1], a * nz + b * raw[2]);
    sum += (w * 2 * PI * sin(angle) * (PI / 2)) / RING_STEPS;
  }
  return sum / PI;
}

/** In a closed room whose surfaces all shine with luminance L, and by the integral of the weighting alone. */
function uniformFieldSensor(): number {
  const { sensors } = lightUp(trialRoom({ openings: [] }));
  const seen = sensors.map((s) => s.row.view.reduce((sum, v) => sum + v, 0));
  return worst([...seen, ...trialSensors().map(weightingIntegral)], 1);
}

const CASES: Readonly<Record<string, (inputs: RowInputs) => number>> = {
  superpositionError,
  energyBalanceClosedRoom: () => energyBalance(false),
  energyBalanceRoomWithOpenings: () => energyBalance(true),
  overcastRotationRatio,
  blackRoomIndirect,
  doubleLampFlux,
  doubleSkyIlluminance,
  uniformFieldSensor,
};

/** Whole-engine identities by `case`. */
export const invariantRows: RowFunctions = {
  lightInvariant: (inputs) => CASES[wordIn(inputs, 'case', Object.keys(CASES))]!(inputs),
};
