/** The client's complaint on its own scene: does the room, as it stands now, still give cause for it? */
import { canonicalJson } from '../../engine/digest.ts';
import type { Input, OutputId, Scenario, SimState } from '../../engine/types.ts';
import { secondsToTicks, TICK_S } from '../../engine/units.ts';
import type { Complaint } from './types.ts';
import { advance, plainWorld, someoneAt, type World } from './world.ts';

export interface ComplaintResult {
  holds: boolean;
  /** Time in the state complained of, s. */
  timeS: number;
  /** Switchings of the output in the window. */
  switchings: number;
}

/** What can be set, turned, moved or cleaned, as it stands. */
export interface SetUp {
  settings: Scenario['settings'];
  mount: Scenario['mount'];
  furniture: Scenario['room']['furniture'];
  reflectance: Scenario['room']['reflectance'];
  doors: { doorId: string; open: boolean }[];
  things: { id: string; on: boolean }[];
  photometerClearShare: number;
  walkTest: boolean;
}

export function setUpOf(state: SimState): SetUp {
  const { setup, control } = state;
  return {
    settings: control.storedSettings ?? control.settings,
    mount: setup.mount,
    furniture: setup.furniture,
    reflectance: setup.reflectance,
    doors: setup.doors,
    things: setup.warmThings.map(({ id, on }) => ({ id, on })),
    photometerClearShare: setup.photometerClearShare ?? 1,
    walkTest: control.phase === 'walkTest',
  };
}

function isUndone(input: Input, { walkTest, things }: SetUp): boolean {
  if (input.kind === 'walkTest') return !walkTest;
  return input.kind === 'setWarmThing' && input.on && things.some(({ id, on }) => id === input.thingId && !on);
}

/** The scene of the complaint with the set-up as it stands: a walk-test that has ended, a thing that was stopped is not begun again. */
export function sceneWith(scenario: Scenario, setUp: SetUp): Scenario {
  const { photometerClearShare: _dirt, ...model } = scenario.detectorModel;
  const share = setUp.photometerClearShare;
  return {
    ...scenario,
    settings: setUp.settings,
    mount: setUp.mount,
    detectorModel: share < 1 ? { ...model, photometerClearShare: share } : model,
    warmThings: scenario.warmThings.map((thing) => ({
      ...thing,
      on: setUp.things.find(({ id }) => id === thing.id)?.on ?? thing.on,
    })),
    script: scenario.script.filter(({ input }) => !isUndone(input, setUp)),
    room: {
      ...scenario.room,
      furniture: setUp.furniture,
      reflectance: setUp.reflectance,
      doors: scenario.room.doors.map((door) => ({
        ...door,
        openAtStart: setUp.doors.find(({ doorId }) => doorId === door.id)?.open ?? door.openAtStart,
      })),
    },
  };
}

type Lit = Pick<Extract<Complaint, { kind: 'time' }>, 'below' | 'above'>;

/** Whether the light is such as the complaint is about. */
export function litRight(world: World, complaint: Lit): boolean {
  const { deskPoints } = world.scenario.room;
  const at = (place: string): number => world.light.deskLx[deskPoints.findIndex(({ id }) => id === place)] ?? 0;
  const { below, above } = complaint;
  return (!below || at(below.place) < below.lx) && (!above || at(above.place) > above.lx);
}

export function isContactOn(world: World, output: OutputId): boolean {
  const { inner, window, air } = world.sim.state.control;
  return { innerRow: inner, windowRow: window, airContact: air }[output].contactClosed;
}

/** Runs a room without anybody's acts through the complaint's window. */
export function judgeComplaint(world: World, complaint: Complaint): ComplaintResult {
  const fromTick = secondsToTicks(complaint.fromS);
  const toTick = secondsToTicks(complaint.toS);
  let ticks = 0;
  advance(world, fromTick);
  for (let tick = fromTick; tick < toTick; tick++) {
    advance(world, tick + 1);
    if (complaint.kind !== 'time') continue;
    const there = complaint.who === 'either' || someoneAt(world, tick) === (complaint.who === 'someone');
    if (there && isContactOn(world, complaint.output) === (complaint.is === 'on') && litRight(world, complaint))
      ticks++;
  }
  const switchings = world.events.filter(
    (event) => event.kind === 'output' && event.output === complaint.output && event.tick >= fromTick,
  ).length;
  const timeS = ticks * TICK_S;
  const holds = complaint.kind === 'time' ? timeS > complaint.longerThanS : switchings > complaint.moreThan;
  return { holds, timeS, switchings };
}

/** How many judged scenes are remembered. Assumed: a class re-marked has few set-ups in common; each is some 10 kB of key. */
const KEPT = 200;
const judged = new Map<string, ComplaintResult>();

/** The complaint in the room of `scenario` with the set-up as it stands; remembered. */
export function repeatComplaint(scenario: Scenario, setUp: SetUp, complaint: Complaint): ComplaintResult {
  const scene = sceneWith(scenario, setUp);
  const key = canonicalJson([scene, complaint]);
  const known = judged.get(key);
  if (known) return known;
  const result = judgeComplaint(plainWorld(scene), complaint);
  judged.set(key, result);
  if (judged.size > KEPT) judged.delete(judged.keys().next().value!);
  return result;
}
