/** The same run in Node: what the page recorded, worked again. */
import { storyFrom } from '../../../src/cli/stories.ts';
import type { Recording } from '../../../src/engine/recording.ts';
import type { TraceEvent } from '../../../src/engine/trace.ts';
import { advance, createSession } from '../../../src/host/session.ts';

export interface Replayed {
  digests: Recording['digests'];
  events: TraceEvent[];
  /** Largest size of the signal in a stretch of ticks, µV: what the Recorder draws as its height. */
  peakUv: (fromTick: number, toTick: number) => number;
}

export function replay(recording: Recording): Replayed {
  const scenario = storyFrom(`scenarios/${recording.scenarioId}.json`)!;
  const session = createSession(scenario, recording.seed);
  session.line.inputs = recording.inputs;
  advance(session, recording.headTick);
  const { values } = session.line.series.signalUv;
  const peakUv = (fromTick: number, toTick: number) =>
    values.subarray(fromTick * 2, toTick * 2).reduce((peak, uv) => Math.max(peak, Math.abs(uv)), 0);
  return { digests: session.line.digests, events: session.line.events, peakUv };
}

export function switchings(events: readonly TraceEvent[]) {
  return events.flatMap((e) =>
    e.kind === 'output' ? [{ tick: e.tick, output: e.output, on: e.on, why: e.reason.code }] : [],
  );
}
