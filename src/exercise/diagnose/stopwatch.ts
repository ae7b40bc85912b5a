/** The stopwatch: really run, from what set the time going to the switching. */
import type { TraceEvent } from '../../engine/trace.ts';
import type { OutputId } from '../../engine/types.ts';
import { TICKS_PER_S } from '../../engine/units.ts';
import { timeBin } from './bins.ts';
import type { Moment } from './moment.ts';
import type { Reading } from './types.ts';
import { tickOf } from './world.ts';

/** A pause without movement that makes the next movement an arrival, s. Assumed: longer than anybody at work sits still. */
const ARRIVAL_GAP_S = 60;

const isPress = (event: TraceEvent): boolean => event.kind === 'press';
const isSeen = (event: TraceEvent): boolean => event.kind === 'seen';

/** Start of the time before an off: the last movement or press. Before an on: the arrival, or a press just before. */
function startTick(events: readonly TraceEvent[], on: boolean, atTick: number): number | null {
  const before = events.filter((event) => event.tick <= atTick && (isSeen(event) || isPress(event)));
  const last = before.at(-1);
  if (!last) return null;
  if (!on || isPress(last)) return last.tick;
  const seen = before.filter(isSeen);
  for (let i = seen.length - 1; i > 0; i--) {
    if (seen[i]!.tick - seen[i - 1]!.tick > ARRIVAL_GAP_S * TICKS_PER_S) return seen[i]!.tick;
  }
  return seen[0]?.tick ?? null;
}

export function stopwatch({ world, isTrue }: Moment, output: OutputId, edge: 'on' | 'off'): Reading {
  const { events } = world;
  const switched = events.filter(
    (event) => event.kind === 'output' && event.output === output && event.on === (edge === 'on'),
  );
  const last = switched.at(-1);
  const start = last ? startTick(events, edge === 'on', last.tick) : null;
  if (!last || start === null)
    return isTrue ? { refused: 'nothingSwitched' } : { values: { timeS: null, agoS: null }, bin: 'none' };
  const timeS = (last.tick - start) / TICKS_PER_S;
  const agoS = (tickOf(world) - last.tick) / TICKS_PER_S;
  return { values: { timeS, agoS }, bin: timeBin(timeS) };
}
