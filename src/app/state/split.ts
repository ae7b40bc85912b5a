/**
 * Two attempts at one job beside each other: each is played again in a worker of its own, one clock shows both. The files'
 * names and the learners' never come here. Loaded with the Split Bench.
 */
import { create } from 'zustand';
import type { Frame } from '../../engine/frame.ts';
import { ENGINE_VERSION } from '../../engine/simulation.ts';
import type { TraceEvent } from '../../engine/trace.ts';
import type { Scenario, Setup, Tick } from '../../engine/types.ts';
import { secondsToTicks } from '../../engine/units.ts';
import { type PathStep, pathOf } from '../../exercise/assessment/path.ts';
import { readAttempt } from '../../exercise/attempt.ts';
import { cardScenario, trueCard } from '../../exercise/diagnose/cards.ts';
import { benchScenario } from '../../exercise/edits.ts';
import { exerciseById } from '../../exercise/load.ts';
import { endTickOf } from '../../exercise/replay.ts';
import type { Attempt, Exercise } from '../../exercise/types.ts';
import type { Client } from '../../host/client.ts';
import { splitWords } from '../../report/text/split.ts';
import { openWorker } from './connect.ts';
import { library } from './stories.ts';

export type Side = 0 | 1;

export interface SplitSide {
  exercise: Exercise;
  seed: number;
  scenario: Scenario;
  steps: PathStep[];
  /** Ticks worked so far, 0-1; the side can be looked at when it is 1. */
  share: number;
  headTick: Tick;
  frame: Frame | null;
  setup: Setup | null;
  events: TraceEvent[];
}

interface Split {
  sides: [SplitSide | null, SplitSide | null];
  /** Why the last file has no place here; null: nothing to say. */
  sentence: string | null;
  /** The one clock. */
  tick: Tick;
  running: boolean;
  speed: number;
}

const EMPTY: Split = { sides: [null, null], sentence: null, tick: 0, running: false, speed: 60 };
export const useSplit = create<Split>()(() => EMPTY);
const set = useSplit.setState;
const get = useSplit.getState;

const clients: [Client | null, Client | null] = [null, null];

function put(side: Side, change: Partial<SplitSide>): void {
  set(({ sides }) => {
    const next: Split['sides'] = [sides[0], sides[1]];
    const old = next[side];
    if (old) next[side] = { ...old, ...change };
    return { sides: next };
  });
}

function roomOf(exercise: Exercise, seed: number): Scenario {
  return exercise.kind === 'diagnose'
    ? cardScenario(exercise, seed, trueCard(exercise, seed))
    : benchScenario(exercise, seed);
}

/** How far the attempt goes: what was told of a window is compared with the whole of it. */
function headOf(exercise: Exercise, { headTick }: Attempt): Tick {
  const told = exercise.kind === 'predict' || exercise.kind === 'observe';
  return Math.max(1, told ? endTickOf(exercise) : headTick);
}

/** Where the work begins; what lies before it was not the learner's. */
export function beginTickOf({ exercise, headTick }: SplitSide): Tick {
  const s =
    exercise.kind === 'predict' ? exercise.predict.fromS : exercise.kind === 'diagnose' ? exercise.diagnose.beginS : 0;
  return Math.min(secondsToTicks(s), headTick - 1);
}

/** Puts an attempt on the first free side, or on the second; what stands on the other stays. */
export function putAttempt(attempt: Attempt): void {
  const { sides } = get();
  const side: Side = sides[0] === null ? 0 : 1;
  const exercise = exerciseById(library, attempt.exercise);
  if (!exercise.ok) {
    set({ sentence: exercise.sentences.join(' ') });
    return;
  }
  if (exercise.value.kind === 'design') {
    set({ sentence: splitWords.noRun });
    return;
  }
  const other = sides[side === 0 ? 1 : 0];
  if (other && other.exercise.id !== exercise.value.id) {
    set({ sentence: splitWords.otherJob });
    return;
  }
  void begin(side, exercise.value, attempt);
}

async function begin(side: Side, exercise: Exercise, attempt: Attempt): Promise<void> {
  clients[side]?.close();
  const scenario = roomOf(exercise, attempt.seed);
  const headTick = headOf(exercise, attempt);
  const fresh: SplitSide = {
    exercise,
    seed: attempt.seed,
    scenario,
    steps: pathOf(exercise, attempt).filter(({ atS }) => atS !== null),
    share: 0,
    headTick,
    frame: null,
    setup: null,
    events: [],
  };
  set(({ sides }) => ({ sides: side === 0 ? [fresh, sides[1]] : [sides[0], fresh], sentence: null, running: false }));
  const client = await openWorker();
  clients[side] = client;
  hear(side, client);
  const { seed, inputs, digests } = attempt;
  const run = { format: 1, engine: ENGINE_VERSION, scenarioId: scenario.id, seed, inputs, headTick, digests } as const;
  client.send({ type: 'load', scenario, recording: run });
}

function hear(side: Side, client: Client): void {
  client.onMessage((message) => {
    const now = get().sides[side];
    if (clients[side] !== client || !now) return;
    if (message.type === 'progress') put(side, { share: Math.min(0.99, message.share) });
    else if (message.type === 'frame') put(side, { frame: message.frame });
    else if (message.type === 'setup') put(side, { setup: message.setup });
    else if (message.type === 'events') {
      // Going back sends what is known again.
      const last = now.events.at(-1)?.tick ?? -1;
      const more = message.events.filter(({ tick }) => tick > last);
      if (more.length > 0) put(side, { events: [...now.events, ...more] });
    } else if (message.type === 'loaded') {
      put(side, { share: 1 });
      const begun = get().sides.flatMap((one) => (one ? [beginTickOf(one)] : []));
      showTick(Math.min(...begun));
    } else if (message.type === 'failed') set({ sentence: message.sentence });
  });
}

/** Reads files for the free sides; the third and further have no place. */
export async function takeFiles(files: readonly File[]): Promise<void> {
  for (const file of files.slice(0, 2)) {
    const read = readAttempt(await file.text(), file.name);
    if (read.ok) putAttempt(read.value);
    else set({ sentence: read.sentences.join(' ') });
  }
}

export function lastTick(): Tick {
  return Math.max(0, ...get().sides.map((side) => (side ? side.headTick - 1 : 0)));
}

/** Shows one instant in both rooms; one that has ended stays at its end. */
export function showTick(tick: Tick): void {
  const at = Math.min(lastTick(), Math.max(0, Math.round(tick)));
  set({ tick: at });
  get().sides.forEach((side, i) => {
    if (side?.share === 1) clients[i]?.send({ type: 'seek', tick: Math.min(at, side.headTick - 1) });
  });
}

/** Between two pictures, ms. Source: the engine's own tick, so that 1× is a tick each. */
const EVERY_MS = 100;
let timer: ReturnType<typeof setInterval> | null = null;

export function setRunning(running: boolean): void {
  if (timer) clearInterval(timer);
  timer = null;
  set({ running });
  if (!running) return;
  timer = setInterval(() => {
    const { tick, speed } = get();
    showTick(tick + speed);
    if (get().tick >= lastTick()) setRunning(false);
  }, EVERY_MS);
}

export function setSpeed(speed: number): void {
  set({ speed });
}

/** To the next or the previous act of either bench. */
export function toAct(direction: 1 | -1): void {
  const { sides, tick } = get();
  const ticks = sides.flatMap((side) => side?.steps.map(({ atS }) => secondsToTicks(atS ?? 0)) ?? []);
  const there = ticks.filter((t) => (direction === 1 ? t > tick : t < tick)).sort((a, b) => (a - b) * direction);
  if (there[0] !== undefined) showTick(there[0]);
}

export function clearSplit(): void {
  setRunning(false);
  for (const side of [0, 1] as const) {
    clients[side]?.close();
    clients[side] = null;
  }
  set(EMPTY);
}
