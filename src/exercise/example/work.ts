/** An example worked out: the expert's run on the twin bench, and at each step the readings that its words ask for. */
import type { Frame } from '../../engine/frame.ts';
import { createSimulation, stepSimulation } from '../../engine/simulation.ts';
import type { TraceEvent } from '../../engine/trace.ts';
import type { OutputId, Tick } from '../../engine/types.ts';
import { secondsToTicks, TICKS_PER_S } from '../../engine/units.ts';
import { frameOf } from '../../engine/view.ts';
import { expertAttempt } from '../assessment/expertAttempt.ts';
import { type PathStep, pathOf } from '../assessment/path.ts';
import type { Condition } from '../commission/types.ts';
import { createBench } from '../diagnose/bench.ts';
import { takeAgain, weigh } from '../diagnose/evidence.ts';
import { play } from '../replay.ts';
import type { Attempt, Exercise } from '../types.ts';
import { factTable, type Instant, splitName, startSecondsOf } from './facts.ts';
import { type Scene, sceneOf } from './scenes.ts';
import { namesIn, textsOf } from './template.ts';
import { EXAMPLE_SEED, twinOf } from './twin.ts';
import type { Example, ExampleStep, Fact, WorkedExample } from './types.ts';

/** What an act of the expert's path is called in a file: its instrument, or its kind. */
export function actName({ act }: PathStep): string {
  return act.kind === 'test' ? act.test.instrument : act.kind;
}

interface Work {
  twin: Exercise;
  path: PathStep[];
  /** Causes that still fit after each reading of the expert, in their order. */
  left: number[];
}

function leftAfter(twin: Exercise, attempt: Attempt): number[] {
  const answers = attempt.answers.diagnose;
  if (twin.kind !== 'diagnose' || !answers) return [];
  const bench = createBench(twin, EXAMPLE_SEED, attempt.inputs);
  const taken = takeAgain(bench, answers.clips, attempt.headTick);
  return weigh(bench, taken, answers, answers.claims.at(-1) ?? null).told.map(({ left }) => left);
}

const where = (i: number): string => `example.steps[${i}]`;

/** The expert's act that a step stands at. Throws a RangeError that names the step when the path has another one there. */
function actOf(path: readonly PathStep[], { when }: ExampleStep, i: number): PathStep | null {
  if (!('act' in when)) return null;
  const act = path[when.act];
  const is = act ? actName(act) : 'none';
  if (act && is === when.is) return act;
  const known = path.map((one, n) => `${n} ${actName(one)}`).join(', ');
  throw new RangeError(`${where(i)}.when: act ${when.act} is ${is}, not ${when.is}; the expert's acts are ${known}.`);
}

function switchingTick(
  events: readonly TraceEvent[],
  when: Extract<ExampleStep['when'], { switches: OutputId }>,
): Tick | null {
  const all = events.filter((e) => e.kind === 'output' && e.output === when.switches && e.on === when.on);
  const tick = all[(when.nth ?? 1) - 1]?.tick;
  if (tick === undefined) return null;
  if (!when.lastSeen) return tick;
  return events.filter((e) => e.kind === 'seen' && e.tick <= tick).at(-1)?.tick ?? null;
}

function tickOf(step: ExampleStep, i: number, act: PathStep | null, events: readonly TraceEvent[]): Tick {
  const { when } = step;
  if ('atS' in when) return secondsToTicks(when.atS);
  const own = 'act' in when ? (act?.atS ?? 0) * TICKS_PER_S : switchingTick(events, when);
  if (own === null) throw new RangeError(`${where(i)}.when: this run has no such switching.`);
  return Math.max(1, Math.round(own) + secondsToTicks(when.afterS ?? 0));
}

type Switches = Extract<ExampleStep['when'], { switches: OutputId }>;

/** Events of a scene, up to the last switching that its steps stand at; none where they stand at acts and moments. */
function eventsFor({ scenario, inputs, endTick }: Scene, steps: readonly ExampleStep[]): TraceEvent[] {
  const wanted = steps.flatMap(({ when }) => ('switches' in when ? [when] : []));
  const events: TraceEvent[] = [];
  const sim = createSimulation(scenario);
  const isMissing = (when: Switches): boolean => switchingTick(events, when) === null;
  let missing = wanted.filter(isMissing);
  for (let tick = 0; missing.length > 0 && tick < endTick; tick++) {
    const due = inputs.filter((timed) => timed.tick === tick);
    const own = stepSimulation(sim, due).events;
    events.push(...own);
    if (own.some(({ kind }) => kind === 'output')) missing = wanted.filter(isMissing);
  }
  return events;
}

type Known = Omit<Instant, 'act' | 'minutes' | 'left'>;

/** Runs a scene to its last step and keeps what is known at each. */
function showScene({ scenario, inputs }: Scene, ticks: ReadonlyMap<number, Tick>): Map<number, Known> {
  const switchedTick: Instant['switchedTick'] = {};
  const instants = new Map<number, Known>();
  const startS = startSecondsOf(scenario.start.localTime);
  play(scenario, inputs, Math.max(...ticks.values()) + 1, (step, sim) => {
    for (const event of step.events) if (event.kind === 'output') switchedTick[event.output] = event.tick;
    for (const [i, tick] of ticks) {
      if (tick !== step.tick) continue;
      const { settings } = sim.state.control;
      instants.set(i, { frame: frameOf(sim, step), startS, settings, switchedTick: { ...switchedTick } });
    }
  });
  return instants;
}

/** Minutes spent and causes left once the act of a step is done; before its first act nothing is spent. */
function spentAt({ path, left }: Work, act: PathStep | null): Pick<Instant, 'minutes' | 'left'> {
  const done = act ? path.slice(0, path.indexOf(act) + 1) : [];
  const readings = done.filter((one) => one.act.kind === 'test').length;
  return {
    minutes: done.reduce((sum, { minutes }) => sum + (minutes ?? 0), 0),
    left: left[Math.min(readings, left.length) - 1] ?? null,
  };
}

function factsOf(step: ExampleStep, i: number, instants: readonly Instant[], twin: Exercise): Record<string, Fact> {
  const table = factTable(twin);
  const facts: Record<string, Fact> = {};
  for (const { at, text } of textsOf(step)) {
    for (const name of namesIn(text)) {
      const { by, plain } = splitName(name);
      const instant = instants[i + by];
      const fact = facts[name] ?? (instant ? table.get(plain)?.(instant) : null);
      if (!fact) throw new RangeError(`${[where(i), ...at].join('.')}: there is no {${name}} at this instant.`);
      facts[name] = fact;
    }
  }
  return facts;
}

function holdsAt(condition: Condition, { outputs, people, deskLx }: Frame, { scenario }: Exercise): boolean {
  if ('output' in condition) return outputs[condition.output].on === condition.on;
  if ('row' in condition)
    return outputs[condition.row === 'inner' ? 'innerRow' : 'windowRow'].state === condition.state;
  if ('air' in condition) return outputs.airContact.state === condition.air;
  if ('someone' in condition) return people.some(({ present }) => present) === condition.someone;
  const lx = deskLx[scenario.room.deskPoints.findIndex(({ id }) => id === condition.desk)] ?? Number.NaN;
  return lx < (condition.below ?? Number.POSITIVE_INFINITY) && lx > (condition.above ?? Number.NEGATIVE_INFINITY);
}

function unmetOf({ holds = [] }: ExampleStep, i: number, { frame }: Instant, twin: Exercise): string[] {
  return holds
    .filter((condition) => !holdsAt(condition, frame, twin))
    .map((condition) => `${where(i)}.holds: ${JSON.stringify(condition)} is not so at ${frame.tick / TICKS_PER_S} s.`);
}

/** Examples worked before: proofs and whoever shows one ask for the same. */
const worked = new WeakMap<Exercise, WorkedExample>();

/** The strip shows a little more than the last step, s. Assumed. */
const AFTER_S = 60;

/**
 * Takes some seconds: the expert works the twin bench, and each room of the example is run up to its last step.
 * Throws a RangeError that names the step when the run has no such act, switching or reading.
 */
export function workExample(exercise: Exercise): WorkedExample {
  const known = worked.get(exercise) ?? workedNow(exercise);
  worked.set(exercise, known);
  return known;
}

function workedNow(exercise: Exercise): WorkedExample {
  const example = exercise.example as Example;
  const { steps } = example;
  const twin = twinOf(exercise);
  const attempt = expertAttempt(twin, EXAMPLE_SEED);
  const work: Work = { twin, path: pathOf(twin, attempt), left: leftAfter(twin, attempt) };
  const acts = steps.map((step, i) => actOf(work.path, step, i));
  const all = steps.map((step) => sceneOf(twin, attempt, step));
  const scenes = all.filter((scene, i) => all.findIndex(({ key }) => key === scene.key) === i);
  const ticks: Tick[] = [];
  const instants: Instant[] = [];
  const unmet: string[] = [];
  for (const scene of scenes) {
    const own = steps.flatMap((step, i) => (all[i]!.key === scene.key ? [{ step, i }] : []));
    const events = eventsFor(
      scene,
      own.map(({ step }) => step),
    );
    for (const { step, i } of own) ticks[i] = tickOf(step, i, acts[i]!, events);
    const known = showScene(scene, new Map(own.map(({ i }) => [i, ticks[i]!])));
    for (const { step, i } of own) {
      const instant = { ...known.get(i)!, act: acts[i]!, ...spentAt(work, acts[i]!) };
      instants[i] = instant;
      unmet.push(...unmetOf(step, i, instant, twin));
    }
  }
  const lastS = (key: string): number => {
    const own = ticks.filter((_, i) => all[i]!.key === key);
    return Math.ceil(Math.max(...own) / TICKS_PER_S) + AFTER_S;
  };
  return {
    scenes: scenes.map(({ key, scenario, inputs }) => ({ scenario: { ...scenario, endS: lastS(key) }, inputs })),
    steps: steps.map(({ when: _when, holds: _holds, ...step }, i) => ({
      ...step,
      scene: scenes.findIndex(({ key }) => key === all[i]!.key),
      tick: ticks[i]!,
      facts: factsOf(steps[i]!, i, instants, twin),
    })),
    unmet,
  };
}
