/** What was put right, and what was changed without need: the room at the end beside the room at the beginning. */
import { canonicalJson } from '../../engine/digest.ts';
import type { ControllerSettings, Input, SimState, TimedInput } from '../../engine/types.ts';
import { shortestTurnDeg } from '../../engine/units.ts';
import { nearest } from './moment.ts';
import type { Remedy, Requirement, Value } from './types.ts';

/** Points taken for a part swapped in vain and for a setting left changed. Source: the product's own marking rule. */
export const SWAP_COST = 5;
export const LEFT_COST = 3;

/** Kinds of input that change the installation: the first of them ends the gathering of evidence. */
const REPAIRS: readonly Input['kind'][] = [
  'setSettings',
  'takePresentLight',
  'moveDetector',
  'moveFurniture',
  'cleanPhotometers',
];

export const settingsOf = ({ control }: SimState): ControllerSettings => control.storedSettings ?? control.settings;

/** What is in force: coupled, the window row keeps the inner row's delay. */
function inForce({ control }: SimState, key: keyof ControllerSettings): ControllerSettings[typeof key] {
  const settings = control.storedSettings ?? control.settings;
  return key === 'windowOffDelayS' && settings.delaysCoupled ? settings.innerOffDelayS : settings[key];
}

/** Sectors of the dome. Source: the clips are twelve of 30 degrees. */
const SECTORS = 12;

/** What a door or a thing was switched to, with a name of its own; null: another act. */
function switchOf(input: Input): { name: string; to: boolean } | null {
  if (input.kind === 'setWarmThing') return { name: `thing ${input.thingId}`, to: input.on };
  return input.kind === 'setDoor' ? { name: `door ${input.doorId}`, to: input.open } : null;
}

/** Serials of the acts that left a door or a thing otherwise than it was: tried and put back, it was a test. */
function switchesLeft(inputs: readonly TimedInput[]): Set<number> {
  const byName = new Map<string, { first: boolean; last: boolean; serial: number }>();
  for (const { input, serial } of inputs) {
    const one = switchOf(input);
    if (one) byName.set(one.name, { first: byName.get(one.name)?.first ?? one.to, last: one.to, serial });
  }
  // What it was at first is the opposite of the first act.
  return new Set([...byName.values()].filter(({ first, last }) => first === last).map(({ serial }) => serial));
}

/**
 * Acts that change the installation, in their order. Clips all round the dome, put on and taken off, are a test, and so
 * is a door shut or a fan stopped for a while.
 */
export function repairsAmong(inputs: readonly TimedInput[]): TimedInput[] {
  let covered = false;
  const left = switchesLeft(inputs);
  return inputs.filter(({ input, serial }) => {
    if (switchOf(input)) return left.has(serial);
    if (input.kind === 'walkTest') return input.action === 'end';
    if (input.kind !== 'setSettings') return REPAIRS.includes(input.kind);
    const clips = input.change.maskedSectors;
    const onlyClips = clips !== undefined && Object.keys(input.change).length === 1;
    if (!onlyClips) return true;
    const isTest = clips.length === SECTORS || covered;
    covered = clips.length === SECTORS;
    return !isTest;
  });
}

function inRange(value: unknown, { atLeast, atMost, is }: { atLeast?: number; atMost?: number; is?: Value }): boolean {
  if (is !== undefined && value !== is) return false;
  if (atLeast === undefined && atMost === undefined) return true;
  if (typeof value !== 'number') return false;
  return value >= (atLeast ?? Number.NEGATIVE_INFINITY) && value <= (atMost ?? Number.POSITIVE_INFINITY);
}

function meets(requirement: Requirement, begin: SimState, end: SimState): boolean {
  const { setup } = end;
  const clips = settingsOf(end).maskedSectors;
  if ('setting' in requirement) return inRange(inForce(end, requirement.setting), requirement);
  if ('clipsOn' in requirement) return requirement.clipsOn.every((sector) => clips.includes(sector));
  if ('clipsOff' in requirement) return requirement.clipsOff.every((sector) => !clips.includes(sector));
  if ('turnDeg' in requirement) {
    return Math.abs(shortestTurnDeg(requirement.turnDeg, setup.mount.turnDeg)) <= requirement.withinDeg;
  }
  if ('movedM' in requirement) return nearest(setup.mount.atM, begin.setup.mount.atM) >= requirement.movedM;
  if ('thing' in requirement)
    return setup.warmThings.some(({ id, on }) => id === requirement.thing && on === requirement.on);
  if ('door' in requirement)
    return setup.doors.some(({ doorId, open }) => doorId === requirement.door && open === requirement.open);
  if ('furniture' in requirement) {
    const at = (state: SimState) => state.setup.furniture.find(({ id }) => id === requirement.furniture)?.atM;
    const [was, now] = [at(begin), at(end)];
    return was !== undefined && now !== undefined && nearest(was, now) >= requirement.awayM;
  }
  if ('phase' in requirement) return end.control.phase === requirement.phase;
  return (setup.photometerClearShare ?? 1) >= 1;
}

/** What a way of putting it right is about: changes of these are no needless ones. */
function aboutOf(requirement: Requirement): string[] {
  // Coupling is a way to the window row's delay.
  if ('setting' in requirement && requirement.setting === 'windowOffDelayS')
    return ['windowOffDelayS', 'delaysCoupled'];
  if ('setting' in requirement) return [requirement.setting];
  if ('clipsOn' in requirement || 'clipsOff' in requirement) return ['maskedSectors'];
  if ('turnDeg' in requirement || 'movedM' in requirement) return ['mount'];
  if ('thing' in requirement) return [`thing ${requirement.thing}`];
  if ('door' in requirement) return [`door ${requirement.door}`];
  if ('furniture' in requirement) return [`furniture ${requirement.furniture}`];
  return ['phase' in requirement ? 'phase' : 'lightWindows'];
}

/** Names of everything that stands otherwise than at the beginning: settings by key, mount, things, doors, furniture. */
export function changesLeft(begin: SimState, end: SimState): string[] {
  const differ = (a: unknown, b: unknown): boolean => canonicalJson([a]) !== canonicalJson([b]);
  const [was, now] = [settingsOf(begin), settingsOf(end)];
  const settings = (Object.keys(was) as (keyof ControllerSettings)[]).filter((key) => differ(was[key], now[key]));
  const moved = (id: string, what: 'things' | 'doors' | 'furniture'): boolean => {
    const of = ({ setup }: SimState) => {
      if (what === 'things') return setup.warmThings.find((thing) => thing.id === id)?.on;
      if (what === 'doors') return setup.doors.find((door) => door.doorId === id)?.open;
      return setup.furniture.find((piece) => piece.id === id)?.atM;
    };
    return differ(of(begin) ?? null, of(end) ?? null);
  };
  const { setup } = begin;
  return [
    ...settings,
    ...(differ(setup.mount, end.setup.mount) ? ['mount'] : []),
    ...setup.warmThings.filter(({ id }) => moved(id, 'things')).map(({ id }) => `thing ${id}`),
    ...setup.doors.filter(({ doorId }) => moved(doorId, 'doors')).map(({ doorId }) => `door ${doorId}`),
    ...setup.furniture.filter(({ id }) => moved(id, 'furniture')).map(({ id }) => `furniture ${id}`),
  ];
}

export interface RepairJudged {
  /** A way of putting it right is met. */
  done: boolean;
  /** Changed, and no part of that way. */
  needless: string[];
}

/** The way that is met and leaves the fewest needless changes; none met: all changes are needless. */
export function judgeRepair(remedy: Remedy, begin: SimState, end: SimState): RepairJudged {
  const left = changesLeft(begin, end);
  const met = remedy.filter((way) => way.every((requirement) => meets(requirement, begin, end)));
  const needless = met.map((way) =>
    left.filter((name) => !way.some((requirement) => aboutOf(requirement).includes(name))),
  );
  const best = needless.sort((a, b) => a.length - b.length)[0];
  return best ? { done: true, needless: best } : { done: false, needless: left };
}
