/** Exercises of observing: what the learner is asked, what is answered, and what the marks say. */
import type { OutputId } from '../../engine/types.ts';
import type { CauseId, ExerciseBase } from '../types.ts';

/** A recorded stretch is read: each switching is tagged at its instant with its cause. */
export interface TagsTask {
  task: 'tags';
  /** The record ends here, s. */
  toS: number;
  /** Switchings in the record, on every bench. */
  moments: number;
}

export type ObserveTask = TagsTask;

export interface ObserveExercise extends ExerciseBase {
  kind: 'observe';
  observe: ObserveTask;
}

export interface Tag {
  atS: number;
  output: OutputId;
  cause: CauseId;
}

export interface ObserveAnswers {
  tags?: Tag[];
}

/** Reasons for points of an observation. */
export type ObserveLine =
  | { code: 'tagRight'; output: OutputId; on: boolean; trueS: number; cause: CauseId }
  | { code: 'tagOtherCause'; output: OutputId; on: boolean; trueS: number; cause: CauseId; said: CauseId }
  | { code: 'notTagged'; output: OutputId; on: boolean; trueS: number; cause: CauseId }
  | { code: 'nothingThere'; output: OutputId; saidS: number };

/** A belief that shows in what was tagged or worked out. */
export interface ObserveSignature {
  id: 'rowOffNobodySeen' | 'fanFollowsLight' | 'crossingSwitches';
  output: OutputId;
  atS: number;
  /** The delay or dwell that ran out, s; 0: none. */
  delayS: number;
}
