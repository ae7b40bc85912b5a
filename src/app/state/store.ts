/** The slow road: states, rounded readouts, choices. Written on events and at most ten times a second. */
import { create } from 'zustand';
import type { Frame } from '../../engine/frame.ts';
import type { Explanation } from '../../engine/trace.ts';
import type {
  ControllerSettings,
  Input,
  OutputId,
  PointM,
  RoomSpec,
  Scenario,
  Setup,
  Tick,
} from '../../engine/types.ts';
import type { Aid, EdgesByOutput, ExerciseKind } from '../../exercise/types.ts';
import type { RunStatus } from '../../host/messages.ts';
import { live } from './live.ts';
import type { Saved } from './saves.ts';

export type Overlay = 'none' | 'sight' | 'warmth' | 'light';
export type View = 'room' | 'plan' | 'words';
export type Station = 'corner' | 'door' | 'desk' | 'ceiling';
export type Theme = 'day' | 'night' | 'opening';
export type SheetPanel = 'setup' | 'people' | 'sky' | 'room' | 'kit';

/** An output, or a Stand-in by letter. */
export type Selection = { kind: 'output'; output: OutputId } | { kind: 'person'; personId: string };

/** What a tap on the floor means right now. */
export type FloorTool =
  | { kind: 'none' }
  | { kind: 'place'; personId: string }
  | { kind: 'walk'; personId: string }
  | { kind: 'line'; personId: string; pointsM: PointM[] }
  | { kind: 'probe'; probeId: string };

/** The page in front of a class, see `lecture/`. */
export interface LectureView {
  /** Reasons wait until the lecturer reveals them. */
  covered: boolean;
  /** Run is not held back by a question whose answers are not locked. */
  armed: boolean;
  /** Screen px for one px of the Big Screen's own 1080 lines. */
  scale: number;
}

/** Where the work on an exercise stands. Its data are in `job/`. */
export type JobStage =
  | 'preparing'
  | 'predicting'
  | 'running'
  | 'seen'
  | 'working'
  | 'marking'
  | 'result'
  | 'trying'
  | 'example';

export interface OpenJob {
  id: string;
  kind: ExerciseKind;
  seed: number;
  aid: Aid;
  stage: JobStage;
  /** The room stops here by itself. */
  untilTick: Tick;
  /** What the device knows stays inside it: the room shows no more than an eye and a clock do; absent: open. */
  sealed?: boolean;
  /** A sealed room being mended: its settings lie open, and what phase the device is in; nothing else. */
  mending?: boolean;
  /** What may be done to the room; anything else is refused with a word. */
  allows: readonly Input['kind'][];
  /** Settings that may be changed; absent: all of them. */
  settings?: readonly (keyof ControllerSettings)[];
  /** Where a design may hang the detector, in the order of their numbers, and which of them is chosen; absent: no design. */
  points?: readonly { id: string; atM: PointM }[];
  chosenPoint?: string;
  /** How far the detector sees is for the learner to find, until it is marked. */
  reachShut?: boolean;
}

export interface BranchView {
  index: number;
  cutTick: Tick;
  headTick: Tick;
}

export interface AppState {
  /** `opening`: paused dark first screen; `main`: the working layout. */
  screen: 'opening' | 'main';
  scenario: Scenario | null;
  /** Stories that can be chosen, in order. */
  storyTitles: { id: string; title: string }[];
  readiness: 'loading' | 'ready' | 'failed';
  progress: { stage: 'lens' | 'light' | 'replay'; share: number } | null;
  status: RunStatus;
  /** Speed chosen for Run; `status.speedAsked` is what runs. */
  speed: number;
  /** Tick of the instant that everything on screen speaks about. */
  shownTick: Tick;
  /** Rises with every frame that reached the store, also when the tick is the same. */
  frameSerial: number;
  settings: ControllerSettings | null;
  setup: Setup | null;
  /** Rises when events or series were added or cut; the data are in `record.ts`. */
  recordVersion: number;
  branches: BranchView[];
  selection: Selection;
  /** Output that the Reason Card speaks about while a Stand-in is selected. */
  lastOutput: OutputId;
  overlay: Overlay;
  /** Bearing of the side section beside the Sight Map, degrees; null: not shown. */
  sectionDeg: number | null;
  view: View;
  station: Station;
  panel: SheetPanel;
  floorTool: FloorTool;
  explanations: Record<OutputId, Explanation | null>;
  theme: Theme;
  /** Sentence shown until dismissed: refusals, failures, storage trouble. */
  notice: string | null;
  /** The run that a fresh start put aside, offered with the notice. */
  runPutAside: Saved | null;
  /** Cause why the 3D view is not offered; null while it is. */
  noRoomView: 'noWebgl' | 'contextLost' | 'failed' | null;
  /** The sentence about it has been closed. */
  noRoomSeen: boolean;
  undoDepth: number;
  aboutOpen: boolean;
  classOpen: boolean;
  notebookOpen: boolean;
  /** Two attempts beside each other lie over the page. */
  splitOpen: boolean;
  /** The exercise that is being worked; null: a story. */
  job: OpenJob | null;
  /** A job being made from what is done: where its recording began, and where it was stopped; null: none. */
  authoring: { fromTick: Tick; toTick: Tick | null } | null;
  /** Switchings that were foretold and locked; drawn beside what the room did. */
  foretold: EdgesByOutput | null;
  /** Exercises that can be chosen, in the advised order. */
  jobTitles: { id: string; title: string }[];
  /** Null: the page is not in front of a class. */
  lecture: LectureView | null;
  /** The sun's ways are drawn over the model; the rail makes room for them. */
  pathsShown: boolean;
}

const ALL_NULL: Record<OutputId, Explanation | null> = { innerRow: null, windowRow: null, airContact: null };

export const START_STATUS: RunStatus = { running: false, speedAsked: 1, speedTrue: 0, headTick: 0, updating: false };

export const useApp = create<AppState>()(() => ({
  screen: 'opening',
  scenario: null,
  storyTitles: [],
  readiness: 'loading',
  progress: null,
  status: START_STATUS,
  speed: 1,
  shownTick: 0,
  frameSerial: 0,
  settings: null,
  setup: null,
  recordVersion: 0,
  branches: [],
  selection: { kind: 'output', output: 'innerRow' },
  lastOutput: 'innerRow',
  overlay: 'none',
  sectionDeg: null,
  view: 'room',
  station: 'corner',
  panel: 'setup',
  floorTool: { kind: 'none' },
  explanations: ALL_NULL,
  theme: 'opening',
  notice: null,
  runPutAside: null,
  noRoomView: null,
  noRoomSeen: false,
  undoDepth: 0,
  aboutOpen: false,
  classOpen: false,
  notebookOpen: false,
  splitOpen: false,
  job: null,
  authoring: null,
  foretold: null,
  jobTitles: [],
  pathsShown: false,
  lecture: null,
}));

/** Reasons are what a record to be read asks for: they stay closed until it is marked; a class predicts before it reads. */
export function reasonsClosed({ job, lecture }: Pick<AppState, 'job' | 'lecture'>): boolean {
  return lecture?.covered || (job?.kind === 'observe' && job.stage !== 'result');
}

/** How many times larger than in Workshop something of `px` is drawn so that it reaches `bigPx` on the Big Screen; else 1. */
export function useBig(px: number, bigPx: number): number {
  return useApp(({ lecture }) => (lecture ? (lecture.scale * bigPx) / px : 1));
}

/** The story's room with its luminaires as they hang now. */
export function roomNow(room: RoomSpec, setup: Setup | null): RoomSpec {
  return setup?.luminaires ? { ...room, luminaires: setup.luminaires } : room;
}

export const setApp = useApp.setState;
export const getApp = useApp.getState;

/** Everything that belongs to one run, as it is before the run has said anything. */
export const EMPTY_RUN = {
  progress: null,
  status: START_STATUS,
  shownTick: 0,
  settings: null,
  setup: null,
  branches: [] as BranchView[],
  explanations: ALL_NULL,
  floorTool: { kind: 'none' } as FloorTool,
  undoDepth: 0,
  job: null,
  authoring: null,
  foretold: null,
};

export function selectOutput(output: OutputId): void {
  setApp({ selection: { kind: 'output', output }, lastOutput: output });
}

export function selectPerson(personId: string): void {
  setApp({ selection: { kind: 'person', personId }, panel: 'people' });
}

const lossesMs: number[] = [];

/** The scene calls this when its WebGL context was lost. Twice within a minute: Plan View takes over. */
export function noteContextLoss(nowMs: number): void {
  lossesMs.push(nowMs);
  const recent = lossesMs.filter((t) => nowMs - t < 60_000);
  if (recent.length >= 2) setApp({ noRoomView: 'contextLost', view: 'plan' });
}

/** Reads a value out of the shown frame; the component renders only when that value changes. Give primitives. */
export function useShown<T>(read: (frame: Frame) => T, otherwise: T): T {
  return useApp(() => (live.frame ? read(live.frame) : otherwise));
}
