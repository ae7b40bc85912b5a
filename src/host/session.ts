/**
 * A run that can be looked at: worked forward, gone back in, branched, explained. Knows no wall clock, no worker, no
 * screen; the worker, the command line and the tests all hold one of these.
 *
 * Two counts: `state.tick` is the next tick to work; the *shown* tick is the last one worked (0 before the first).
 */
import { rowLight } from '../engine/control/control.ts';
import { canonicalJson, fnv64 } from '../engine/digest.ts';
import type { Recording } from '../engine/recording.ts';
import {
  createSimulation,
  ENGINE_VERSION,
  type Simulation,
  type StepResult,
  stepSimulation,
} from '../engine/simulation.ts';
import type { Explanation, TraceEvent } from '../engine/trace.ts';
import type { Input, OutputId, Scenario, SimState, Tick } from '../engine/types.ts';
import { TICKS_PER_S } from '../engine/units.ts';
import { explain } from '../engine/view.ts';
import { reach, restoreText } from './knownGround.ts';
import {
  addInput,
  type Checkpoint,
  commonTick,
  copyLine,
  createLine,
  cutLine,
  firstAtOrAfter,
  inputsAt,
  type Line,
} from './line.ts';
import { createLookBack, forgetFrom, keepSignal, type LookBack } from './lookBack.ts';
import { addSample, addSignal } from './series.ts';
import { noteSightings } from './sightings.ts';

/** Digests are taken this often, ticks. Source: the product's decision, each simulated minute. */
export const DIGEST_EVERY_TICKS = 600;
/** A clone is taken at least this often, ticks. Source: the product's decision, each simulated minute. */
export const CLONE_EVERY_TICKS = 600;
/**
 * … and sooner when so much movement has passed since the last one that going back over it would take long; in empty
 * ticks (about 0.02 ms here). Assumed: 2000 of them are 40 ms, a quarter of what a seek may take; larger makes
 * scrubbing through a crowd slow, smaller fills memory (a clone is a text of some 10 kB).
 */
export const CLONE_AFTER_WORK = 2000;
/** Set-aside futures that are kept. Assumed: more than anybody remembers; each holds its own series. */
const MOST_BRANCHES = 8;

export interface Branch {
  /** First tick that the branch has for itself. */
  cutTick: Tick;
  line: Line;
}

export interface Session {
  readonly sim: Simulation;
  line: Line;
  branches: Branch[];
  nextSerial: number;
  /** What the last worked tick brought; null before the first. */
  lastStep: StepResult | null;
  /** Work since the last clone, in empty ticks. */
  workSinceClone: number;
  /** Before the acts done while standing still: more acts at the same tick are worked together with them. */
  beforeActs: Checkpoint | null;
  /** A second room for questions about other instants, so that the shown one stays. */
  viewer: Simulation | null;
  /** The last ten minutes of the signal, and rooms that work older stretches again. */
  lookBack: LookBack;
}

export function createSession(scenario: Scenario, seed: number = scenario.seed): Session {
  return {
    sim: createSimulation(scenario, seed),
    line: createLine(),
    branches: [],
    nextSerial: 0,
    lastStep: null,
    workSinceClone: 0,
    beforeActs: null,
    viewer: null,
    lookBack: createLookBack(),
  };
}

export function shownTick(session: Session): Tick {
  return Math.max(0, session.sim.state.tick - 1);
}

export function stateTickFor(shown: Tick): Tick {
  return shown <= 0 ? 0 : shown + 1;
}

/** Switching of an output or change of a state: what *next event* stops at. */
export function isSwitching(event: TraceEvent): boolean {
  return event.kind === 'output' || event.kind === 'row' || event.kind === 'air' || event.kind === 'phase';
}

function textOf(state: SimState): string {
  return canonicalJson(state);
}

/**
 * What a tick costs, in empty ones: bodies that move are weighed against the lens and against each other. Measured on
 * the corner office: 0.02 ms empty, 0.17 ms with one walker, 0.55 ms with three, 1.9 ms with eight.
 */
function workOfTick(state: SimState): number {
  let moving = state.setup.warmThings.length;
  for (const person of state.people) {
    if (person.present && (person.act === 'walk' || person.act === 'sway' || person.gesture !== null)) moving++;
  }
  return 1 + moving * (7 + 0.6 * moving);
}

/** On new ground, before its tick is worked. */
function keepCheckpoint(session: Session): void {
  const { line, sim } = session;
  const { tick } = sim.state;
  session.workSinceClone += workOfTick(sim.state);
  const due = tick % CLONE_EVERY_TICKS === 0 || session.workSinceClone > CLONE_AFTER_WORK;
  if (!due || (line.checkpoints.at(-1)?.tick ?? -1) >= tick) return;
  session.workSinceClone = 0;
  const text = textOf(sim.state);
  line.checkpoints.push({ tick, text });
  if (tick % DIGEST_EVERY_TICKS === 0) line.digests.push({ tick, digest: fnv64(text) });
}

function recordStep(session: Session, step: StepResult): void {
  const { line, sim } = session;
  for (const event of step.events) line.events.push(event);
  noteSightings(line.sightings, sim.state.people, step.events);
  addSignal(line.series, step.signalUv);
  keepSignal(session.lookBack, step.tick, step.signalUv);
  if (step.tick % TICKS_PER_S === 0) {
    const inner = rowLight(sim.state.control, 'inner');
    const window = rowLight(sim.state.control, 'window');
    addSample(line.series, {
      innerEstimateLx: inner.daylightEstimateLx,
      windowEstimateLx: window.daylightEstimateLx,
      innerReadingLx: inner.ceilingReadingLx,
      windowReadingLx: window.ceilingReadingLx,
    });
  }
  line.headTick = step.tick + 1;
}

/** Works the next tick of the shown room; new ground is recorded, known ground is not recorded again. */
function workTick(session: Session): StepResult {
  const { sim, line } = session;
  const { tick } = sim.state;
  if (tick === line.headTick) keepCheckpoint(session);
  const step = stepSimulation(sim, inputsAt(line, tick));
  if (tick >= line.headTick) recordStep(session, step);
  session.lastStep = step;
  return step;
}

/** Works up to `ticks` ticks; `goOn` is asked after each and may stop early. Returns how many were worked. */
export function advance(session: Session, ticks: number, goOn: (step: StepResult) => boolean = () => true): number {
  session.beforeActs = null;
  for (let worked = 0; worked < ticks; ) {
    const step = workTick(session);
    worked++;
    if (!goOn(step)) return worked;
  }
  return ticks;
}

/** Shows another instant of the run so far; beyond its head, the head. */
export function seek(session: Session, shown: Tick): void {
  const { sim, line } = session;
  session.beforeActs = null;
  const stateTick = Math.min(stateTickFor(shown), line.headTick);
  if (stateTick === sim.state.tick) return;
  session.lastStep = reach(sim, line, stateTick, true);
}

/** The shown tick of the next (or previous) switching that is already known; null when there is none. */
export function knownSwitching(session: Session, direction: 1 | -1): Tick | null {
  const { events } = session.line;
  const shown = shownTick(session);
  if (direction === 1) {
    const from = session.sim.state.tick === 0 ? 0 : shown + 1;
    for (let i = firstAtOrAfter(events, from); i < events.length; i++) {
      if (isSwitching(events[i]!)) return events[i]!.tick;
    }
    return null;
  }
  for (let i = firstAtOrAfter(events, shown) - 1; i >= 0; i--) {
    if (isSwitching(events[i]!)) return events[i]!.tick;
  }
  return null;
}

/** Sets aside what comes after the shown instant, when there is any. Returns the first tick that was set aside. */
function branchHere(session: Session): Tick | null {
  const { line, sim } = session;
  const { tick } = sim.state;
  if (tick >= line.headTick) return null;
  session.branches.push({ cutTick: tick, line: copyLine(line) });
  if (session.branches.length > MOST_BRANCHES) session.branches.shift();
  cutLine(line, tick, false);
  forgetViewer(session, tick);
  return tick;
}

/** The viewer and those who look back may stand on ground that no longer exists. */
function forgetViewer(session: Session, fromTick: Tick): void {
  session.viewer = null;
  forgetFrom(session.lookBack, fromTick);
}

/**
 * Done at now: due in the next tick. In the past of the run this begins a branch. Returns the first tick that views
 * must forget, or null.
 */
export function act(session: Session, input: Input): Tick | null {
  const cut = branchHere(session);
  addInput(session.line, { tick: session.sim.state.tick, serial: session.nextSerial++, input });
  return cut;
}

/**
 * Acts while time stands still: the tick they are due in is worked at once, so that the picture shows them; more acts
 * before the run goes on are worked into the same tick, so that dragging the sun does not make the clock creep.
 */
export function actStandingStill(session: Session, inputs: readonly Input[]): Tick | null {
  const { sim, line, beforeActs } = session;
  let cut: Tick | null = null;
  if (beforeActs) {
    cut = beforeActs.tick;
    restoreText(sim, beforeActs);
    cutLine(line, beforeActs.tick, true);
    forgetViewer(session, beforeActs.tick);
  }
  const before = beforeActs ?? { tick: sim.state.tick, text: textOf(sim.state) };
  for (const input of inputs) cut = act(session, input) ?? cut;
  workTick(session);
  session.beforeActs = before;
  return cut;
}

/** Brings a set-aside future back; the present one takes its place. Returns the first tick that views must forget. */
export function restoreBranch(session: Session, index: number): Tick | null {
  const branch = session.branches[index];
  if (!branch) return null;
  const present = session.line;
  const common = commonTick(present, branch.line);
  const shown = Math.min(shownTick(session), common - 1);
  session.branches[index] = { cutTick: common, line: present };
  session.line = branch.line;
  session.beforeActs = null;
  forgetViewer(session, common);
  const stateTick = Math.min(stateTickFor(shown), session.line.headTick);
  session.lastStep = reach(session.sim, session.line, stateTick, false);
  return common;
}

/** Why an output is as it is at any instant of the run so far; the shown room does not move. */
export function explainAt(session: Session, output: OutputId, shown: Tick): Explanation {
  const { sim, line } = session;
  const stateTick = Math.min(stateTickFor(shown), line.headTick);
  if (stateTick === sim.state.tick) return explain(sim, output);
  const fresh = session.viewer === null;
  session.viewer ??= createSimulation(sim.scenario, sim.state.seed);
  if (session.viewer.state.tick !== stateTick) reach(session.viewer, line, stateTick, !fresh);
  return explain(session.viewer, output);
}

export function recordingOf(session: Session): Recording {
  const { line, sim } = session;
  return {
    format: 1,
    engine: ENGINE_VERSION,
    scenarioId: sim.scenario.id,
    seed: sim.state.seed,
    inputs: [...line.inputs],
    headTick: line.headTick,
    digests: [...line.digests],
  };
}
