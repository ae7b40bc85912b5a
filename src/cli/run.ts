/** run: a story without a screen. State changes with their time and reason, a line each; the last carries the digest. */
import { closeSync, openSync, writeSync } from 'node:fs';
import { rowLight } from '../engine/control/control.ts';
import { isInRoom } from '../engine/room/corridor.ts';
import { digestOf, ENGINE_VERSION } from '../engine/simulation.ts';
import type { Reason, TraceEvent } from '../engine/trace.ts';
import type { Scenario, Tick, TimedInput } from '../engine/types.ts';
import { secondsToTicks, ticksToSeconds } from '../engine/units.ts';
import { withSettings } from '../exercise/storedRun.ts';
import { advance, createSession, isSwitching, type Session } from '../host/session.ts';
import { loadInputs } from '../scenario/inputs.ts';
import { type Args, durationS, readArgs } from './args.ts';
import { readText } from './files.ts';
import { readSettings } from './settingsArg.ts';
import { complain, storyFrom } from './stories.ts';

/** Sampled readings are this far apart, ticks. Source: the command's own description, 60 s. */
const SAMPLE_EVERY_TICKS = 600;

interface Order {
  scenario: Scenario;
  seed: number;
  ticks: Tick;
  inputs: TimedInput[];
  out: string | null;
  samples: boolean;
}

function orderedInputs(args: Args, scenario: Scenario): TimedInput[] | null {
  const path = args.values.get('inputs');
  if (path === undefined) return [];
  const read = readText(path);
  if (!read.ok) {
    complain([read.sentence]);
    return null;
  }
  const inputs = loadInputs(read.text, path, scenario);
  if (inputs.ok) return inputs.value;
  complain(inputs.sentences);
  return null;
}

/** The story under the settings asked for, from its start; null after having complained. */
function underSettings(args: Args, story: Scenario): Scenario | null {
  const text = args.values.get('settings');
  if (text === undefined) return story;
  const read = readSettings(text, story);
  if (read.ok) return read.changes.reduce(withSettings, story);
  complain(read.sentences);
  return null;
}

/** Null after having complained. */
function readOrder(words: readonly string[]): Order | null {
  const read = readArgs(words, ['inputs', 'settings', 'for', 'seed', 'out'], ['samples']);
  if (!read.ok) {
    complain([read.sentence]);
    return null;
  }
  const { args } = read;
  const story = storyFrom(args.plain[0]);
  const scenario = story && underSettings(args, story);
  if (!scenario) return null;
  const lengthS = durationS(args.values.get('for') ?? `${scenario.endS}`);
  const seed = Number(args.values.get('seed') ?? scenario.seed);
  const sentences: string[] = [];
  if (lengthS === null || lengthS <= 0) {
    sentences.push(`--for expects a duration such as 90s, 5m or 1h30m, but is "${args.values.get('for')}".`);
  }
  if (!Number.isInteger(seed) || seed < 0 || seed > 0xffffffff) {
    sentences.push(`--seed expects a whole number from 0 to 4294967295, but is "${args.values.get('seed')}".`);
  }
  if (args.plain.length > 1) sentences.push(`Expected one SCENARIO, but there is "${args.plain[1]}" too.`);
  complain(sentences);
  const inputs = orderedInputs(args, scenario);
  if (sentences.length > 0 || !inputs || lengthS === null) return null;
  const out = args.values.get('out') ?? null;
  return { scenario, seed, ticks: secondsToTicks(lengthS), inputs, out, samples: args.flags.has('samples') };
}

function timeS(tick: Tick | null): number | null {
  return tick === null ? null : ticksToSeconds(tick);
}

function reasonLine(reason: Reason) {
  const conditions = reason.conditions.map(({ sinceTick, untilTick, ...condition }) => ({
    ...condition,
    sinceS: timeS(sinceTick),
    untilS: timeS(untilTick),
  }));
  return { code: reason.code, conditions };
}

function eventLine(event: TraceEvent): string {
  const { tick, kind, ...rest } = event;
  const told = 'reason' in rest ? { ...rest, reason: reasonLine(rest.reason) } : rest;
  return JSON.stringify({ tS: timeS(tick), kind, ...told });
}

function sampleLine(session: Session, tick: Tick): string {
  const { control, plant, people } = session.sim.state;
  const { room } = session.sim.scenario;
  const deskLx = (session.lastStep?.light.deskLx ?? []).map((lx) => Math.round(lx * 10) / 10);
  return JSON.stringify({
    tS: timeS(tick),
    kind: 'sample',
    phase: control.phase,
    inner: { state: control.inner.state, level: plant.innerLevel, ...rowLight(control, 'inner') },
    window: { state: control.window.state, level: plant.windowLevel, ...rowLight(control, 'window') },
    air: control.air.state,
    deskLx,
    people: people.filter((person) => person.present && isInRoom(room, person.atM)).length,
  });
}

function runOrder(order: Order, print: (line: string) => void): void {
  const session = createSession(order.scenario, order.seed);
  session.line.inputs = order.inputs;
  let events = 0;
  advance(session, order.ticks, (step) => {
    for (const event of step.events) {
      if (!isSwitching(event)) continue;
      print(eventLine(event));
      events++;
    }
    if (order.samples && step.tick % SAMPLE_EVERY_TICKS === 0) print(sampleLine(session, step.tick));
    return true;
  });
  const digest = digestOf(session.sim.state);
  const { seed, scenario } = order;
  const tS = timeS(order.ticks);
  print(JSON.stringify({ tS, kind: 'end', scenario: scenario.id, seed, engine: ENGINE_VERSION, events, digest }));
}

export function run(words: string[]): number {
  const order = readOrder(words);
  if (!order) return 1;
  if (order.out === null) {
    runOrder(order, (line) => process.stdout.write(`${line}\n`));
    return 0;
  }
  let file: number;
  try {
    file = openSync(order.out, 'w');
  } catch {
    complain([`${order.out}: expected a file that can be written, but it cannot.`]);
    return 1;
  }
  runOrder(order, (line) => writeSync(file, `${line}\n`));
  closeSync(file);
  return 0;
}
