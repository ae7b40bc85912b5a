/** What a person can do to the room, each with its opposite where there is one. */
import type {
  ButtonId,
  ControllerSettings,
  Input,
  OutputId,
  PersonSpec,
  PlanStep,
  PointM,
  SkyCondition,
} from '../../engine/types.ts';
import { en } from '../../report/text/en.ts';
import { localSeconds } from '../../report/text/format.ts';
import { createAsked } from './asked.ts';
import { live } from './live.ts';
import { act } from './session.ts';
import { getApp, setApp } from './store.ts';
import { send } from './wire.ts';

export const buttonOf: Record<OutputId, ButtonId> = { innerRow: 'inner', windowRow: 'window', airContact: 'air' };

/** An ordinary press, ms. Source: the product's own "press" of 0.3 s. */
const PRESS_MS = 300;

export function press(input: ButtonId, closedMs = PRESS_MS): void {
  const done = act({ kind: 'press', input, closedMs });
  if (done && !getApp().status.running) setApp({ notice: en.notices.pressWaits });
}

export function changeSettings(change: Partial<ControllerSettings>): void {
  const now = getApp().settings;
  if (!now) return;
  const before: Partial<Record<keyof ControllerSettings, unknown>> = {};
  for (const key of Object.keys(change) as (keyof ControllerSettings)[]) before[key] = now[key];
  act({ kind: 'setSettings', change }, [{ kind: 'setSettings', change: before as Partial<ControllerSettings> }]);
}

export function setSupply(on: boolean): void {
  act({ kind: 'supply', on }, [{ kind: 'supply', on: !on }]);
}

/** The supply goes and comes back inside one tick: a dip that a device may ride through. */
export function dipSupply(): void {
  act({ kind: 'supply', on: false, offsetMs: 0 });
  act({ kind: 'supply', on: true, offsetMs: 80 });
}

export function setSky(sky: SkyCondition): void {
  const before = getApp().setup?.sky;
  act({ kind: 'setSky', sky }, before ? [{ kind: 'setSky', sky: before }] : undefined);
}

/** Sun's own hour, s after its midnight, as the shown frame has it. */
const sunAsked = createAsked<{ localS: number; shiftS: number }>();

const sunPending = () => sunAsked.pending(({ shiftS }) => getApp().setup?.sunShiftS === shiftS);

export function sunLocalS(): number {
  return sunPending()?.localS ?? live.frame?.sun.localS ?? 0;
}

/** Whether the room shows the hour that it was last asked for. */
export function sunAnswered(): boolean {
  return sunPending() === null;
}

let sunBefore: Input | null = null;

/** Moves the sun to an hour of its date. `done` ends the gesture: one undo takes all of it back. */
export function moveSunTo(localS: number, localDate: string | null, done: boolean): void {
  const { setup, scenario, shownTick } = getApp();
  if (!setup || !scenario) return;
  sunBefore ??= { kind: 'moveSun', shiftS: setup.sunShiftS, localDate: setup.sunLocalDate };
  const room = localSeconds(shownTick, scenario.start);
  const date = localDate ?? setup.sunLocalDate;
  const shiftS = Math.round(localS - room);
  sunAsked.ask({ localS, shiftS });
  act(
    { kind: 'moveSun', shiftS, localDate: date === scenario.start.localDate ? null : date },
    done ? [sunBefore] : undefined,
  );
  if (done) sunBefore = null;
}

export function sunBackToClock(): void {
  const setup = getApp().setup;
  if (!setup) return;
  act({ kind: 'moveSun', shiftS: 0, localDate: null }, [
    { kind: 'moveSun', shiftS: setup.sunShiftS, localDate: setup.sunLocalDate },
  ]);
}

export function setBlind(windowId: string, closedShare: number): void {
  const before = getApp().setup?.blinds.find((b) => b.windowId === windowId)?.closedShare ?? 0;
  act({ kind: 'setBlind', windowId, closedShare }, [{ kind: 'setBlind', windowId, closedShare: before }]);
}

export function setDoor(doorId: string, open: boolean): void {
  act({ kind: 'setDoor', doorId, open }, [{ kind: 'setDoor', doorId, open: !open }]);
}

export function setThing(thingId: string, on: boolean): void {
  act({ kind: 'setWarmThing', thingId, on }, [{ kind: 'setWarmThing', thingId, on: !on }]);
}

export function takePresentLight(row: 'inner' | 'window'): void {
  const key = row === 'inner' ? 'innerSetpointLx' : 'windowSetpointLx';
  const before = getApp().settings?.[key] ?? null;
  act({ kind: 'takePresentLight', row }, [{ kind: 'setSettings', change: { [key]: before } }]);
}

export function walkTest(action: 'start' | 'end'): void {
  act({ kind: 'walkTest', action }, [{ kind: 'walkTest', action: action === 'start' ? 'end' : 'start' }]);
}

// --- people -------------------------------------------------------------------------------------------------------

/** Pace of "walk here", m/s. Assumed: an unhurried indoor walk; faster gives more signal, slower less. */
export const WALK_MPS = 1.2;

function personNow(personId: string) {
  return live.frame?.people.find((p) => p.id === personId);
}

/** Puts a Stand-in back where it is now, doing what it does now. */
function asNow(personId: string): Input[] {
  const person = personNow(personId);
  if (!person) return [];
  const plan: PlanStep[] =
    person.act === 'walk' || person.act === 'outside' ? [] : [{ act: person.act, headingDeg: person.headingDeg }];
  return [
    { kind: 'placePerson', personId, atM: person.atM, headingDeg: person.headingDeg },
    { kind: 'setPlan', personId, plan },
  ];
}

const placeAsked = createAsked<{ personId: string; atM: PointM }>();

export function placePerson(personId: string, toM: PointM): void {
  const atM = insideRoom(toM);
  placeAsked.ask({ personId, atM });
  act({ kind: 'placePerson', personId, atM }, asNow(personId));
}

/** Sets somebody down a little further, counting from where they have been asked to be. */
export function nudgeBy(personId: string, by: PointM): boolean {
  const person = live.frame?.people.find((p) => p.id === personId);
  if (!person) return false;
  const pending = placeAsked.pending((asked) => asked.personId !== personId || same(asked.atM, person.atM));
  const [x, y] = pending?.atM ?? person.atM;
  placePerson(personId, [x + by[0], y + by[1]]);
  return true;
}

function same(a: PointM, b: PointM): boolean {
  return Math.abs(a[0] - b[0]) < 1e-6 && Math.abs(a[1] - b[1]) < 1e-6;
}

export function givePlan(personId: string, plan: PlanStep[]): void {
  act({ kind: 'setPlan', personId, plan }, asNow(personId));
}

export function walkTo(personId: string, toM: PointM): void {
  givePlan(personId, [{ act: 'walk', toM: insideRoom(toM), speedMps: WALK_MPS }, { act: 'stand' }]);
}

/** A chair nearer than this is sat on, m. Assumed: an arm's length; else the Stand-in sits down where it is. */
const CHAIR_REACH_M = 1.2;

/** Sits down and does `what`: on the nearest chair within reach, facing as the chair does. */
export function sitAnd(personId: string, what: 'type' | 'sitStill' | 'read' | 'sit'): void {
  const person = personNow(personId);
  const chairs = getApp().setup?.furniture.filter((f) => f.kind === 'chair') ?? [];
  if (!person) return;
  let best: { atM: PointM; turnDeg: number } | null = null;
  let bestM = CHAIR_REACH_M;
  for (const chair of chairs) {
    const far = Math.hypot(chair.atM[0] - person.atM[0], chair.atM[1] - person.atM[1]);
    if (far <= bestM) {
      bestM = far;
      best = chair;
    }
  }
  if (!best) {
    givePlan(personId, [{ act: what }]);
    return;
  }
  const walk: PlanStep[] = bestM > 0.05 ? [{ act: 'walk', toM: best.atM, speedMps: WALK_MPS }] : [];
  givePlan(personId, [...walk, { act: what, headingDeg: best.turnDeg }]);
}

export function leave(personId: string): void {
  givePlan(personId, [{ act: 'leave' }]);
}

export const MOST_PEOPLE = 8;

/** Adds a Stand-in with the next free letter, just inside the first door (or in the middle). */
export function addPerson(): string | null {
  const { scenario } = getApp();
  const taken = new Set(live.frame?.people.map((p) => p.id) ?? []);
  const id = [...'ABCDEFGHJK'].find((letter) => !taken.has(letter));
  if (!scenario || !id || taken.size >= MOST_PEOPLE) return null;
  const { widthM, depthM } = scenario.room;
  const person: PersonSpec = {
    id,
    heightM: 1.75,
    clothingClo: 1,
    cameFromC: scenario.room.airTemperatureC,
    atM: [widthM / 2, depthM / 2 - 0.5],
    headingDeg: 0,
    outsideAtStart: false,
    plan: [{ act: 'stand' }],
  };
  act({ kind: 'addPerson', person }, [{ kind: 'removePerson', personId: id }]);
  return id;
}

export function removePerson(personId: string): void {
  act({ kind: 'removePerson', personId });
}

/** A body's half width from the walls, m. Assumed: Stand-ins are about 0.5 m broad. */
const BODY_M = 0.25;

export function insideRoom(at: PointM): PointM {
  const room = getApp().scenario?.room;
  if (!room) return at;
  const round = (m: number): number => Math.round(m * 100) / 100;
  return [
    round(Math.min(room.widthM - BODY_M, Math.max(BODY_M, at[0]))),
    round(Math.min(room.depthM - BODY_M, Math.max(BODY_M, at[1]))),
  ];
}

// --- time ---------------------------------------------------------------------------------------------------------

export const SPEEDS = [0.1, 0.25, 1, 10, 60, 600] as const;

/** Sentences that are settled as soon as the room runs. */
const SETTLED_BY_RUNNING: readonly (string | null)[] = [en.notices.pressWaits, en.notices.pausedHidden];

export function run(speed: number): void {
  if (SETTLED_BY_RUNNING.includes(getApp().notice)) setApp({ notice: null });
  const { job, shownTick } = getApp();
  send({ type: 'run', speed, ...(job && shownTick < job.untilTick ? { untilTick: job.untilTick } : {}) });
}

export function pause(): void {
  send({ type: 'pause' });
}
