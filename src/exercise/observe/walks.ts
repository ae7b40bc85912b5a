/**
 * Two walks compared: from one place, along lines that the learner chooses. Each is walked in the room as it was at
 * first, nobody seen yet; what the learner noted is measured anew.
 */
import type { PlanStep, PointM, Scenario, Tick } from '../../engine/types.ts';
import { secondsToTicks } from '../../engine/units.ts';
import { benchScenario, drawn } from '../edits.ts';
import { placeOf, polarOf } from '../reach/polygon.ts';
import { play } from '../replay.ts';
import type { ObserveExercise, WalkChoice, WalkedLine, WalkNoted, WalksTask } from './types.ts';

/** Whoever walks, and the pause before, s. Assumed: long enough to look round, too short for anything to adapt. */
export const WALKER = 'A';
export const WALK_FROM_S = 10;
/** Of each metre, so much brings a walk toward the detector nearer to it, and one across at most so much. */
const TOWARD_AT_LEAST = 0.9;
const ACROSS_AT_MOST = 0.25;
/** Where draws for the lines begin among those of an exercise; a file has six lists of its own at most. */
const DRAW_BEARING = 40;
const DRAW_PACES = 41;
const DRAW_ORDER = 42;

/** A line on offer. */
export interface WalkOffer {
  id: number;
  fromM: PointM;
  toM: PointM;
  /** Distance from under the detector where it begins and where it ends, m. */
  beginsM: number;
  endsM: number;
}

export type WalksExercise = ObserveExercise & { observe: WalksTask };

export function isWalks(exercise: ObserveExercise): exercise is WalksExercise {
  return exercise.observe.task === 'walks';
}

function offersAt(task: WalksTask, bearingDeg: number, seed: number, detectorM: PointM): WalkOffer[] {
  const fromM = placeOf(detectorM, bearingDeg, task.beginsM);
  const first = drawn(seed, DRAW_ORDER, task.turnsDeg.length);
  return task.turnsDeg.map((_, i) => {
    const turnDeg = task.turnsDeg[(first + i) % task.turnsDeg.length]!;
    const toM = placeOf(fromM, bearingDeg + 180 - turnDeg, task.lengthM);
    return { id: i + 1, fromM, toM, beginsM: task.beginsM, endsM: polarOf(detectorM, toM).radiusM };
  });
}

/** The lines of a bench, from one place. */
export function walkOffers(exercise: WalksExercise, seed: number): WalkOffer[] {
  const { bearingsDeg } = exercise.observe;
  const bearingDeg = bearingsDeg[drawn(seed, DRAW_BEARING, bearingsDeg.length)]!;
  return offersAt(exercise.observe, bearingDeg, seed, benchScenario(exercise, seed).mount.atM);
}

/** Paces of a bench, m/s, the slower one first. */
export function walkPaces(exercise: WalksExercise, seed: number): [number, number] {
  const { pacesMps } = exercise.observe;
  return pacesMps[drawn(seed, DRAW_PACES, pacesMps.length)]!;
}

/** Every line that a seed can draw, for the check of the file. */
export function allOffers(task: WalksTask, detectorM: PointM): WalkOffer[] {
  return task.bearingsDeg.flatMap((bearingDeg) => offersAt(task, bearingDeg, 0, detectorM));
}

/** The room with a walk in it; null: the Stand-in stands where the lines begin. */
export function walkScenario(exercise: WalksExercise, seed: number, choice: WalkChoice | null): Scenario {
  const scenario = benchScenario(exercise, seed);
  const offers = walkOffers(exercise, seed);
  const chosen = choice && offers.find(({ id }) => id === choice.line);
  const plan: PlanStep[] = chosen
    ? [{ act: 'walk', toM: chosen.toM, speedMps: choice.paceMps, fromS: WALK_FROM_S }, { act: 'standStill' }]
    : [{ act: 'standStill' }];
  const { fromM, toM } = chosen ?? offers[0]!;
  const walker = {
    id: WALKER,
    heightM: 1.74,
    clothingClo: 1,
    cameFromC: scenario.room.airTemperatureC,
    atM: fromM,
    headingDeg: polarOf(fromM, toM).bearingDeg,
    outsideAtStart: false,
    plan,
  };
  return { ...scenario, people: [...scenario.people, walker] };
}

/** What a walk showed. */
export interface WalkTruth {
  /** When the room first answered; null: it never did. */
  seenTick: Tick | null;
  /** Way walked, m, and distance from under the detector, m, at each tick. */
  wayM: number[];
  farM: number[];
  /** Largest signal of the four channels, µV, at each tick. */
  signalUv: number[];
  peakUv: number;
  peakTick: Tick;
  /** Pulses for each metre of the way. */
  pulsesPerM: number;
}

function measure(exercise: WalksExercise, seed: number, choice: WalkChoice): WalkTruth {
  const scenario = walkScenario(exercise, seed, choice);
  const { atM: detectorM } = scenario.mount;
  const fromM = scenario.people.at(-1)!.atM;
  const truth: WalkTruth = {
    seenTick: null,
    wayM: [],
    farM: [],
    signalUv: [],
    peakUv: 0,
    peakTick: 0,
    pulsesPerM: 0,
  };
  let pulses = 0;
  play(scenario, [], secondsToTicks(exercise.observe.toS) + 1, ({ tick, events, signalUv }, { state }) => {
    const { atM } = state.people.find(({ spec }) => spec.id === WALKER)!;
    const uv = signalUv.reduce((most, v) => Math.max(most, Math.abs(v)), 0);
    if (events.some(({ kind }) => kind === 'seen')) truth.seenTick ??= tick;
    pulses += events.filter(({ kind }) => kind === 'pulse').length;
    truth.wayM.push(polarOf(fromM, atM).radiusM);
    truth.farM.push(polarOf(detectorM, atM).radiusM);
    truth.signalUv.push(uv);
    if (uv > truth.peakUv) Object.assign(truth, { peakUv: uv, peakTick: tick });
  });
  truth.pulsesPerM = pulses / exercise.observe.lengthM;
  return truth;
}

/** Walks measured before: an exercise has eight of them on a bench, and proofs ask for each many times. */
const measured = new WeakMap<WalksExercise, Map<string, WalkTruth>>();

export function walkTruth(exercise: WalksExercise, seed: number, choice: WalkChoice): WalkTruth {
  const known = measured.get(exercise) ?? new Map<string, WalkTruth>();
  measured.set(exercise, known);
  const key = `${seed} ${choice.line} ${choice.paceMps}`;
  const truth = known.get(key) ?? measure(exercise, seed, choice);
  known.set(key, truth);
  return truth;
}

export type Direction = 'toward' | 'across' | 'between';

export function directionOf({ beginsM, endsM }: WalkOffer, { lengthM }: WalksTask): Direction {
  const nearer = (beginsM - endsM) / lengthM;
  if (nearer >= TOWARD_AT_LEAST) return 'toward';
  return Math.abs(nearer) <= ACROSS_AT_MOST ? 'across' : 'between';
}

/** A walk with both notes taken where they belong. */
export function notedWalk(exercise: WalksExercise, seed: number, choice: WalkChoice): WalkedLine {
  const truth = walkTruth(exercise, seed, choice);
  const note = (tick: Tick): WalkNoted => ({ tick, wayM: truth.wayM[tick]!, signalUv: truth.signalUv[tick]! });
  return {
    ...choice,
    ...(truth.seenTick === null ? { unseen: true } : { seen: note(truth.seenTick) }),
    signal: note(truth.peakTick),
  };
}
