/** A story run without a screen to an instant of its own clock, with everything that reports tell. */
import { clockToSeconds } from '../engine/skyClock.ts';
import type { Scenario, Tick } from '../engine/types.ts';
import { secondsToTicks } from '../engine/units.ts';
import { explain, frameOf, OUTPUTS } from '../engine/view.ts';
import { advance, createSession, type Session } from '../host/session.ts';
import type { Moment } from '../report/moment.ts';
import { clockAt } from '../report/text/format.ts';
import { type Args, readArgs } from './args.ts';
import { complain, storyFrom } from './stories.ts';

export interface MomentOrder {
  scenario: Scenario;
  tick: Tick;
  args: Args;
}

const DAY_S = 86_400;

/**
 * A clock time such as 14:20 or 06:28:30 as seconds from the story's start, or the sentence that says why it is none.
 * In a story that runs past midnight an earlier clock belongs to the next day.
 */
export function secondsTo(scenario: Scenario, clock: string, option = 'at'): number | string {
  const { start, endS } = scenario;
  const from = clockAt(0, start);
  const to = clockAt(secondsToTicks(endS), start);
  if (!/^([01]?\d|2[0-3]):[0-5]\d(:[0-5]\d)?$/.test(clock)) {
    return `--${option} expects a time of the room's clock such as 14:20 or 14:20:30, but is "${clock}".`;
  }
  const passedS = clockToSeconds(clock) - clockToSeconds(start.localTime);
  const fromStartS = passedS < 0 ? passedS + DAY_S : passedS;
  if (fromStartS <= endS) return fromStartS;
  const pastMidnight = clockToSeconds(start.localTime) + endS >= DAY_S;
  const side = passedS < 0 && !pastMidnight ? `before the story starts at ${from}` : `after the story ends at ${to}`;
  return `--${option} expects a time from ${from} to ${to}, but ${clock} is ${side}.`;
}

/** Reads `SCENARIO [--at CLOCK]` and whatever else the verb knows; complains and returns null on bad input. */
export function readMoment(words: readonly string[], withValue: string[], flags: string[]): MomentOrder | null {
  const read = readArgs(words, ['at', ...withValue], flags);
  if (!read.ok) {
    complain([read.sentence]);
    return null;
  }
  const scenario = storyFrom(read.args.plain[0]);
  if (!scenario) return null;
  const [, second] = read.args.plain;
  if (second !== undefined) {
    complain([`Expected one SCENARIO, but there is "${second}" too.`]);
    return null;
  }
  const tick = clockOption(read.args, 'at', scenario, scenario.endS);
  return tick === null ? null : { scenario, tick, args: read.args };
}

/** The instant that an option names; null after having complained. */
export function clockOption(args: Args, option: string, scenario: Scenario, otherwiseS: number): Tick | null {
  const clock = args.values.get(option);
  const atS = clock === undefined ? otherwiseS : secondsTo(scenario, clock, option);
  if (typeof atS !== 'string') return secondsToTicks(atS);
  complain([atS]);
  return null;
}

/** The story from its start until `tick` is worked. */
export function runTo(scenario: Scenario, tick: Tick): Session {
  const session = createSession(scenario);
  advance(session, tick + 1);
  return session;
}

/** What reports know of the instant shown; it stays as it is when the run goes on. */
export function momentOf(session: Session): Moment {
  const { sim } = session;
  const { setup, control } = sim.state;
  const [innerRow, windowRow, airContact] = OUTPUTS.map((output) => explain(sim, output));
  return {
    scenario: sim.scenario,
    setup: structuredClone(setup),
    settings: structuredClone(control.settings),
    frame: structuredClone(frameOf(sim, session.lastStep)),
    explanations: { innerRow: innerRow!, windowRow: windowRow!, airContact: airContact! },
    events: [...session.line.events],
  };
}
