/**
 * What sensing depends on. Two runs whose keys agree, and whose inputs and masks then touch sensing in the same way at
 * the same ticks, have the same pulses to the last bit. Whatever is not named here as free counts as touching, so a new
 * field of a scenario or a new input costs speed until somebody shows that it does not matter, never truth.
 */
import { canonicalJson, fnv64 } from './digest.ts';
import type { DetectorModel, DoorSpec, Input, RoomSpec, Scenario } from './types.ts';

/** Told to people, or to controller and supply only. The script and the masks are watched tick by tick. Sun, sky and the
 *  cold outside reach the lens through windows alone: see `behindWindows`. */
const FREE_OF_SCENARIO = [
  'id',
  'title',
  'question',
  'brief',
  'suggested',
  'endS',
  'speed',
  'seed',
  'start',
  'site',
  'sky',
  'settings',
  'supplyAtStart',
  'script',
] as const satisfies readonly (keyof Scenario)[];

/** Light only: lamps hang above all beams. Walls are as warm as the room, whatever their paint. */
const FREE_OF_ROOM = [
  'backWallFacesDeg',
  'reflectance',
  'windows',
  'luminaires',
  'maintenanceFactor',
  'deskPoints',
] as const satisfies readonly (keyof RoomSpec)[];

const FREE_OF_DOOR = ['corridorLx'] as const satisfies readonly (keyof DoorSpec)[];
/** `reducedFactor` is not free: it sets two of the four levels that every pulse is stored for. */
const FREE_OF_MODEL = [
  'id',
  'photometerTiltDeg',
  'photometerHalfAngleDeg',
] as const satisfies readonly (keyof DetectorModel)[];

function without<T extends object, K extends keyof T>(whole: T, names: readonly K[]): Omit<T, K> {
  const rest = { ...whole };
  for (const name of names) delete rest[name];
  return rest;
}

/** What lies in the sun or is cold behind bodies: glass lets no heat radiation through, but light warms where it falls. */
function behindWindows({ room, start, site, sky }: Scenario) {
  const { windows, backWallFacesDeg, reflectance, furniture } = room;
  if (windows.length === 0) return null;
  return [windows, backWallFacesDeg, reflectance.floor, furniture.map((piece) => piece.reflectance), start, site, sky];
}

/** Everything that sensing starts from, as 16 hex digits. `seed`: the run's own, which need not be the scenario's. */
export function sensingKey(scenario: Scenario, seed: number): string {
  const { room, detectorModel, ...rest } = without(scenario, FREE_OF_SCENARIO);
  const { doors, furniture, ...shell } = without(room, FREE_OF_ROOM);
  const seen = {
    ...rest,
    detectorModel: without(detectorModel, FREE_OF_MODEL),
    room: {
      ...shell,
      doors: doors.map((door) => without(door, FREE_OF_DOOR)),
      furniture: furniture.map((piece) => without(piece, ['reflectance'])),
    },
    behind: behindWindows(scenario),
  };
  return fnv64(canonicalJson([seed, seen]));
}

/**
 * Whether an input reaches the detector's lens. Settings do not, but for the masks, which the controller may refuse or
 * keep for later, so that they are compared as they are in force.
 */
export function touchesSensing(input: Input): boolean {
  switch (input.kind) {
    case 'setSettings':
    case 'takePresentLight':
    case 'walkTest':
    case 'contact':
    case 'press':
    case 'supply':
    case 'holdTorch':
      return false;
    case 'setReflectance':
      // A darker floor or top is warmer in the sun; walls do not lie in it here.
      return !UNFELT_FACES.has(input.target);
    default:
      return true;
  }
}

const UNFELT_FACES: ReadonlySet<string> = new Set(['front', 'back', 'left', 'right', 'ceiling']);
