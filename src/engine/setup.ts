/** Stage 1 of the tick: what anybody does, turned into changes of the world and messages for the controller. */
import type { ControlTickInput } from './control/types.ts';
import { addPerson, placePerson, removePerson, setPlan } from './people/people.ts';
import type { FaceId, Input, LuminaireSpec, RoomSpec, Scenario, Setup, SimState, TimedInput } from './types.ts';
import { secondsToTicks, TICK_MS } from './units.ts';
import { closeFor, setContact, setSupply } from './wires.ts';

/** A finger on a wall button, ms. Assumed: an ordinary press; 120 ms to 1.5 s would mean the same to the controller. */
const PRESS_MS = 300;

export function createSetup(scenario: Scenario): Setup {
  const { room } = scenario;
  const { photometerClearShare } = scenario.detectorModel;
  return {
    mount: scenario.mount,
    sky: scenario.sky,
    sunShiftS: 0,
    sunLocalDate: scenario.start.localDate,
    airTemperatureC: room.airTemperatureC,
    radiantTemperatureC: room.radiantTemperatureC,
    blinds: room.windows.map((w) => ({ windowId: w.id, closedShare: 0 })),
    doors: room.doors.map((d) => ({ doorId: d.id, open: d.openAtStart })),
    furniture: room.furniture,
    reflectance: { ...room.reflectance },
    warmThings: scenario.warmThings,
    ...(photometerClearShare === undefined ? {} : { photometerClearShare }),
  };
}

/** What stage 1 leaves for the later stages of the same tick. */
export interface AppliedInputs {
  commands: ControlTickInput['commands'];
  /** Index into state.people of whoever was set down by hand. */
  placedOwners: number[];
  /** Sky or sun was moved: its samples are taken afresh. */
  skyChanged: boolean;
  /** Something that light or heat see was moved: tables are looked up afresh. */
  sceneChanged: boolean;
  /** … and heat radiation sees it too: the jump of this tick is no movement. Blinds and paint are nothing to it. */
  heatChanged: boolean;
}

export function noInputs(): AppliedInputs {
  return { commands: [], placedOwners: [], skyChanged: false, sceneChanged: false, heatChanged: false };
}

/** Applies the inputs of one tick in order of their serials. Inputs that name nothing in the room change nothing. */
export function applyInputs(state: SimState, inputs: TimedInput[], room: RoomSpec): AppliedInputs {
  const applied = noInputs();
  for (const { tick, input } of inputs) applyOne(state, tick * TICK_MS, input, applied, room);
  return applied;
}

function applyOne(state: SimState, tickMs: number, input: Input, applied: AppliedInputs, room: RoomSpec): void {
  switch (input.kind) {
    case 'setSettings':
    case 'takePresentLight':
    case 'walkTest':
      applied.commands.push(input);
      return;
    case 'contact':
      setContact(state.wires, input.input, tickMs + (input.offsetMs ?? 0), input.closed);
      return;
    case 'press':
      closeFor(state.wires, input.input, tickMs + (input.offsetMs ?? 0), input.closedMs ?? PRESS_MS);
      return;
    case 'supply':
      setSupply(state.wires, tickMs + (input.offsetMs ?? 0), input.on);
      return;
    case 'addPerson':
    case 'removePerson':
    case 'placePerson':
    case 'setPlan':
      applyToPeople(state, input, applied);
      return;
    case 'coverDetector':
      state.setup.coveredUntilTick = state.tick + secondsToTicks(input.forS);
      return;
    case 'holdTorch':
      state.setup.torch = { side: input.side, untilTick: state.tick + secondsToTicks(input.forS) };
      return;
    default:
      applyToScene(state.setup, input, applied, room);
  }
}

/** What changes the room itself, so that tables of light or heat are worked out anew. */
export type RoomInput = Extract<
  Input,
  LampInput | { kind: 'setBlind' | 'setDoor' | 'moveDetector' | 'setWarmThing' | 'moveFurniture' | 'setReflectance' }
>;

/** A setup as acts would leave it; itself it stays as it is. */
export function setupAfter(setup: Setup, acts: readonly RoomInput[], room: RoomSpec): Setup {
  const after = { ...setup };
  for (const input of acts) applyToScene(after, input, noInputs(), room);
  return after;
}

type PeopleInput = Extract<Input, { kind: 'addPerson' | 'removePerson' | 'placePerson' | 'setPlan' }>;

function applyToPeople(state: SimState, input: PeopleInput, applied: AppliedInputs): void {
  if (input.kind === 'addPerson') {
    const added = addPerson(state.people, input.person, state.tick);
    if (added >= 0) applied.placedOwners.push(added);
    return;
  }
  const index = state.people.findIndex((p) => p.spec.id === input.personId);
  if (index < 0) return;
  if (input.kind === 'removePerson') {
    // The place in the list stays, so that nobody else's number changes.
    removePerson(state.people, input.personId);
    applied.placedOwners.push(index);
  } else if (input.kind === 'placePerson') {
    placePerson(state.people, input.personId, input.atM, input.headingDeg, state.tick);
    applied.placedOwners.push(index);
  } else {
    setPlan(state.people, input.personId, input.plan, state.tick);
  }
}

type LampInput = Extract<Input, { kind: 'moveLuminaire' | 'setLampKind' }>;

/** The list is replaced, its unchanged luminaires are shared. */
function changedLamps(luminaires: readonly LuminaireSpec[], input: LampInput): LuminaireSpec[] {
  if (input.kind === 'moveLuminaire') {
    return luminaires.map((l) => (l.id === input.luminaireId ? { ...l, atM: input.atM } : l));
  }
  return luminaires.map((l) => (l.row === input.row ? { ...l, distribution: input.distribution } : l));
}

type SceneInput = Exclude<
  Input,
  | PeopleInput
  | { kind: 'setSettings' | 'takePresentLight' | 'walkTest' | 'contact' | 'press' | 'supply' }
  | { kind: 'coverDetector' | 'holdTorch' }
>;

/** Replaces what changes and never writes into it. */
function applyToScene(setup: Setup, input: SceneInput, applied: AppliedInputs, room: RoomSpec): void {
  switch (input.kind) {
    case 'moveLuminaire':
    case 'setLampKind':
      setup.luminaires = changedLamps(setup.luminaires ?? room.luminaires, input);
      applied.sceneChanged = true;
      return;
    case 'moveSun':
      setup.sunShiftS = input.shiftS;
      if (input.localDate !== null) setup.sunLocalDate = input.localDate;
      applied.skyChanged = true;
      return;
    case 'setSky':
      setup.sky = input.sky;
      applied.skyChanged = true;
      return;
    case 'cleanPhotometers':
      delete setup.photometerClearShare;
      return;
    case 'setBlind':
      setup.blinds = setup.blinds.map((b) =>
        b.windowId === input.windowId ? { ...b, closedShare: input.closedShare } : b,
      );
      break;
    case 'setDoor':
      setup.doors = setup.doors.map((d) => (d.doorId === input.doorId ? { ...d, open: input.open } : d));
      break;
    case 'moveDetector':
      setup.mount = input.mount;
      break;
    case 'setTemperature':
      setup.airTemperatureC = input.airTemperatureC;
      setup.radiantTemperatureC = input.airTemperatureC;
      break;
    case 'setWarmThing':
      setup.warmThings = setup.warmThings.map((t) => (t.id === input.thingId ? { ...t, on: input.on } : t));
      break;
    case 'moveFurniture':
      setup.furniture = setup.furniture.map((f) => (f.id === input.furnitureId ? { ...f, atM: input.atM } : f));
      break;
    case 'setReflectance':
      setReflectance(setup, input.target, input.reflectance);
      break;
  }
  applied.sceneChanged = true;
  if (input.kind !== 'setBlind' && input.kind !== 'setReflectance') applied.heatChanged = true;
}

/** A face of the room, or a piece of furniture by id. */
function setReflectance(setup: Setup, target: string, reflectance: number): void {
  if (target in setup.reflectance) {
    setup.reflectance = { ...setup.reflectance, [target as FaceId]: reflectance };
    return;
  }
  setup.furniture = setup.furniture.map((f) => (f.id === target ? { ...f, reflectance } : f));
}
