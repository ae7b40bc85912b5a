/** Exercises, attempts and marks as data. An attempt and its exercise are enough to recompute the mark anywhere. */
import type {
  ControllerSettings,
  DetectorMount,
  FurnitureSpec,
  Input,
  OutputId,
  PersonSpec,
  Scenario,
  SkyCondition,
  Tick,
  TimedInput,
  WarmThingSpec,
} from '../engine/types.ts';
import type {
  CommissionAnswers,
  CommissionExercise,
  CommissionLine,
  CommissionPartId,
  CommissionResult,
  CommissionSignature,
} from './commission/types.ts';
import type { PartId } from './diagnose/score.ts';
import type { DiagnoseAnswers, DiagnoseExercise, DiagnoseLine, DiagnosisResult } from './diagnose/types.ts';
import type { Example } from './example/types.ts';
import type { ObserveAnswers, ObserveExercise, ObserveLine, ObserveSignature } from './observe/types.ts';

/** A change of the installation, its settings or its surroundings. Faults, variants and exercises are made of these. */
export interface Edit {
  settings?: Partial<ControllerSettings>;
  mount?: Partial<DetectorMount>;
  sky?: SkyCondition;
  localDate?: string;
  localTime?: string;
  airTemperatureC?: number;
  addFurniture?: FurnitureSpec[];
  removeFurniture?: string[];
  addWarmThings?: WarmThingSpec[];
  addPeople?: PersonSpec[];
  removePeople?: string[];
  /** Goes in among the story's own script in order of time. */
  script?: { atS: number; input: Input }[];
  doors?: { doorId: string; open: boolean }[];
  /** Dirt or paint on the light windows of the detector: share of the light that passes. */
  photometerClearShare?: number;
}

/** How much the program helps. Guided: candidates and counts; practice: candidates; test: room and instruments only. */
export type Aid = 'guided' | 'practice' | 'test';

export interface PredictTask {
  outputs: OutputId[];
  /** The learner sees the room up to here, and says what will come until `toS`. */
  fromS: number;
  toS: number;
  /** Full credit within this, or 5 % of the delay concerned if that is more; half within three times as much. */
  toleranceS: number;
}

export interface ExerciseBase {
  id: string;
  /** Place in the advised order of jobs; 0: a lecturer's own, outside that order. */
  job: number;
  title: string;
  question: string;
  brief: string;
  aid: Aid;
  /** Where to look, what to compare, a worked step on a twin case. */
  hints: string[];
  /** The story that it happens in, with what this exercise changes. */
  scenario: Scenario;
  /** Of each list, the seed of the bench picks one. */
  draws: Edit[][];
  /** Shown on a bench of its own before the work begins. */
  example?: Example;
}

export interface PredictExercise extends ExerciseBase {
  kind: 'predict';
  /** What the learner is told will happen, by scenario time. */
  told: { atS: number; say: string }[];
  predict: PredictTask;
}

export type Exercise = PredictExercise | ObserveExercise | DiagnoseExercise | CommissionExercise;
/** Exercises whose key is what their outputs do. */
export type Keyed = PredictExercise | ObserveExercise;
export type ExerciseKind = Exercise['kind'];

/** A switching as somebody expects it, s of scenario time. */
export interface Edge {
  atS: number;
  on: boolean;
}

export type EdgesByOutput = Partial<Record<OutputId, Edge[]>>;

/** Why an output switched, as a learner would say it; made from the engine's reasons. */
export type CauseId =
  | 'seen'
  | 'delayFromLastPulse'
  | 'brightForDwell'
  | 'darkForDwell'
  | 'onDelay'
  | 'presenceOnly'
  | 'button'
  | 'supply';

export interface PredictAnswers {
  /** Locked before Run. */
  edges: EdgesByOutput;
  /** How often each output was seen to switch; asked before anything is explained. */
  seen?: Partial<Record<OutputId, number>>;
  /** Cause chosen for a switching that was not fully foreseen: `output` and its place in the output's true order. */
  why?: { output: OutputId; index: number; cause: CauseId }[];
}

/** Everything needed to recompute a mark, and nothing that must be believed. */
export interface Attempt {
  format: 1;
  exercise: string;
  seed: number;
  engine: string;
  /** One or two; whatever the learners typed. */
  names: string[];
  aid: Aid;
  inputs: TimedInput[];
  headTick: Tick;
  digests: { tick: Tick; digest: string }[];
  answers: {
    predict?: PredictAnswers;
    observe?: ObserveAnswers;
    diagnose?: DiagnoseAnswers;
    commission?: CommissionAnswers;
  };
}

/** Skills of the lecturer's profile. */
export type SkillId =
  | 'powerUp'
  | 'delays'
  | 'brightness'
  | 'buttons'
  | 'airContact'
  | 'extensions'
  | 'wiring'
  | 'safeIsolation';

/** A belief that explains a wrong prediction, seen by its signature. */
export type PredictSignatureId = 'delayFromEntering' | 'peopleNotMovement' | 'brightAtOnce' | 'daylightStopsFan';
/** A belief that shows in how somebody looks for a fault. */
export type SearchSignatureId = 'replaceFirst' | 'goneMeansFixed' | 'faultOnHealthy';

export interface PredictSignature {
  id: PredictSignatureId;
  output: OutputId;
  atS: number | null;
  saidS: number | null;
  delayS: number;
}

export interface SearchSignature {
  id: SearchSignatureId;
  atS: number | null;
}

export type Signature = PredictSignature | ObserveSignature | SearchSignature | CommissionSignature;

/** One reason for points won or lost. `atS`: the instant to look at. */
export interface MarkLine {
  points: number;
  of: number;
  atS: number | null;
  say: LineCode;
}

/** Reasons for points of a prediction. */
export type PredictLine =
  | { code: 'edgeRight'; output: OutputId; on: boolean; trueS: number; saidS: number; cause: CauseId }
  | {
      code: 'edgeNear';
      output: OutputId;
      on: boolean;
      trueS: number;
      saidS: number;
      cause: CauseId;
      toleranceS: number;
    }
  | { code: 'edgeWrong'; output: OutputId; on: boolean; trueS: number; saidS: number | null; cause: CauseId }
  | { code: 'edgeExtra'; output: OutputId; on: boolean; saidS: number };

export type LineCode = PredictLine | ObserveLine | DiagnoseLine | CommissionLine;

export interface MarkPart {
  id: 'prediction' | 'observation' | PartId | CommissionPartId;
  points: number;
  of: number;
  lines: MarkLine[];
}

export interface Mark {
  exercise: string;
  seed: number;
  names: string[];
  parts: MarkPart[];
  /** Sum of the parts, to 0.1. */
  total: number;
  pass: boolean;
  signatures: Signature[];
  skills: Partial<Record<SkillId, { successes: number; attempts: number }>>;
  /** Diagnose exercises only. */
  diagnosis?: DiagnosisResult;
  /** Commission exercises only. */
  commission?: CommissionResult;
  /** First minute where the replay left the attempt; null: it replays exactly. */
  firstMismatchTick: Tick | null;
}

export interface ProofResult {
  exercise: string;
  seed: number;
  proof: string;
  /** What did not come out as it should; null: proved. */
  fault: string | null;
}
