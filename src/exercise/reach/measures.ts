/** Ranges as diameters, measured in the laboratory of lab.ts: across, toward, seated. */
import type { DetectorModel } from '../../engine/types.ts';
import {
  createLab,
  type Lab,
  type LabConditions,
  labPerson,
  levelIn,
  movePeople,
  placeAt,
  STOP,
  startWatch,
  switchOnAtS,
  type Watch,
  type WatchedPulse,
  watchFor,
} from './lab.ts';
import { limitM, roomAheadM } from './roomLab.ts';

/** Bearings tried at each radius. Assumed: 15 degrees apart and shifted at random; more changes a range by under a step. */
const BEARINGS = 24;
/** Share of attempts that must trigger. Source: the stated definition of a range. */
const NEEDED_SHARE = 0.9;
/** Radii tried, m. */
const WALK_STEP_M = 1;
const SEAT_STEP_M = 0.5;
/** No room of ours reaches further from its detector, m. Assumed: past the outermost beams at 4 m mounting. */
export const FURTHEST_M = 22;
/** Length of a crossing walk, centred on the radius, m, and where a walk toward the detector begins. */
const CROSSING_M = 3;
const TOWARD_FROM_M = 15;

export type Movement = 'walkingAcross' | 'walkingToward' | 'seated';
export const MOVEMENTS: readonly Movement[] = ['walkingAcross', 'walkingToward', 'seated'];

export interface RangeQuestion {
  model: DetectorModel;
  mountingHeightM: number;
  roomTemperatureC: number;
  movement: Movement;
  speedMps?: number;
}

/** Golden-ratio sequence: shifts of the bearings that never repeat and need no generator. Source: Weyl sequence. */
export function shift(k: number): number {
  return (k * 0.6180339887498949) % 1;
}

function bearingDeg(attempt: number, row: number): number {
  return ((attempt + shift(attempt + 7 * row)) * 360) / BEARINGS;
}

const untilOn = (_: Watch, pulses: readonly WatchedPulse[]) => (switchOnAtS(pulses) === null ? null : STOP);
const untilSeen = (_: Watch, pulses: readonly WatchedPulse[]) => (pulses.length === 0 ? null : STOP);

/** Ways before and after the middle of a crossing, m: walls cut it short. */
function crossing(lab: Lab, radiusM: number, bearing: number, clockwise: 1 | -1): [number, number] {
  const middle = placeAt(lab, radiusM, bearing);
  const ahead = placeAt(lab, radiusM, bearing, clockwise);
  const [x, y] = [ahead[0] - middle[0], ahead[1] - middle[1]];
  return [roomAheadM(lab, middle, -x, -y, CROSSING_M / 2), roomAheadM(lab, middle, x, y, CROSSING_M / 2)];
}

/** Whether a walk across at this radius and bearing switches on. */
export function crossingTriggers(lab: Lab, radiusM: number, bearing: number, speedMps: number, seed: number): boolean {
  const clockwise = seed % 2 === 0 ? 1 : -1;
  const [before, after] = crossing(lab, radiusM, bearing, clockwise);
  const plan = [{ act: 'walk' as const, toM: placeAt(lab, radiusM, bearing, clockwise * after), speedMps }];
  const from = placeAt(lab, radiusM, bearing, -clockwise * before);
  const watch = startWatch(lab, [labPerson(lab, from, plan, bearing + (clockwise > 0 ? 90 : 270))], seed);
  return switchOnAtS(watchFor(watch, (before + after) / speedMps + 1, levelIn(lab, 'switchOn'), untilOn)) !== null;
}

/** Distance at which a walk straight toward the detector first meets the rule, m; 0: never. */
export function towardM(lab: Lab, bearing: number, speedMps: number, level: 'switchOn' | 'hold', seed: number): number {
  const plan = [{ act: 'walk' as const, toM: lab.centreM, speedMps }];
  const fromM = limitM(lab, bearing, TOWARD_FROM_M);
  const start = labPerson(lab, placeAt(lab, fromM, bearing), plan, bearing + 180);
  const enough = level === 'hold' ? untilSeen : untilOn;
  const pulses = watchFor(startWatch(lab, [start], seed), fromM / speedMps, levelIn(lab, level), enough);
  const atS = level === 'hold' ? (pulses[0]?.atS ?? null) : switchOnAtS(pulses);
  return atS === null ? 0 : Math.max(0, fromM - speedMps * atS);
}

export type SeatedGesture = 'reach' | 'lean' | 'type';

/** Whether one gesture of a seated person gives a hold pulse. */
export function gestureHolds(
  lab: Lab,
  radiusM: number,
  bearing: number,
  headingDeg: number,
  kind: SeatedGesture,
  seed: number,
): boolean {
  // The next gesture of the plan's own is years away.
  const plan = [{ act: kind, headingDeg, gestureEveryS: 1e9 }];
  const watch = startWatch(lab, [labPerson(lab, placeAt(lab, radiusM, bearing), plan, headingDeg)], seed);
  for (; watch.tick < 40; watch.tick++) movePeople(watch);
  const ticks = kind === 'reach' ? 20 : kind === 'lean' ? 30 : 14;
  watch.people[0]!.gesture = { kind, startTick: watch.tick + 10, ticks, side: seed % 3 === 0 ? -1 : 1 };
  return watchFor(watch, ticks / 10 + 2.5, levelIn(lab, 'hold'), untilSeen).length > 0;
}

/** Largest radius, in steps, up to which at least 90 % of attempts trigger at every step. */
function radiusWhere(stepM: number, triggers: (radiusM: number, attempt: number, row: number) => boolean): number {
  let radius = 0;
  for (let row = 1; row * stepM <= FURTHEST_M; row++) {
    let missed = 0;
    const mayMiss = Math.floor(BEARINGS * (1 - NEEDED_SHARE) + 1e-9);
    for (let attempt = 0; attempt < BEARINGS && missed <= mayMiss; attempt++) {
      if (!triggers(row * stepM, attempt, row)) missed++;
    }
    if (missed > mayMiss) break;
    radius = row * stepM;
  }
  return radius;
}

export interface ShareAt {
  radiusM: number;
  /** Attempts that trigger, 0-1. */
  share: number;
}

/** How many steps in a row without a single trigger end a profile. Assumed: rings of the lens lie nearer than that. */
const SILENT_STEPS = 3;

/** The whole course that `detectionRangeM` cuts short: share of attempts at every radius until nobody is seen any more. */
export function sharesByRadius(q: RangeQuestion & { movement: 'walkingAcross' | 'seated' }): ShareAt[] {
  const lab = labFor(q);
  const speed = q.speedMps ?? 1;
  const walks = q.movement === 'walkingAcross';
  const stepM = walks ? WALK_STEP_M : SEAT_STEP_M;
  const shares: ShareAt[] = [];
  for (let row = 1, silent = 0; row * stepM <= FURTHEST_M && silent < SILENT_STEPS; row++) {
    const radiusM = row * stepM;
    let seen = 0;
    for (let k = 0; k < BEARINGS; k++) {
      const bearing = bearingDeg(k, row);
      const triggers = walks
        ? crossingTriggers(lab, radiusM, bearing, speed, k)
        : gestureHolds(lab, radiusM, bearing, 360 * shift(3 * k + row), 'reach', k);
      if (triggers) seen++;
    }
    silent = seen === 0 ? silent + 1 : 0;
    shares.push({ radiusM, share: seen / BEARINGS });
  }
  return shares;
}

function median(values: number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length / 2;
  return (sorted[Math.floor(middle - 0.5)]! + sorted[Math.floor(middle)]!) / 2;
}

function labFor(q: LabConditions): Lab {
  return createLab({ model: q.model, mountingHeightM: q.mountingHeightM, roomTemperatureC: q.roomTemperatureC });
}

/** Median distance at which walks straight toward the detector are seen by the given rule, m. */
export function medianTowardM(c: LabConditions, level: 'switchOn' | 'hold', speedMps = 1): number {
  const lab = labFor(c);
  return median(Array.from({ length: BEARINGS }, (_, k) => towardM(lab, bearingDeg(k, 0), speedMps, level, k)));
}

/** Diameter, m, as the reference rows define it. */
export function detectionRangeM(q: RangeQuestion): number {
  const lab = labFor(q);
  const speed = q.speedMps ?? 1;
  switch (q.movement) {
    case 'walkingAcross':
      return 2 * radiusWhere(WALK_STEP_M, (r, k, row) => crossingTriggers(lab, r, bearingDeg(k, row), speed, k));
    case 'walkingToward':
      return 2 * medianTowardM(q, 'switchOn', speed);
    case 'seated':
      return (
        2 *
        radiusWhere(SEAT_STEP_M, (r, k, row) =>
          gestureHolds(lab, r, bearingDeg(k, row), 360 * shift(3 * k + row), 'reach', k),
        )
      );
  }
}
