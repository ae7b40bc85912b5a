/** Exercises of observing: what the learner is asked, what is answered, and what the marks say. */
import type { OutputId, RowId, Tick } from '../../engine/types.ts';
import type { CauseId, ExerciseBase } from '../types.ts';

/** A recorded stretch is read: each switching is tagged at its instant with its cause. */
export interface TagsTask {
  task: 'tags';
  /** The record ends here, s. */
  toS: number;
  /** Switchings in the record, on every bench. */
  moments: number;
}

/** Light on the desks beside what the ceiling reads: one ratio for each row. */
export interface RatiosTask {
  task: 'ratios';
  /** The room is shown from here, s. */
  fromS: number;
  /** Readings are taken up to here, s. */
  toS: number;
}

/** Two walks from one place compared: which is seen after the shorter way, and why. */
export interface WalksTask {
  task: 'walks';
  /** Each walk is over by then, s. */
  toS: number;
  /** Where the lines begin: distance from under the detector, m, and bearings of which the seed picks one. */
  beginsM: number;
  bearingsDeg: number[];
  /** Of each line, m, and how far each turns aside from the way to the detector. */
  lengthM: number;
  turnsDeg: number[];
  /** Pairs of paces, m/s, of which the seed picks one. */
  pacesMps: [number, number][];
}

export type ObserveTask = TagsTask | RatiosTask | WalksTask;

export interface ObserveExercise extends ExerciseBase {
  kind: 'observe';
  observe: ObserveTask;
}

export interface Tag {
  atS: number;
  output: OutputId;
  cause: CauseId;
}

/** The meter laid on a desk. What it showed is kept to be shown again, and never believed: it is read anew. */
export interface DeskReading {
  tick: Tick;
  /** Desk point of the room. */
  desk: string;
  deskLx: number;
  ceilingLx: number;
}

/** A line of the bench, by its number, and the pace along it. */
export interface WalkChoice {
  line: number;
  paceMps: number;
}

/** What an instant of a walk showed; kept to be shown again, and measured anew. */
export interface WalkNoted {
  tick: Tick;
  wayM: number;
  signalUv: number;
}

/** A walk that was chosen, with what was noted of it: where it was first seen, and its largest signal. */
export interface WalkedLine extends WalkChoice {
  seen?: WalkNoted;
  /** Noted that the room did not answer at all. */
  unseen?: boolean;
  signal?: WalkNoted;
}

/** Why a walk is seen earlier than the other. */
export type WalkReason = 'crossesEdges' | 'comesNearer' | 'looksWider' | 'isWarmer';

export interface ObserveAnswers {
  tags?: Tag[];
  readings?: DeskReading[];
  /** Desk light over ceiling reading, row by row. */
  ratios?: Partial<Record<RowId, number>>;
  /** The first walk and the second. */
  walks?: WalkedLine[];
  /** The walk that is seen after the shorter way. */
  earlier?: 0 | 1;
  why?: WalkReason;
}

/** Reasons for points of tags. */
export type TagLine =
  | { code: 'tagRight'; output: OutputId; on: boolean; trueS: number; cause: CauseId }
  | { code: 'tagOtherCause'; output: OutputId; on: boolean; trueS: number; cause: CauseId; said: CauseId }
  | { code: 'notTagged'; output: OutputId; on: boolean; trueS: number; cause: CauseId }
  | { code: 'nothingThere'; output: OutputId; saidS: number };

/** Reasons for points of ratios. */
export type RatioLine =
  | { code: 'ratioSaid'; row: RowId; said: number; ratio: number; deskLx: number; ceilingLx: number }
  | { code: 'ratioMissing'; row: RowId; ratio: number }
  | { code: 'desksNotRead'; row: RowId; read: number; of: number };

/** Reasons for points of two walks. */
export type WalkLine =
  | { code: 'walkPair'; both: boolean; samePace: boolean; walked: boolean }
  | {
      code: 'walkSeen';
      walk: 0 | 1;
      walked: boolean;
      unseen: boolean;
      trueWayM: number | null;
      saidWayM: number | null;
      farM: number | null;
    }
  | { code: 'walkSignal'; walk: 0 | 1; peakUv: number | null; saidUv: number | null }
  | { code: 'walkEarlier'; compared: boolean; earlier: 0 | 1 | null; said: 0 | 1 | null }
  | { code: 'walkWhy'; compared: boolean; said: WalkReason | null; perM: [number, number]; fits: boolean };

export type ObserveLine = TagLine | RatioLine | WalkLine;

/** A belief that shows in tags. */
export interface TagSignature {
  id: 'rowOffNobodySeen' | 'fanFollowsLight' | 'crossingSwitches';
  output: OutputId;
  atS: number;
  /** The delay or dwell that ran out, s; 0: none. */
  delayS: number;
}

/** A belief that shows in ratios. */
export interface RatioSignature {
  id: 'ratioUpsideDown' | 'oneRatioForAll';
  row: RowId;
  atS: number;
}

/** A belief that shows in two walks; `walk`: the one that it shows in. */
export interface WalkSignature {
  id: 'twoPaces' | 'oneDirection' | 'alreadyOn' | 'towardIsSooner' | 'nearerIsStronger';
  walk: 0 | 1 | null;
  atS: number | null;
}

export type ObserveSignature = TagSignature | RatioSignature | WalkSignature;
