/** What a run was about, in a few instants: chosen from its events, each told by the engine's own reason. */
import type { TraceEvent } from '../engine/trace.ts';
import type { OutputId, Tick } from '../engine/types.ts';
import { eventSentence } from './text/events.ts';
import { lectureWords } from './text/lecture.ts';
import { outputInSentence, outputName } from './text/names.ts';

export interface RecapMarker {
  tick: Tick;
  text: string;
}

/** Source: six fit on a projected page at a size that the last row reads. */
const MOST = 6;

interface Candidate extends RecapMarker {
  /** Smaller is told first when there are too many. */
  rank: number;
  /** Of a switching: an output of the same instant goes with it. */
  on?: boolean;
}

type Off = Extract<TraceEvent, { kind: 'output' }>;

function isOffForNobody(event: TraceEvent): event is Off {
  return event.kind === 'output' && !event.on && event.reason.code === 'nobodySeen';
}

/** The movement that a switching off for want of movement counted from; null: it lies before the events. */
function lastSeenBefore(events: readonly TraceEvent[], tick: Tick): Tick | null {
  let last: Tick | null = null;
  for (const event of events) {
    if (event.tick > tick) break;
    if (event.kind === 'seen') last = event.tick;
  }
  return last;
}

/** Switchings first, each output's first and last before those between; then crossings, the pulses counted from, acts. */
function candidates(events: readonly TraceEvent[]): Candidate[] {
  const out: Candidate[] = [];
  const nth = new Map<string, number>();
  const count = (key: string): number => {
    const n = (nth.get(key) ?? 0) + 1;
    nth.set(key, n);
    return n;
  };
  const switched = events.filter((event): event is Off => event.kind === 'output');
  const lastOf = new Map<OutputId, Off>(switched.map((event) => [event.output, event]));
  const told = new Set<Tick>();
  for (const event of events) {
    const { tick } = event;
    const text = eventSentence(event);
    if (event.kind === 'output') {
      const n = count(`${event.output} ${event.on}`);
      const twin = out.find((one) => one.tick === tick && one.on === event.on);
      if (twin) twin.text += ` ${lectureWords.too(outputName[event.output])}`;
      else out.push({ tick, text, rank: n === 1 ? 0 : lastOf.get(event.output) === event ? 1 : 5, on: event.on });
    } else if (event.kind === 'crossing') {
      const n = count(`${event.row} ${event.level} ${event.rising}`);
      out.push({ tick, text, rank: n > 1 ? 6 : event.level === 'setpoint' ? 2 : 4 });
    } else if (event.kind === 'input') out.push({ tick, text, rank: count('input') === 1 ? 3 : 6 });
    if (!isOffForNobody(event)) continue;
    const seen = lastSeenBefore(events, tick);
    if (seen === null || told.has(seen)) continue;
    told.add(seen);
    out.push({
      tick: seen,
      text: lectureWords.lastPulse(outputInSentence(event.output)),
      rank: count('pulse') === 1 ? 2 : 5,
    });
  }
  return out;
}

/** At most six markers of the run up to `headTick`, in order of time. */
export function recapOf(events: readonly TraceEvent[], headTick: Tick): RecapMarker[] {
  return candidates(events.filter(({ tick }) => tick <= headTick))
    .map((candidate, i) => ({ ...candidate, i }))
    .sort((a, b) => a.rank - b.rank || a.tick - b.tick || a.i - b.i)
    .slice(0, MOST)
    .sort((a, b) => a.tick - b.tick || a.i - b.i)
    .map(({ tick, text }) => ({ tick, text }));
}
