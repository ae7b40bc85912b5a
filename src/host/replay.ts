/** A recording played again: the same scenario, seed and inputs must give the same digest at every minute. */
import type { Recording } from '../engine/recording.ts';
import { ENGINE_VERSION } from '../engine/simulation.ts';
import type { Scenario, Tick } from '../engine/types.ts';
import { advance, createSession, type Session } from './session.ts';

/** A session with the recording's inputs laid out, nothing worked yet. */
export function sessionFor(scenario: Scenario, recording: Recording): Session {
  const session = createSession(scenario, recording.seed);
  const inputs = [...recording.inputs].sort((a, b) => a.tick - b.tick || a.serial - b.serial);
  session.line.inputs = inputs;
  session.nextSerial = inputs.reduce((most, { serial }) => Math.max(most, serial), -1) + 1;
  return session;
}

/** First minute at which the run so far differs from the recording; null while they agree. */
export function firstMismatchTick(session: Session, recording: Recording): Tick | null {
  const mine = session.line.digests;
  for (const [i, theirs] of recording.digests.entries()) {
    const own = mine[i];
    if (!own) return null;
    if (own.tick !== theirs.tick || own.digest !== theirs.digest) return Math.min(own.tick, theirs.tick);
  }
  return null;
}

export interface Replayed {
  session: Session;
  /** The run left the recording somewhere in the minute before this tick. */
  firstMismatchTick: Tick | null;
  /** The recording was made by another version of the engine. */
  engineDiffers: boolean;
}

export function replayRecording(scenario: Scenario, recording: Recording): Replayed {
  const session = sessionFor(scenario, recording);
  advance(session, recording.headTick);
  return {
    session,
    firstMismatchTick: firstMismatchTick(session, recording),
    engineDiffers: recording.engine !== ENGINE_VERSION,
  };
}
