/** One line of a run: what was put in, how far it was worked, and what came out. Branches are other lines. */
import type { TraceEvent } from '../engine/trace.ts';
import type { Input, Tick, TimedInput } from '../engine/types.ts';
import { copySeries, createSeries, cutSeries, type Series } from './series.ts';
import type { Sighting } from './sightings.ts';

/** The whole state as canonical JSON: clone and source of the digest in one. */
export interface Checkpoint {
  tick: Tick;
  text: string;
}

export interface Line {
  /** Ordered by (tick, serial). */
  inputs: TimedInput[];
  /** Ticks 0 … headTick - 1 have been worked. */
  headTick: Tick;
  /** Ordered by tick; each holds the state before its tick is worked. */
  checkpoints: Checkpoint[];
  digests: { tick: Tick; digest: string }[];
  /** In order of tick. */
  events: TraceEvent[];
  /** In order of tick. */
  sightings: Sighting[];
  series: Series;
}

export function createLine(): Line {
  return { inputs: [], headTick: 0, checkpoints: [], digests: [], events: [], sightings: [], series: createSeries() };
}

/** Index of the first item at or after the tick. */
export function firstAtOrAfter(items: readonly { tick: Tick }[], tick: Tick): number {
  let low = 0;
  let high = items.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (items[middle]!.tick < tick) low = middle + 1;
    else high = middle;
  }
  return low;
}

const NONE: TimedInput[] = [];

export function inputsAt(line: Pick<Line, 'inputs'>, tick: Tick): TimedInput[] {
  const last = line.inputs.at(-1);
  if (!last || last.tick < tick) return NONE;
  const from = firstAtOrAfter(line.inputs, tick);
  const to = firstAtOrAfter(line.inputs, tick + 1);
  return from === to ? NONE : line.inputs.slice(from, to);
}

/** The last checkpoint at or before the tick. */
export function checkpointFor(line: Line, tick: Tick): Checkpoint | undefined {
  return line.checkpoints[firstAtOrAfter(line.checkpoints, tick + 1) - 1];
}

/** Of two inputs that only set the same thing, done at one tick, the later one is enough. */
function replaces(later: Input, earlier: Input): boolean {
  if (later.kind !== earlier.kind) return false;
  switch (later.kind) {
    case 'moveDetector':
    case 'setSky':
    case 'setTemperature':
      return true;
    case 'moveSun':
      return later.localDate === (earlier as typeof later).localDate;
    case 'setBlind':
      return later.windowId === (earlier as typeof later).windowId;
    case 'moveFurniture':
      return later.furnitureId === (earlier as typeof later).furnitureId;
    case 'moveLuminaire':
      return later.luminaireId === (earlier as typeof later).luminaireId;
    case 'setLampKind':
      return later.row === (earlier as typeof later).row;
    case 'setReflectance':
      return later.target === (earlier as typeof later).target;
    case 'placePerson':
      return later.personId === (earlier as typeof later).personId && later.headingDeg !== undefined;
    default:
      return false;
  }
}

/** Adds an input at the line's end; a drag that is not yet worked leaves only its last place. */
export function addInput(line: Line, timed: TimedInput): void {
  const last = line.inputs.at(-1);
  if (last && last.tick === timed.tick && replaces(timed.input, last.input)) line.inputs.pop();
  line.inputs.push(timed);
}

/** Forgets what was worked from `tick` on. Inputs due at `tick` itself stay when `keepInputs`. */
export function cutLine(line: Line, tick: Tick, keepInputs: boolean): void {
  line.inputs.length = firstAtOrAfter(line.inputs, keepInputs ? tick + 1 : tick);
  line.events.length = firstAtOrAfter(line.events, tick);
  line.sightings.length = firstAtOrAfter(line.sightings, tick);
  line.checkpoints.length = firstAtOrAfter(line.checkpoints, tick + 1);
  line.digests.length = firstAtOrAfter(line.digests, tick + 1);
  cutSeries(line.series, tick);
  line.headTick = Math.min(line.headTick, tick);
}

/** Shares texts and events (never changed), copies the lists. */
export function copyLine(line: Line): Line {
  return {
    inputs: [...line.inputs],
    headTick: line.headTick,
    checkpoints: [...line.checkpoints],
    digests: [...line.digests],
    events: [...line.events],
    sightings: [...line.sightings],
    series: copySeries(line.series),
  };
}

/** Up to here, exclusive, two lines of one run are the same. */
export function commonTick(a: Line, b: Line): Tick {
  const most = Math.min(a.headTick, b.headTick);
  const length = Math.max(a.inputs.length, b.inputs.length);
  for (let i = 0; i < length; i++) {
    const x = a.inputs[i];
    const y = b.inputs[i];
    const same = x && y && x.tick === y.tick && JSON.stringify(x.input) === JSON.stringify(y.input);
    if (!same) return Math.min(most, x?.tick ?? most, y?.tick ?? most);
  }
  return most;
}
