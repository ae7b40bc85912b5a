/** A commissioning job as data: what must be so in proving runs and in the learner's own, and what each line is worth. */
import type { AirPhase, RowPhase } from '../../engine/trace.ts';
import type {
  ControllerSettings,
  Input,
  OutputId,
  PointM,
  RowId,
  Setup,
  SkyCondition,
  Tick,
} from '../../engine/types.ts';
import type { ReachKind } from '../reach/types.ts';
import type { Edit, ExerciseBase, SkillId } from '../types.ts';
import type { JudgedEdge } from './edges.ts';

/** Parts of the rubric for commissioning. Source: the product's own rubric, adapted to what a job asks. */
export type CommissionPartId = 'position' | 'orientation' | 'light' | 'delays' | 'walkTest' | 'functional' | 'handover';

/** What can be so at a second of a run. All of a list must be so together. */
export type Condition =
  | { output: OutputId; on: boolean }
  | { row: RowId; state: RowPhase }
  | { air: AirPhase }
  | { someone: boolean }
  /** Light on a desk point. */
  | { desk: string; below?: number; above?: number };

interface CriterionBase {
  id: string;
  part: CommissionPartId;
  points: number;
  /** What is asked, in a few words; stands on the Job Card before and after. */
  title: string;
  /** What to do next when it is not met. */
  next: string;
  /** Proving days that it looks at; absent: all of them. */
  days?: string[];
  /** Without this verdict or a better one there is no pass, whatever the total. */
  must?: 'half' | 'met';
}

/** `half…`: half of the points within this. */
export type Criterion = CriterionBase &
  (
    | { kind: 'always'; when: Condition[]; is: Condition[]; exceptS: number; halfS?: number }
    | { kind: 'sometime'; is: Condition[]; forS: number }
    | {
        kind: 'respondsWithin';
        after: 'entering' | 'leaving';
        output: OutputId;
        on: boolean;
        withinS: number;
        halfS?: number;
      }
    /** Switchings of these outputs, in one direction or both. */
    | {
        kind: 'count';
        outputs: OutputId[];
        on?: boolean;
        reason?: 'nobodySeen';
        when: Condition[];
        atMost: number;
        halfAtMost?: number;
      }
    /** Share of time at desks with somebody there under the demand, percent points over the stored best. */
    | { kind: 'deskShort'; demandLx: number; over: number; halfOver?: number }
    /** Hours of lamps over those of the stored best. */
    | { kind: 'lampHours'; share: number; halfShare?: number }
    /** Light on the row's poorest desk, overcast, at which the row switches. */
    | { kind: 'level'; row: RowId; demandLx: number; share: number; halfShare: number }
    /** A setting as specified. */
    | { kind: 'setting'; setting: NumberSetting; value: number; share: number; halfShare?: number }
    /** Not longer than the shortest off-delay that works, times this. */
    | { kind: 'shortest'; setting: 'innerOffDelayS' | 'windowOffDelayS'; times: number; halfTimes?: number }
    /** An Evidence Clip of the learner's own run, taken after the last change, at an instant when this is so and has been
     *  for so long, and that an output has switched not longer ago. */
    | { kind: 'clip'; is: Condition[]; forS: number; switched?: { output: OutputId; on: boolean; withinS: number } }
    /** Points of the walk-test that the run bears out, and how many of them across and seated. */
    | { kind: 'walkPoints'; atLeast: number; eachWay: number }
    /** Sectors of the detector, of twelve, with a point in them. */
    | { kind: 'sectors'; atLeast: number }
    /** Mean distance of the learner's outline, through the marked points that show an edge (`edges.ts`), from where
     *  half of all tries are seen. */
    | { kind: 'outline'; movement: 'across' | 'seated'; meanM: number; halfM: number }
    /** Chairs at which a seated reach is seen in at least half of all tries; half when all but one are. */
    | { kind: 'seats'; seats: string[] }
    /** Distance of the detector from a warm thing on the plan. */
    | { kind: 'clear'; thing: string; atLeastM: number; halfM: number }
    /** Angle between the window arrow and a bearing of the room. */
    | { kind: 'turned'; bearingDeg: number; withinDeg: number; halfDeg: number }
    /** A text for the client, marked by the lecturer. */
    | { kind: 'handover' }
    /** A proving run was looked at after the last change. */
    | { kind: 'proved' }
  );

export type CriterionKind = Criterion['kind'];

/** Settings that are a plain number. */
export type NumberSetting =
  | 'innerSetpointLx'
  | 'windowSetpointLx'
  | 'innerOffDelayS'
  | 'windowOffDelayS'
  | 'innerDeskFactor'
  | 'windowDeskFactor'
  | 'airOnDelayS'
  | 'airOffDelayS';

/** A run of the room as the learner leaves it, with people and sky of its own. */
export interface ProvingDay {
  id: string;
  title: string;
  change: Edit;
  /** Ends here, s from the start of the room. */
  forS: number;
}

/** A moment at which somebody measures the desk factors. */
export interface Measured {
  sky: SkyCondition;
  localDate: string;
  localTime: string;
  lamps: boolean;
}

/** The set-up that others are compared with: settings as they stand here, or worked out for the bench's own room. */
export interface StoredBest {
  settings: Partial<ControllerSettings>;
  /** The shortest of these off-delays that never leaves somebody in the dark, for both rows. */
  shortestOf?: number[];
  /** Desk factors measured at the poorest desk of each row. */
  factors?: Measured;
  design?: DesignChoice;
}

export interface ClipAnswer {
  criterion: string;
  tick: Tick;
}

/** A way to do the job badly, and what it must cost: exactly these criteria are not fully met. */
export interface Mistake {
  id: string;
  /** In place of the best. */
  settings: Partial<ControllerSettings>;
  factors?: Measured;
  /** Acts in place of those of the solution. */
  acts?: { atS: number; input: Input }[];
  /** Clips in place of those of the solution, by criterion; s of the room. */
  clips?: Record<string, number>;
  /** Handed in without a proving run. */
  unproved?: boolean;
  /** A walk-test done otherwise: the walkers' outline handed in for the seated too, one side only, points that nobody
   *  walked, or edges beyond which nothing was tried. */
  walk?: 'oneCircle' | 'tooFew' | 'invented' | 'noneBeyond';
  /** Chosen otherwise than in the best. */
  design?: Partial<DesignChoice>;
  fails: string[];
  signature?: CommissionSignatureId;
}

export interface CommissionTask {
  /** What may be done to the room, and which settings may be changed. */
  allows: Input['kind'][];
  settings: (keyof ControllerSettings)[];
  /** What the client or the plan asks, line by line. */
  asked: { what: string; value: string }[];
  /** The learner's own room stops by itself here, s. */
  untilS: number;
  days: ProvingDay[];
  criteria: Criterion[];
  best: StoredBest;
  /** The right way: acts before the hand-in beside the best settings, and its clips, s of the room. */
  solution: { endS: number; acts: { atS: number; input: Input }[]; clips: Record<string, number> };
  mistakes: Mistake[];
  skill: SkillId;
}

export interface DesignTask {
  /** Where it may be hung. */
  points: { id: string; label: string; atM: PointM }[];
}

/** What is chosen on the plan. */
export interface DesignChoice {
  point: string;
  turnDeg: number;
  /** Row of each luminaire. */
  rows: Record<string, RowId>;
}

/** In a design the learner chooses on the plan; in a commissioning they set up what hangs there. */
export interface CommissionExercise extends ExerciseBase {
  kind: 'commission' | 'design';
  commission: CommissionTask;
  /** Of a design only. */
  design?: DesignTask;
}

export interface CommissionAnswers {
  /** Instants at which a proving run was asked for. */
  proved: { tick: Tick; serial: number }[];
  clips: ClipAnswer[];
  walkTest?: WalkAnswer;
  design?: DesignChoice;
  /** What the client is given in writing. */
  handover?: string;
}

export type WalkedWay = ReachKind | 'away' | 'standing';

/** A point of the notebook: who was where, how they moved, and whether the room answered. */
export interface WalkedPoint {
  id: number;
  tick: Tick;
  personId: string;
  atM: PointM;
  way: WalkedWay;
  seen: boolean;
}

export interface WalkAnswer {
  points: WalkedPoint[];
  /** Ids of the points on the learner's own edge, by movement. */
  edge: Record<ReachKind, number[]>;
}

/** What the learner leaves. */
export interface LeftRoom {
  settings: ControllerSettings;
  setup: Setup;
}

export type CommissionSignatureId =
  | 'setpointIsDeskLux'
  | 'setInSun'
  | 'lampsInReading'
  | 'lampsFeedBack'
  | 'delayTooShort'
  | 'delayTooLong'
  | 'fanByLight'
  | 'oneCircle'
  | 'airMoves'
  | 'provedNothing';

export interface CommissionSignature {
  id: CommissionSignatureId;
  atS: number | null;
}

/** `lecturer`: no program says. */
export type Verdict = 'met' | 'half' | 'missed' | 'lecturer';

/** What a criterion was judged by. */
export interface Judged {
  verdict: Verdict;
  /** What was measured, and the bound that it was held against; null: it did not happen, or there is no number. */
  value: number | null;
  limit: number | null;
  unit: 's' | 'times' | 'lx' | 'm' | 'deg' | 'percent' | 'hours' | 'none';
  /** Proving day and the instant in it, s of its room, where it shows; null: none. */
  at: { day: string; s: number } | null;
  /** Instant of the learner's own run. */
  ownS: number | null;
  edge?: JudgedEdge;
}

export interface CommissionLine extends Judged {
  code: 'criterion';
  id: string;
  kind: CriterionKind;
  title: string;
  next: string;
  /** Without this verdict or a better one there is no pass; null: its points are all that counts. */
  must: 'half' | 'met' | null;
}

/** What a proving day looked like. */
export interface DayFigures {
  id: string;
  title: string;
  innerLitS: number;
  windowLitS: number;
  airS: number;
  /** Switchings of the two rows. */
  switchings: number;
  /** Times that a row went dark by its delay with somebody in the room. */
  darkOnSomebody: number;
}

export interface CommissionResult {
  days: DayFigures[];
}
