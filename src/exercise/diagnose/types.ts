/** Diagnosis as data: fault cards, tests with their readings, what a learner did, and what a mark is made from. */
import type { Phase } from '../../engine/trace.ts';
import type {
  ButtonId,
  ControllerSettings,
  Input,
  OutputId,
  PointM,
  RowId,
  Tick,
  TimedInput,
} from '../../engine/types.ts';
import type { Edit, ExerciseBase } from '../types.ts';

/** What a look from below shows. */
export type LookPart = 'clips' | 'arrow' | 'lightWindows' | 'doors' | 'things' | 'lamps';

/**
 * One test: an instrument with its parameters. Places are desk points of the room or places of the exercise.
 * `ask`, `look`, `drawing` and `repeat` cost minutes but are left out of the sums of strategy, once each.
 */
export type Test =
  | { instrument: 'ask' }
  | { instrument: 'drawing' }
  | { instrument: 'look'; part: LookPart }
  /** The complaint played again, as it was told, in the room as it stands. */
  | { instrument: 'repeat' }
  | { instrument: 'settings'; key: keyof ControllerSettings }
  /** The hand-held setter: phase and states, or the light of one row. */
  | { instrument: 'handHeld'; page: 'states' | RowId }
  | { instrument: 'luxMeter'; place: string }
  | { instrument: 'thermometer' }
  /** You move at a place: does the detector count it? */
  | { instrument: 'seenAt'; place: string }
  /** The last switching of an output, timed from the last movement, press or arrival before it. */
  | { instrument: 'stopwatch'; output: OutputId; edge: 'on' | 'off' }
  /** A press of a button: does its output answer? */
  | { instrument: 'button'; button: ButtonId }
  /** What the log of the hand-held setter says about the last minutes. */
  | { instrument: 'log'; of: 'presses' | 'pulses'; lastMin: number }
  /** The room left alone: what came on by itself? */
  | { instrument: 'watch'; forMin: number }
  /** You up the ladder, a cloth over the detector: what do the rows do when it sees nobody and no light? */
  | { instrument: 'cloth'; forMin: number }
  /** You up the ladder, a torch shone at the detector from one side: which photometer reads it, and do the rows answer? */
  | { instrument: 'torch'; side: RowId; forMin: number };

export type Instrument = Test['instrument'];

export type Value = number | string | boolean | null;

/** Why an instrument shows nothing, as a learner is told. */
export type Refusal =
  | 'notAllowed'
  | 'noSuchPlace'
  | 'youAreNotThere'
  | 'youAreStill'
  | 'notUpTheLadder'
  | 'notHeldSoLong'
  | 'nothingPressed'
  | 'nothingSwitched'
  | 'somebodyWasInside'
  | 'tooEarly';

/** `bin`: readings of one bin tell nothing apart. */
export type Reading = { values: Record<string, Value>; bin: string } | { refused: Refusal };

/** When the client's complaint holds on its scene: time in a state, or number of switchings, s of scenario time. */
export type Complaint = {
  fromS: number;
  toS: number;
  output: OutputId;
} & (
  | {
      kind: 'time';
      is: 'on' | 'off';
      who: 'someone' | 'nobody' | 'either';
      longerThanS: number;
      /** Counts only while the place has less, or more, light than this. */
      below?: { place: string; lx: number };
      above?: { place: string; lx: number };
    }
  | { kind: 'switchings'; moreThan: number }
);

/** One thing that must be so at the end. */
export type Requirement =
  | { setting: keyof ControllerSettings; atLeast?: number; atMost?: number; is?: Value }
  | { clipsOn: number[] }
  | { clipsOff: number[] }
  | { turnDeg: number; withinDeg: number }
  /** The detector hangs so far from where it hung. */
  | { movedM: number }
  | { thing: string; on: boolean }
  | { door: string; open: boolean }
  | { furniture: string; awayM: number }
  | { phase: Phase }
  | { lightWindowsClean: true };

/** Any one of the ways puts it right; a way with no requirement: nothing is to be changed. */
export type Remedy = Requirement[][];

/** The card's own proof: this test, taken after the repair, with a value in a range or equal to a word. */
export interface SpecialProof {
  test: Test;
  value: string;
  atLeast?: number;
  atMost?: number;
  is?: Value;
}

export interface FaultCard {
  id: string;
  /** What a list of candidates calls it. */
  title: string;
  /** Nothing is broken: the client expects something else. */
  healthy: boolean;
  /** The client's own words; the seed picks one. */
  complaints: string[];
  edit: Edit;
  /** Of each list, the seed picks one. */
  draws: Edit[][];
  remedy: Remedy;
  /** What an expert does to meet the remedy. */
  repair: Input[];
  proof: SpecialProof;
  /** Said when the debrief names the cause: how it makes the complaint. */
  because: string;
}

/** A card as it stands in one exercise: the room's own places win over the card's. */
export interface Candidate {
  card: FaultCard;
  prior: number;
}

export interface Place {
  id: string;
  label: string;
  atM: PointM;
  /** Can be lit and measured there: a desk point of the room. */
  deskPoint: boolean;
}

export interface DiagnoseTask {
  complaint: Complaint;
  candidates: Candidate[];
  /** Ids of the cards that a bench can have. */
  truths: string[];
  /** Instant at which the learner takes over, and for which the worth of tests is worked out, s. */
  beginS: number;
  places: Place[];
  tests: Test[];
  /** The part of the points that this exercise gives to the skill profile. */
  skill: 'powerUp' | 'delays' | 'brightness' | 'buttons' | 'airContact';
  /** What the client says, whatever the cause; absent: the words of the bench's own card. The seed picks one. */
  says?: string[];
  /** How the author solved it; absent: it was written, not recorded. */
  recorded?: RecordedWay;
}

/** What an author did on the bench of `seed` until `headTick`: readings, verdict, mending, proof. */
export interface RecordedWay {
  seed: number;
  inputs: TimedInput[];
  headTick: Tick;
  answers: DiagnoseAnswers;
}

export interface DiagnoseExercise extends ExerciseBase {
  kind: 'diagnose';
  diagnose: DiagnoseTask;
}

/** A reading kept. What it said is shown and compared, never believed: it is taken again. */
export interface Clip {
  tick: Tick;
  serial: number;
  test: Test;
  values: Record<string, Value>;
}

export interface DiagnoseAnswers {
  clips: Clip[];
  /** The last one counts. */
  claims: { tick: Tick; serial: number; card: string }[];
  /** A new detector put in the old one's place; what it changes stands in the inputs. */
  swaps: { tick: Tick; serial: number; part: 'detector' }[];
  /** From here on settings and room lay open: what was read later proves a repair and is no evidence. */
  mending?: Act;
  /** Rungs of help opened, 1-3. */
  hints: { tick: Tick; rung: number }[];
  record: {
    /** Written for the client; earns nothing by itself, a lecturer marks it. */
    advice: string;
  };
}

/** What a learner did with clips and claims in one order: by tick, then serial. */
export type Act = { tick: Tick; serial: number };

/** A test taken before the verdict, as the sums of strategy see it. */
export interface Step {
  minutes: number;
  /** Rate of the test and of the best one at that moment, bit/min. */
  rate: number;
  best: number;
}

export type ProofId = 'complaint' | 'movement' | 'buttons' | 'offDelay' | 'special';
export type RecordSlot =
  | 'symptom'
  | 'isolation'
  | 'readingsBefore'
  | 'cause'
  | 'remedy'
  | 'readingsAfter'
  | 'settingsLeft'
  | 'testTimes'
  | 'advice'
  | 'name';

/** Reasons for points of a diagnosis. Cards by their title, so that words need no file of cards. */
export type DiagnoseLine =
  | { code: 'safeNoMains' }
  | { code: 'testTold'; test: Test; dropped: number; left: number; of: number; minutes: number }
  | { code: 'testToldNothing'; test: Test; left: number; minutes: number }
  | { code: 'hintsUsed'; count: number; cost: number }
  | { code: 'minutesSpent'; minutes: number; referenceMin: number }
  | { code: 'claimRight'; card: string; because: string; certain: 'certain' | 'likely' | 'lucky' }
  | { code: 'claimWrong'; card: string; trueCard: string; because: string }
  | { code: 'claimMissing'; trueCard: string; because: string }
  | { code: 'remedyDone' }
  | { code: 'remedyMissing' }
  | { code: 'nothingToRepair' }
  | { code: 'swapNeedless' }
  | { code: 'leftChanged'; what: string }
  | { code: 'proofDone'; proof: ProofId }
  | { code: 'proofMissing'; proof: ProofId }
  | { code: 'proofShort' }
  | { code: 'complaintRemains'; timeS: number }
  | { code: 'uncertainBeforeRepair' }
  | { code: 'recordFilled'; slot: RecordSlot }
  | { code: 'recordEmpty'; slot: RecordSlot };

/** What a lecturer may see beside the points; learners never see probabilities. */
export interface DiagnosisResult {
  named: string | null;
  trueCard: string;
  posterior: number;
  minutes: number;
  referenceMin: number;
  /** The complaint is gone in the proving run; in a healthy room: nothing was left changed. Null: not asked, as the cause was not named. */
  complaintGone: boolean | null;
  /** Clips whose stored values are not what the instrument shows when taken again, and clips that cannot be taken. */
  clipsNotAsShown: number;
  /** Readings had made the cause certain before the first repair. */
  certainBeforeRepair: boolean;
  capped: boolean;
}
