/** Questions that a class answers by show of hands, and what the run then says to them. Reads events; decides nothing. */
import type { TraceEvent } from '../engine/trace.ts';
import type { OutputId, Tick } from '../engine/types.ts';
import { OUTPUTS } from '../engine/view.ts';
import type { QuestionKind } from './text/lecture.ts';

export interface Truth {
  /** Place of the option that it was; null: none of them, or not to be told by a run. */
  option: number | null;
  /** Switchings that the answer rests on, in their order. */
  events: Switching[];
  /** Nothing that is still to come can change the answer: the room may stop. */
  settled: boolean;
}

type Switching = Extract<TraceEvent, { kind: 'output' }>;

/** After the first of several switchings the others are waited for so long, ticks. Assumed: twice the longest on-delay of the stories. */
const WAIT_FOR_OTHERS_TICKS = 3000;

const ROWS: readonly OutputId[] = ['innerRow', 'windowRow'];

function switchings(events: readonly TraceEvent[], fromTick: Tick): Switching[] {
  return events.filter((event): event is Switching => event.kind === 'output' && event.tick > fromTick);
}

/** Place of the output among the options; when several share the instant, the place after them: "at once". */
function optionOf(some: readonly Switching[], options: readonly OutputId[]): number | null {
  const ids = new Set(some.map(({ output }) => output));
  if (ids.size > 1) return options.length;
  const [only] = ids;
  return only === undefined ? null : options.indexOf(only);
}

function firstOf(all: readonly Switching[], nowTick: Tick): Truth {
  const first = all[0];
  if (!first) return { option: null, events: [], settled: false };
  const firsts = OUTPUTS.flatMap((output) => all.find((event) => event.output === output) ?? []);
  const together = firsts.filter(({ tick }) => tick === first.tick);
  const settled = firsts.length === OUTPUTS.length || nowTick - first.tick >= WAIT_FOR_OTHERS_TICKS;
  return { option: optionOf(together, OUTPUTS), events: inTime(firsts), settled };
}

function firstOff(all: readonly Switching[]): Truth {
  const offs = all.filter(({ output, on }) => !on && ROWS.includes(output));
  const together = offs.filter(({ tick }) => tick === offs[0]!.tick);
  return { option: optionOf(together, ROWS), events: together, settled: offs.length > 0 };
}

/** The first instant at which nothing is on any more, told by the last switching of each output. */
function lastOff(switched: readonly Switching[], onAtStart: readonly OutputId[], some: readonly OutputId[]): Truth {
  const all = switched.filter(({ output }) => some.includes(output));
  const on = new Set(onAtStart.filter((output) => some.includes(output)));
  const last = new Map<OutputId, Switching>();
  for (const [i, event] of all.entries()) {
    if (event.on) on.add(event.output);
    else {
      on.delete(event.output);
      last.set(event.output, event);
    }
    // Others of the same instant belong to it.
    if (on.size > 0 || all[i + 1]?.tick === event.tick) continue;
    const together = [...last.values()].filter(({ tick }) => tick === event.tick);
    return { option: optionOf(together, OUTPUTS), events: inTime([...last.values()]), settled: true };
  }
  return { option: null, events: inTime([...last.values()]), settled: false };
}

function inTime(some: readonly Switching[]): Switching[] {
  return [...some].sort((a, b) => a.tick - b.tick);
}

/** Guess nearest to an instant; the earlier of two that are as near. */
export function nearestGuess(guesses: readonly (Tick | null)[], tick: Tick): number | null {
  let best: number | null = null;
  guesses.forEach((guess, i) => {
    const far = guess === null ? Number.POSITIVE_INFINITY : Math.abs(guess - tick);
    const bestFar = best === null ? Number.POSITIVE_INFINITY : Math.abs(guesses[best]! - tick);
    if (far < bestFar) best = i;
  });
  return best;
}

export interface AskedOfRun {
  kind: QuestionKind;
  /** The answers were locked here; only what comes later counts. */
  fromTick: Tick;
  /** Instants that the class named, one for each option; null: none. */
  guesses: readonly (Tick | null)[];
}

/** What the run up to `nowTick` says to a question. */
export function truthOf(asked: AskedOfRun, events: readonly TraceEvent[], nowTick: Tick): Truth {
  const { kind, fromTick, guesses } = asked;
  const known = events.filter(({ tick }) => tick <= nowTick);
  const all = switchings(known, fromTick);
  const onAtStart = OUTPUTS.filter((output) => {
    const before = known.filter(
      (e): e is Switching => e.kind === 'output' && e.output === output && e.tick <= fromTick,
    );
    return before.at(-1)?.on ?? false;
  });
  switch (kind) {
    case 'first':
      return firstOf(all, nowTick);
    case 'firstOff':
      return firstOff(all);
    case 'lastOff':
      return lastOff(all, onAtStart, OUTPUTS);
    case 'dark': {
      const dark = lastOff(all, onAtStart, ROWS);
      const tick = dark.events.at(-1)?.tick;
      return { ...dark, option: dark.settled && tick !== undefined ? nearestGuess(guesses, tick) : null };
    }
    default:
      return { option: null, events: all, settled: false };
  }
}
