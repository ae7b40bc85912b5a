/** A story run without a screen to an instant of its own clock, with everything that reports tell. */
import { clockToSeconds } from '../engine/skyClock.ts';
import type { Scenario, Tick } from '../engine/types.ts';
import { secondsToTicks } from '../engine/units.ts';
import { explain, frameOf, OUTPUTS } from '../engine/view.ts';
import { advance, createSession, type Session } from '../host/session.ts';
import type { Moment } from '../report/words.ts';
import { type Args, readArgs } from './args.ts';
import { complain, storyFrom } from './stories.ts';

export interface MomentOrder {
  scenario: Scenario;
  tick: Tick;
  args: Args;
}

/** Seconds from the story's start to a clock time such as 14:20 or 06:28:30; null when it is none or lies outside. */
function secondsTo(scenario: Scenario, clock: string): number | null {
  if (!/^([01]?\d|2[0-3]):[0-5]\d(:[0-5]\d)?$/.test(clock)) return null;
  const passedS = clockToSeconds(clock) - clockToSeconds(scenario.start.localTime);
  // A story that runs past midnight: an earlier clock belongs to the next day.
  const fromStartS = passedS < 0 ? passedS + 86_400 : passedS;
  return fromStartS <= scenario.endS ? fromStartS : null;
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
  const at = read.args.values.get('at');
  const atS = at === undefined ? scenario.endS : secondsTo(scenario, at);
  if (atS === null) {
    const { localTime } = scenario.start;
    complain([
      `--at expects a clock time within the story (from ${localTime}, ${scenario.endS} s long), but is "${at}".`,
    ]);
    return null;
  }
  return { scenario, tick: secondsToTicks(atS), args: read.args };
}

export function runTo(scenario: Scenario, tick: Tick): Session {
  const session = createSession(scenario);
  advance(session, tick + 1);
  return session;
}

export function momentOf(session: Session): Moment {
  const { sim } = session;
  const { setup, control } = sim.state;
  const [innerRow, windowRow, airContact] = OUTPUTS.map((output) => explain(sim, output));
  return {
    scenario: sim.scenario,
    setup,
    settings: control.settings,
    frame: frameOf(sim, session.lastStep),
    explanations: { innerRow: innerRow!, windowRow: windowRow!, airContact: airContact! },
    events: session.line.events,
  };
}
