/**
 * Everything that crosses between page and worker. The worker owns time, state and recording; the page asks.
 * Every answer that belongs to an instant carries its tick.
 */

import type { DayLight } from '../engine/dayLight.ts';
import type { FloorShadow } from '../engine/detection/floorShadows.ts';
import type { SideSection } from '../engine/detection/sideSection.ts';
import type { Frame } from '../engine/frame.ts';
import type { PhotometerView } from '../engine/instruments.ts';
import type { ProbePlace, ProbeReading } from '../engine/light/probePlace.ts';
import type { SunPath } from '../engine/light/sky/sunPath.ts';
import type { LightField } from '../engine/light/types.ts';
import type { PersonAnswer } from '../engine/personSight.ts';
import type { Recording } from '../engine/recording.ts';
import type { Explanation, TraceEvent } from '../engine/trace.ts';
import type { ControllerSettings, Input, OutputId, PointM, Scenario, Setup, Tick } from '../engine/types.ts';
import type { WarmthView } from '../engine/warmth.ts';
import type { Paths } from '../exercise/assessment/path.ts';
import type { FiguresByCause, Scene } from '../exercise/authoring/figures.ts';
import type {
  CommissionExercise,
  CommissionLine,
  DayFigures,
  DesignChoice,
  LeftRoom,
} from '../exercise/commission/types.ts';
import type { DiagnoseExercise } from '../exercise/diagnose/types.ts';
import type { WorkedExample } from '../exercise/example/types.ts';
import type { Given } from '../exercise/predict/given.ts';
import type { ReachOutlines } from '../exercise/reach/types.ts';
import type { Attempt, EdgesByOutput, Exercise, Keyed, Mark, PredictExercise, ProofResult } from '../exercise/types.ts';
import type { BenchAnswer, BenchQuestion } from './benchWork.ts';
import type { SignalStretch } from './lookBack.ts';

export type { ReachKind, ReachOutline, ReachOutlines, ReachRay } from '../exercise/reach/types.ts';

import type { YearOrder, YearResult } from '../exercise/year/types.ts';

export type { YearOrder, YearResult } from '../exercise/year/types.ts';

export type ToWorker =
  | { type: 'load'; scenario: Scenario; recording?: Recording; atTick?: Tick }
  /** `untilTick`: stands when this tick is shown. */
  | { type: 'run'; speed: number; untilTick?: Tick }
  | { type: 'pause' }
  /** Whole ticks; negative steps go back. */
  | { type: 'step'; ticks: number }
  | { type: 'seek'; tick: Tick }
  /** Runs (or seeks) to the next switching of an output or change of a state, then pauses; -1: back. */
  | { type: 'nextEvent'; direction: 1 | -1 }
  /** Done at now. In the past of the run this begins a branch: what came later is set aside, see `branches`. */
  | { type: 'act'; input: Input }
  | { type: 'restoreBranch'; index: number }
  | { type: 'explain'; requestId: number; output: OutputId; tick: Tick }
  /** Signal of the four channels, 50 Hz, ticks `fromTick` … `toTick` - 1. A newer question takes the place of an older. */
  | { type: 'askSignal'; requestId: number; fromTick: Tick; toTick: Tick }
  /** Who is seen at an instant, who not, why not, by how much. A newer question takes the place of an older. */
  | { type: 'askSights'; requestId: number; tick: Tick }
  /** Which cells of the lens the picture wants: outlines on floor, desks and walls. */
  | { type: 'wantSightMap'; wanted: boolean }
  | ExerciseQuestion
  | BenchQuestion
  /** The Warmth Map of the shown instant, with every frame but at most a few times a second. */
  | { type: 'wantWarmth'; wanted: boolean }
  /** The side section through the detector at a bearing of the room; null: none. */
  | { type: 'wantSection'; bearingDeg: number | null }
  /** How far walkers and sitters are seen: worked out in the background, and anew whenever it changes. */
  | { type: 'wantReach'; wanted: boolean }
  /** Lux meters in the room from now on, all of them; answered with this number at once and then as the clock goes on. */
  | { type: 'probe'; requestId: number; places: ProbePlace[] }
  /** What the two photometers look at. */
  | { type: 'wantPhotometers'; wanted: boolean }
  /** Light alone over the sun's day, worked out beside whatever the run does; null: no longer wanted. */
  | { type: 'wantDay'; requestId: number | null }
  /** The sun's ways: today, both solstices, an equinox. */
  | { type: 'wantSunPaths'; requestId: number }
  /** A year of days, best asked of a worker of its own; needs no story loaded. Null: no longer wanted. */
  | { type: 'wantYear'; requestId: number; order: YearOrder | null }
  | { type: 'stop' };

/** Asked of a worker that runs no room: each is answered once, after some seconds. */
export type ExerciseQuestion =
  | { type: 'given'; exercise: PredictExercise; seed: number }
  | { type: 'mark'; exercise: Exercise; attempt: Attempt }
  /** What the room of a bench does: the lecturer's key. */
  | { type: 'key'; exercise: Keyed; seed: number }
  /** Proving runs of a room as it stands; told how far they are by `proving`. */
  | { type: 'prove'; exercise: CommissionExercise; seed: number; left: LeftRoom | DesignChoice }
  /** The exercise's own proofs on one bench; `randoms` random attempts are tried. */
  | { type: 'selfProof'; exercise: Exercise; seed: number; randoms: number }
  /** What each candidate does on a scene, on one bench; told how far it is by `proving`. */
  | { type: 'figures'; exercise: DiagnoseExercise; seed: number; scene: Scene }
  /** What was done in an attempt, beside the stored expert of its bench. */
  | { type: 'paths'; exercise: Exercise; attempt: Attempt }
  /** The exercise's worked example, with the readings that its words ask for. */
  | { type: 'example'; exercise: Exercise };

export type ExerciseAnswer =
  | { type: 'given'; given: Given }
  | { type: 'marked'; mark: Mark }
  | { type: 'key'; edges: EdgesByOutput }
  | { type: 'proved'; days: DayFigures[]; lines: CommissionLine[] }
  | { type: 'selfProved'; results: ProofResult[] }
  | { type: 'paths'; paths: Paths }
  | { type: 'figured'; figures: FiguresByCause }
  | { type: 'exampleWorked'; example: WorkedExample };

export interface SunPaths {
  today: SunPath;
  june: SunPath;
  december: SunPath;
  equinox: SunPath;
}

/** A pair of outlines (the two halves of the element) projected on the first surface hit; closed polylines, room metres. */
export interface SightCell {
  channel: number;
  /** +1 / -1 half. */
  polarity: 1 | -1;
  ring: number;
  /** [x, y, z, x, y, z, …] */
  outlineM: number[];
  masked: boolean;
}

/** Recorder series. Times are implied: sample i of a row belongs to tick `fromTick + i * everyTicks`. */
export interface SeriesChunk {
  fromTick: Tick;
  /** Largest and smallest signal of all channels in each tick, µV: [min, max, min, max, …], one pair per tick. */
  signalUv: Float32Array;
  /** One sample per second: daylight estimates, ceiling readings, first desk point of each row, lx. */
  innerEstimateLx: Float32Array;
  windowEstimateLx: Float32Array;
  innerReadingLx: Float32Array;
  windowReadingLx: Float32Array;
}

export interface RunStatus {
  running: boolean;
  speedAsked: number;
  /** Measured over the last second of wall time. */
  speedTrue: number;
  /** The last tick that has been worked; a shown tick before it is the past. */
  headTick: Tick;
  /** Set while tables are rebuilt (furniture, detector, blinds moved); old numbers are shown greyed. */
  updating: boolean;
}

export type FromWorker =
  | { type: 'progress'; stage: 'lens' | 'light' | 'replay'; share: number }
  | { type: 'loaded'; scenario: Scenario; startTick: Tick }
  | { type: 'frame'; frame: Frame; status: RunStatus }
  /** Sent when settings, setup or people changed, and after every seek. */
  | { type: 'setup'; tick: Tick; setup: Setup; settings: ControllerSettings }
  | { type: 'events'; events: TraceEvent[] }
  | { type: 'series'; chunk: SeriesChunk }
  /** The run was cut here by an act in the past: forget events and series after this tick. */
  | { type: 'cut'; tick: Tick; branches: { index: number; cutTick: Tick; headTick: Tick }[] }
  | { type: 'field'; tick: Tick; field: LightField }
  | { type: 'sightMap'; cells: SightCell[]; shadows: FloorShadow[] }
  | { type: 'warmth'; warmth: WarmthView }
  | { type: 'section'; section: SideSection }
  /** Outlines sent before are out of date; new ones are this far, 0-1. */
  | { type: 'reachProgress'; share: number }
  | { type: 'reach'; outlines: ReachOutlines }
  | { type: 'probed'; requestId: number; tick: Tick; readings: ProbeReading[] }
  | { type: 'photometers'; tick: Tick; inner: PhotometerView; window: PhotometerView }
  /** `day` when it is done. */
  | { type: 'dayLight'; requestId: number; share: number; day: DayLight | null }
  | { type: 'sunPaths'; requestId: number; paths: SunPaths }
  /** `result`: the days so far, when there is one more than last time. */
  | { type: 'year'; requestId: number; share: number; done: boolean; result: YearResult | null }
  | { type: 'explained'; requestId: number; explanation: Explanation }
  /** Cut to what has been worked; an empty stretch when there is nothing. */
  | { type: 'signal'; requestId: number; stretch: SignalStretch }
  | { type: 'sights'; requestId: number; tick: Tick; people: PersonAnswer[] }
  /** After every act, for autosave. */
  | { type: 'recording'; recording: Recording }
  | ExerciseAnswer
  | BenchAnswer
  | { type: 'proving'; share: number }
  | { type: 'refused'; sentence: string }
  | { type: 'failed'; sentence: string };

/** Where a mark of the Sight Map lies: the place of the body whose pulse arose there. */
export interface PulseMark {
  tick: Tick;
  atM: PointM;
}
