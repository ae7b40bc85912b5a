/** Opening a story in slices: tables first, then the saved run again, then the instant that is asked for. */
import type { Tick } from '../engine/types.ts';
import type { FromWorker, ToWorker } from './messages.ts';
import { SLICE_MS } from './pacing.ts';
import { firstMismatchTick, sessionFor } from './replay.ts';
import { advance, createSession, type Session, seek } from './session.ts';

type Progress = Omit<Extract<FromWorker, { type: 'progress' }>, 'type'>;

export interface Loading {
  session: Session | null;
  /** What the learner should know about the saved run. */
  sentence: string | null;
  /** Works a slice; null when done. */
  work(clock: () => number): Progress | null;
}

/** Slices while nobody can do anything yet may be longer, ms. Assumed: short enough for a bar that moves. */
const LOADING_SLICE_MS = SLICE_MS * 4;

function clockText(scenario: Session['sim']['scenario'], tick: Tick): string {
  const [h = 0, m = 0] = scenario.start.localTime.split(':').map(Number);
  const minutes = Math.floor(h * 60 + m + tick / 600) % 1440;
  return `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;
}

function mismatchSentence(session: Session, message: Extract<ToWorker, { type: 'load' }>): string | null {
  if (!message.recording) return null;
  const tick = firstMismatchTick(session, message.recording);
  if (tick === null) return null;
  const at = clockText(message.scenario, tick);
  return `The saved run went another way at ${at}, as it was made with another version; it has been worked out again.`;
}

export function loadSteps(message: Extract<ToWorker, { type: 'load' }>): Loading {
  const { scenario, recording, atTick } = message;
  const target = Math.max(recording?.headTick ?? 0, atTick === undefined || atTick <= 0 ? 0 : atTick + 1);
  const loading: Loading = {
    session: null,
    sentence: null,
    work: (clock) => {
      if (!loading.session) {
        loading.session = recording ? sessionFor(scenario, recording) : createSession(scenario);
        return { stage: 'light', share: 1 };
      }
      const { session } = loading;
      const startMs = clock();
      while (session.line.headTick < target && clock() - startMs < LOADING_SLICE_MS) advance(session, 1);
      if (session.line.headTick < target) return { stage: 'replay', share: session.line.headTick / target };
      loading.sentence = mismatchSentence(session, message);
      if (atTick !== undefined) seek(session, atTick);
      return null;
    },
  };
  return loading;
}
