/** From the text of a timeline file to timelines, or a ShapeError that says where and what was expected. */
import type { ButtonId, RowId } from '../../engine/types.ts';
import {
  array,
  integer,
  type Json,
  number,
  object,
  onlyMembers,
  refuse,
  ShapeError,
  text,
  truth,
  word,
} from './check.ts';
import { readSettings } from './settingsOf.ts';
import type { FlagLine, Outcome, Sides, StateLine, Timeline, TimelineEvent, TimelineFile } from './types.ts';

export const INPUT_NAMES = new Map<string, ButtonId>([
  ['inner button', 'inner'],
  ['window button', 'window'],
  ['air button', 'air'],
]);
const ROWS = new Map<string, RowId>([
  ['inner', 'inner'],
  ['window', 'window'],
]);
const ACTIONS = new Map<string, 'start' | 'end'>([
  ['start', 'start'],
  ['end', 'end'],
]);
const HANDS = new Map<string, 'dial' | 'handHeld'>([
  ['dial', 'dial'],
  ['hand-held', 'handHeld'],
]);

export const COLUMNS = ['t_s', 'inner', 'window', 'air'];

/** Members of each type of event beside `t` and `type`. */
const EVENT_MEMBERS: Record<string, string[]> = {
  'supply on': [],
  'supply off': [],
  movement: ['sector'],
  'input closure': ['input', 'closed_s'],
  daylight: ['lx'],
  setting: ['set', 'via'],
  'take present light': ['row'],
  'walk-test': ['action'],
};

function toMs(s: number): number {
  return Math.round(s * 1000);
}

export function readTimelineFile(content: string): TimelineFile {
  let parsed: unknown;
  try {
    parsed = JSON.parse(content);
  } catch (error) {
    throw new ShapeError('$', `expected JSON, but ${error instanceof Error ? error.message : 'it is not'}`);
  }
  const file = object(parsed, '$');
  if (file.shape !== 'timelines/1') refuse('$.shape', '"timelines/1"', file.shape);
  return {
    defaults: readSettings(file.defaults ?? {}, '$.defaults'),
    timelines: array(file.timelines, '$.timelines').map((t, i) => readTimeline(t, `$.timelines[${i}]`)),
  };
}

function readTimeline(value: unknown, path: string): Timeline {
  const written = object(value, path);
  const inputs = object(written.inputs, `${path}.inputs`);
  const at = `${path}.inputs`;
  const known = ['settings_changed', 'daylight_lx', 'supply_at_start', 'events', 'run_until_s', 'lamp_light_lx'];
  onlyMembers(inputs, at, [...known, 'adaptive_start_s'], 'input');
  const events = array(inputs.events, `${at}.events`).map((e, i) => readEvent(e, `${at}.events[${i}]`));
  const { lamp_light_lx: lamps, adaptive_start_s: adaptive } = inputs;
  const tolerance = written.tolerance === undefined ? {} : object(written.tolerance, `${path}.tolerance`);
  return {
    id: text(written.id, `${path}.id`),
    settings: readSettings(inputs.settings_changed ?? {}, `${at}.settings_changed`),
    daylightLx: readSides(inputs.daylight_lx, `${at}.daylight_lx`),
    lampLightLx: lamps === undefined || lamps === null ? null : readLamps(lamps, `${at}.lamp_light_lx`),
    supplyAtStart: truth(inputs.supply_at_start, `${at}.supply_at_start`),
    adaptiveStartS: adaptive === undefined ? null : number(adaptive, `${at}.adaptive_start_s`),
    // Sorting is stable: events of one instant stay in file order.
    events: events.sort((a, b) => a.tMs - b.tMs),
    runUntilS: number(inputs.run_until_s, `${at}.run_until_s`),
    expected: readOutcome(written.expected, `${path}.expected`),
    toleranceS: tolerance.t_s === undefined ? 0.2 : number(tolerance.t_s, `${path}.tolerance.t_s`),
  };
}

function readSides(value: unknown, path: string): Sides {
  const sides = object(value, path);
  onlyMembers(sides, path, ['inner', 'window'], 'side');
  return { inner: number(sides.inner, `${path}.inner`), window: number(sides.window, `${path}.window`) };
}

function readLamps(value: unknown, path: string): Record<RowId, Sides> {
  const lamps = object(value, path);
  onlyMembers(lamps, path, ['inner', 'window'], 'row');
  return { inner: readSides(lamps.inner, `${path}.inner`), window: readSides(lamps.window, `${path}.window`) };
}

function readEvent(value: unknown, path: string): TimelineEvent {
  const event = object(value, path);
  const type = text(event.type, `${path}.type`);
  const members = Object.hasOwn(EVENT_MEMBERS, type) ? EVENT_MEMBERS[type] : undefined;
  if (!members)
    refuse(
      `${path}.type`,
      `one of ${Object.keys(EVENT_MEMBERS)
        .map((t) => `"${t}"`)
        .join(', ')}`,
      type,
    );
  onlyMembers(event, path, ['t', 'type', ...members], 'member');
  return { tMs: toMs(number(event.t, `${path}.t`)), ...readEventBody(type, event, path) };
}

type EventBody = TimelineEvent extends infer E ? (E extends TimelineEvent ? Omit<E, 'tMs'> : never) : never;

function readEventBody(type: string, event: Json, path: string): EventBody {
  switch (type) {
    case 'supply on':
    case 'supply off':
      return { type: 'supply', on: type === 'supply on' };
    case 'movement':
      return {
        type: 'movement',
        sector: event.sector === undefined ? null : integer(event.sector, `${path}.sector`, 0, 11),
      };
    case 'input closure': {
      const closedMs = toMs(number(event.closed_s, `${path}.closed_s`));
      return { type: 'closure', input: word(event.input, `${path}.input`, INPUT_NAMES), closedMs };
    }
    case 'daylight':
      return { type: 'daylight', lx: readStep(event.lx, `${path}.lx`) };
    case 'setting': {
      const set = readSettings(event.set, `${path}.set`);
      if (event.via === undefined) return { type: 'setting', set };
      return { type: 'setting', set, via: word(event.via, `${path}.via`, HANDS) };
    }
    case 'take present light':
      return { type: 'takePresentLight', row: word(event.row, `${path}.row`, ROWS) };
    default:
      return { type: 'walkTest', action: word(event.action, `${path}.action`, ACTIONS) };
  }
}

function readStep(value: unknown, path: string): Partial<Sides> {
  const step = object(value, path);
  onlyMembers(step, path, ['inner', 'window'], 'side');
  const read: Partial<Sides> = {};
  if (step.inner !== undefined) read.inner = number(step.inner, `${path}.inner`);
  if (step.window !== undefined) read.window = number(step.window, `${path}.window`);
  return read;
}

function readOutcome(value: unknown, path: string): Outcome {
  const expected = object(value, path);
  const columns = array(expected.columns, `${path}.columns`);
  if (JSON.stringify(columns) !== JSON.stringify(COLUMNS)) refuse(`${path}.columns`, JSON.stringify(COLUMNS), columns);
  const states = array(expected.states, `${path}.states`).map((s, i) => readState(s, `${path}.states[${i}]`));
  const outcome: Outcome = { columns: COLUMNS, states };
  if (expected.flags !== undefined) {
    outcome.flags = array(expected.flags, `${path}.flags`).map((f, i) => readFlag(f, `${path}.flags[${i}]`));
  }
  if (expected.adaptive_delay_changes !== undefined) {
    const at = `${path}.adaptive_delay_changes`;
    outcome.adaptive_delay_changes = array(expected.adaptive_delay_changes, at).map((c, i) => {
      const change = object(c, `${at}[${i}]`);
      const delay = number(change.adaptive_delay_s, `${at}[${i}].adaptive_delay_s`);
      return { t: number(change.t, `${at}[${i}].t`), adaptive_delay_s: delay };
    });
  }
  return outcome;
}

function readState(value: unknown, path: string): StateLine {
  const line = array(value, path);
  if (line.length !== 4) refuse(path, 'a time and three states', value);
  const [t, ...states] = line.map((n, i) => (i === 0 ? number(n, `${path}[0]`) : integer(n, `${path}[${i}]`, 0, 1)));
  return [t!, states[0]!, states[1]!, states[2]!];
}

function readFlag(value: unknown, path: string): FlagLine {
  const flag = object(value, path);
  const line: FlagLine = { t: number(flag.t, `${path}.t`), flag: text(flag.flag, `${path}.flag`) };
  if (flag.input !== undefined) line.input = text(flag.input, `${path}.input`);
  if (flag.state !== undefined) line.state = text(flag.state, `${path}.state`);
  return line;
}
