/** A run second by second: what criteria over time are judged by. Filled while a room runs, read afterwards. */
import { isInRoom } from '../../engine/room/corridor.ts';
import type { Simulation, StepResult } from '../../engine/simulation.ts';
import type { AirPhase, RowPhase, TraceEvent } from '../../engine/trace.ts';
import type { OutputId, Scenario } from '../../engine/types.ts';
import { TICKS_PER_S } from '../../engine/units.ts';
import type { Condition } from './types.ts';

const ROW_PHASES: readonly RowPhase[] = ['waiting', 'litByAutomatic', 'daylightIsEnough', 'heldOn', 'heldOff'];
const AIR_PHASES: readonly AirPhase[] = ['airOff', 'watching', 'airOn', 'airHeldOn', 'airHeldOff'];
const OUTPUT_BIT: Record<OutputId, number> = { innerRow: 1, windowRow: 2, airContact: 4 };

export interface Timeline {
  id: string;
  deskIds: readonly string[];
  /** Seconds filled; second s is the state after tick 10 s. */
  seconds: number;
  /** Bits of the outputs that are on. */
  outputs: Uint8Array;
  inner: Uint8Array;
  window: Uint8Array;
  air: Uint8Array;
  /** People in the room; who is in the corridor is not. */
  people: Uint8Array;
  /** One row a second, desk points in their order, lx. */
  deskLx: Float32Array;
  /** Instants of counted movement, s. */
  seenS: number[];
  /** What switched, in order. */
  events: Extract<TraceEvent, { kind: 'output' }>[];
}

export function createTimeline(id: string, scenario: Scenario, forS: number): Timeline {
  const n = Math.ceil(forS) + 1;
  const desks = scenario.room.deskPoints;
  return {
    id,
    deskIds: desks.map((desk) => desk.id),
    seconds: 0,
    outputs: new Uint8Array(n),
    inner: new Uint8Array(n),
    window: new Uint8Array(n),
    air: new Uint8Array(n),
    people: new Uint8Array(n),
    deskLx: new Float32Array(n * desks.length),
    seenS: [],
    events: [],
  };
}

/** Takes down what a tick brought. */
export function noteTick(line: Timeline, step: StepResult, sim: Simulation): void {
  for (let i = 0; i < step.events.length; i++) {
    const event = step.events[i]!;
    if (event.kind === 'seen') line.seenS.push(event.tick / TICKS_PER_S);
    else if (event.kind === 'output') line.events.push(event);
  }
  if (step.tick % TICKS_PER_S !== 0) return;
  const s = step.tick / TICKS_PER_S;
  const { control, people } = sim.state;
  line.outputs[s] =
    (control.inner.contactClosed ? 1 : 0) |
    (control.window.contactClosed ? 2 : 0) |
    (control.air.contactClosed ? 4 : 0);
  line.inner[s] = ROW_PHASES.indexOf(control.inner.state);
  line.window[s] = ROW_PHASES.indexOf(control.window.state);
  line.air[s] = AIR_PHASES.indexOf(control.air.state);
  let present = 0;
  for (const person of people) if (person.present && isInRoom(sim.scenario.room, person.atM)) present++;
  line.people[s] = present;
  const desks = line.deskIds.length;
  for (let d = 0; d < desks; d++) line.deskLx[s * desks + d] = step.light.deskLx[d]!;
  line.seconds = s + 1;
}

export function isOn(line: Timeline, output: OutputId, s: number): boolean {
  return ((line.outputs[s] ?? 0) & OUTPUT_BIT[output]) !== 0;
}

/** Whether a condition holds at a second of the run; a second that was not run holds nothing. */
export function holds(line: Timeline, condition: Condition, s: number): boolean {
  if (s < 0 || s >= line.seconds) return false;
  if ('output' in condition) return isOn(line, condition.output, s) === condition.on;
  if ('row' in condition) {
    const phases = condition.row === 'inner' ? line.inner : line.window;
    return ROW_PHASES[phases[s]!] === condition.state;
  }
  if ('air' in condition) return AIR_PHASES[line.air[s]!] === condition.air;
  if ('someone' in condition) return line.people[s]! > 0 === condition.someone;
  const lx = line.deskLx[s * line.deskIds.length + line.deskIds.indexOf(condition.desk)]!;
  return lx < (condition.below ?? Number.POSITIVE_INFINITY) && lx > (condition.above ?? Number.NEGATIVE_INFINITY);
}

export function allHold(line: Timeline, conditions: readonly Condition[], s: number): boolean {
  for (let i = 0; i < conditions.length; i++) if (!holds(line, conditions[i]!, s)) return false;
  return true;
}

/** The longest time without counted movement while somebody is in the room all along, from the first movement on, s. */
export function longestStillS(line: Timeline): number {
  let longest = 0;
  let lastS = Number.NaN;
  let k = 0;
  for (let s = 0; s < line.seconds; s++) {
    while (k < line.seenS.length && line.seenS[k]! <= s) lastS = line.seenS[k++]!;
    if (line.people[s] === 0) lastS = Number.NaN;
    else if (s - lastS > longest) longest = s - lastS;
  }
  return longest;
}
