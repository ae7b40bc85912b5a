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

export type ObserveTask = TagsTask | RatiosTask;

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

export interface ObserveAnswers {
  tags?: Tag[];
  readings?: DeskReading[];
  /** Desk light over ceiling reading, row by row. */
  ratios?: Partial<Record<RowId, number>>;
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

export type ObserveLine = TagLine | RatioLine;

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

export type ObserveSignature = TagSignature | RatioSignature;
