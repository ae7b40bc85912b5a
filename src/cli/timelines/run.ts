/**
 * Runs one timeline through the controller, tick by tick. What only this file shape knows stays here: light given by
 * side of the room, mixed by the angle at which the detector hangs, and the light that lit rows add.
 */
import { createControlState, runControl } from '../../engine/control/control.ts';
import { lockRefuses } from '../../engine/control/settings.ts';
import type { ControlCommand, ControlState, ControlTickInput } from '../../engine/control/types.ts';
import { cos } from '../../engine/math.ts';
import type { TraceEvent } from '../../engine/trace.ts';
import type { CeilingReadings, ControllerSettings, RowId } from '../../engine/types.ts';
import { degToRad, secondsToTicks, ticksToSeconds } from '../../engine/units.ts';
import { DEFAULT_SETTINGS } from '../../scenario/defaults.ts';
import { COLUMNS, INPUT_NAMES } from './read.ts';
import { type Due, scheduleOf } from './schedule.ts';
import type { FlagLine, Outcome, Sides, Timeline, TimelineSettings } from './types.ts';

/** Light of one timeline as it stands. */
interface Light {
  daylight: Sides;
  lamps: Record<RowId, Sides> | null;
  angleDeg: number;
}

const NONE: never[] = [];

/** Runs a timeline and gives what it showed; the last tick is included. */
export function runTimeline(timeline: Timeline, defaults: TimelineSettings): Outcome {
  const settings = settingsOf(timeline, defaults);
  const adaptive = timeline.adaptiveStartS === null ? {} : { adaptiveStartS: timeline.adaptiveStartS };
  const state = createControlState(settings, { supplyPresent: timeline.supplyAtStart, ...adaptive });
  const light: Light = {
    daylight: { ...timeline.daylightLx },
    lamps: timeline.lampLightLx,
    angleDeg: timeline.settings.mountingAngleDeg ?? defaults.mountingAngleDeg ?? 0,
  };
  const schedule = scheduleOf(timeline.events);
  const lastTick = secondsToTicks(timeline.runUntilS);
  const outcome: Outcome = { columns: COLUMNS, states: [] };
  const input = emptyInput(readingsOf(light, state));
  for (let tick = 0; tick <= lastTick; tick++) {
    const due = schedule.get(tick);
    input.tick = tick;
    if (due?.daylight.length) for (const step of due.daylight) Object.assign(light.daylight, step);
    if (light.lamps || due?.daylight.length) input.readings = readingsOf(light, state);
    fill(input, due, light, state);
    const { contacts, events } = runControl(state, input);
    if (events.length > 0) for (const event of events) record(outcome, event);
    note(outcome, tick, [contacts.inner, contacts.window, contacts.air]);
    if (due?.ordered.length) input.readings = readingsOf(light, state);
  }
  return outcome;
}

/** Without lamp light the estimate is the daylight itself at all times, so nothing is learned. */
function settingsOf(timeline: Timeline, defaults: TimelineSettings): ControllerSettings {
  return {
    ...DEFAULT_SETTINGS,
    innerDeskFactor: 1,
    windowDeskFactor: 1,
    lampShare: timeline.lampLightLx ? 'learned' : 'off',
    ...defaults.settings,
    ...timeline.settings.settings,
  };
}

function emptyInput(readings: CeilingReadings): ControlTickInput {
  return {
    tick: 0,
    supplyEdges: NONE,
    contactEdges: NONE,
    commands: NONE,
    pulses: NONE,
    movements: NONE,
    readings,
  };
}

function fill(input: ControlTickInput, due: Due | undefined, light: Light, state: ControlState): void {
  input.supplyEdges = due?.supplyEdges ?? NONE;
  input.contactEdges = due?.contactEdges ?? NONE;
  input.movements = due?.movements ?? NONE;
  input.commands = due?.ordered.length ? commandsOf(due, light, state) : NONE;
}

/** Settings and commands in file order; a changed angle brings new readings at its place in the order. */
function commandsOf(due: Due, light: Light, state: ControlState): ControlCommand[] {
  const commands: ControlCommand[] = [];
  let lock = state.settings.settingsLock;
  for (const event of due.ordered) {
    if (event.type === 'takePresentLight') {
      commands.push({ kind: 'takePresentLight', row: event.row });
    } else if (event.type === 'walkTest') {
      commands.push({ kind: 'walkTest', action: event.action });
    } else {
      const { settings, mountingAngleDeg } = event.set;
      commands.push({ kind: 'setSettings', change: settings, ...(event.via ? { via: event.via } : {}) });
      if (lockRefuses(lock, event.via)) continue;
      lock = settings.settingsLock ?? lock;
      if (mountingAngleDeg === null) continue;
      light.angleDeg = mountingAngleDeg;
      commands.push({ kind: 'turned', readings: readingsOf(light, state) });
    }
  }
  return commands;
}

/** Turned by a, each photometer sees 0.5 (1 + cos a) of its own side and the rest of the other. Lamps as of the tick before. */
function readingsOf({ daylight, lamps, angleDeg }: Light, state: ControlState): CeilingReadings {
  let innerSideLx = daylight.inner;
  let windowSideLx = daylight.window;
  if (lamps) {
    for (const row of ['inner', 'window'] as const) {
      if (!isLampLit(state, row)) continue;
      innerSideLx += lamps[row].inner;
      windowSideLx += lamps[row].window;
    }
  }
  const own = 0.5 * (1 + cos(degToRad(angleDeg)));
  const other = 0.5 * (1 - cos(degToRad(angleDeg)));
  return { innerLx: own * innerSideLx + other * windowSideLx, windowLx: own * windowSideLx + other * innerSideLx };
}

/** Light of a short-impulse row is the external timer's and is not counted. */
function isLampLit(state: ControlState, row: RowId): boolean {
  return state[row].contactClosed && !(state.phase === 'running' && state[row].mode === 'shortImpulse');
}

function note(outcome: Outcome, tick: number, [inner, window, air]: [boolean, boolean, boolean]): void {
  const last = outcome.states[outcome.states.length - 1];
  if (last && last[1] === Number(inner) && last[2] === Number(window) && last[3] === Number(air)) return;
  outcome.states.push([ticksToSeconds(tick), Number(inner), Number(window), Number(air)]);
}

function record(outcome: Outcome, event: TraceEvent): void {
  const t = ticksToSeconds(event.tick);
  if (event.kind === 'adaptiveDelay') {
    outcome.adaptive_delay_changes ??= [];
    outcome.adaptive_delay_changes.push({ t, adaptive_delay_s: event.delayS });
  }
  const flag = flagOf(event, t);
  if (!flag) return;
  outcome.flags ??= [];
  outcome.flags.push(flag);
}

function flagOf(event: TraceEvent, t: number): FlagLine | null {
  if (event.kind === 'flag') {
    const input = [...INPUT_NAMES].find(([, id]) => id === event.input)?.[0] ?? event.input;
    return { t, flag: 'input stuck closed', input, state: event.state };
  }
  if (event.kind !== 'note') return null;
  if (event.note === 'dialIgnoredLocked') return { t, flag: 'dial moved, ignored (locked)' };
  if (event.note === 'handHeldIgnoredLocked') return { t, flag: 'hand-held setter ignored (locked)' };
  return null;
}
