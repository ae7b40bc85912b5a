/**
 * Who is seen, who is not, why not and by how much: each Stand-in's own share of the signal over the last minute, what
 * the detector has of the body in view, and its contrast. Worked out on request by running a copy of the room again;
 * nothing of it is state, and the room that is shown does not notice.
 */
import { PULSE_PAIR_SUB_STEPS } from './control/questions.ts';
import { type BodyView, reachOf, viewOfBody } from './detection/bodyView.ts';
import { LEVELS } from './detection/comparators.ts';
import {
  type BodyShare,
  createBodyShare,
  followShare,
  type LargestSignal,
  largestSince,
  SHARE_MEMORY_S,
} from './detection/personSignal.ts';
import { maskBitsOf, SHARES_PER_SUB_STEP } from './detection/sense.ts';
import type { PersonView } from './frame.ts';
import { bandRadianceSlope } from './heat/planck.ts';
import { roomBoxes } from './room/boxes.ts';
import { movementNow, type Simulation } from './simulation.ts';
import type { FurnitureKind, Tick } from './types.ts';
import { PART_KINDS } from './types.ts';
import { SUB_STEPS, TICKS_PER_S } from './units.ts';

/** A body of which less than this is in a beam counts as out of view. Assumed: a hundredth is a finger of a walker. */
export const IN_VIEW_SHARE = 0.01;
/** Mean contrast below this is little, K. Assumed: half of what people show in an ordinary room. */
export const LITTLE_CONTRAST_K = 2;
/**
 * What a clothed person shows in an ordinary room, K. Source: clothed surface by ISO 7730 at 22 °C and 1 clo is 4.8 K
 * above the air (our own heat/comfort.ts); a little less, because fabric reflects a tenth of the room.
 */
export const ORDINARY_CONTRAST_K = 4;

export type SightCause =
  | 'outside'
  | 'notSensing'
  | 'hidden'
  | 'masked'
  | 'outOfReach'
  | 'betweenBeams'
  | 'still'
  | 'littleContrast'
  | 'tooWeak'
  /** Strong enough, but not twice in one quadrant in time, which switching on asks for. */
  | 'onlyOnce'
  /** Strong enough by itself. */
  | 'strongEnough';

/** The signal that counts as movement in the next tick. */
export interface NeededSignal {
  /** `switchOn`: two pulses of one quadrant within 4 s; `hold`: one pulse. */
  rule: 'hold' | 'switchOn';
  uv: number;
  reduced: boolean;
}

export interface PersonSight {
  personId: string;
  act: PersonView['act'];
  present: boolean;
  /** Ticks that `largest` is taken over: a minute, or since this Stand-in has been followed. */
  overTicks: number;
  /** Largest own signal; null: none at all. */
  largest: LargestSignal | null;
  needed: NeededSignal;
  /** Last tick in which the body changed its pose, within what was looked at. */
  movedTick: Tick | null;
  /** Null while not in the room. */
  view: BodyView | null;
  /** What hides most of the body. */
  hider: FurnitureKind | 'wall' | null;
  /** What is seen above (or below) what lies behind it, as kelvins of a black surface; null where nothing is seen. */
  contrastK: number | null;
  cause: SightCause;
}

/** With what the run itself says. */
export interface PersonAnswer extends PersonSight {
  /** When a pulse of this Stand-in was last taken as movement; null: not yet. */
  lastSeenTick: Tick | null;
}

/** Follows every Stand-in of one room. */
export interface SightWatch {
  shares: BodyShare[];
  /** Scratch: the body's place in the five buffers. */
  bodyAt: number[];
}

/** From the next tick on the room tells each body's own changes of flux. For copies of a room, not for the shown one. */
export function createSightWatch(sim: Simulation): SightWatch {
  sim.scratch.sharesW = new Float64Array(SUB_STEPS * SHARES_PER_SUB_STEP);
  return { shares: [], bodyAt: new Array<number>(SUB_STEPS).fill(-1) };
}

/** After each tick that the watched room has worked. */
export function watchTick(watch: SightWatch, sim: Simulation): void {
  const { state, scratch, tables } = sim;
  const tick = state.tick - 1;
  for (let owner = 0; owner < state.people.length; owner++) {
    watch.shares[owner] ??= createBodyShare(tables.movement, tick);
    const share = watch.shares[owner]!;
    for (let subStep = 0; subStep < SUB_STEPS; subStep++) {
      const buffer = scratch.bodies[subStep]!;
      let at = -1;
      for (let b = 0; b < buffer.count; b++) if (buffer.owner[b] === owner) at = b;
      watch.bodyAt[subStep] = at;
      if (at < 0) continue;
      // Set down by hand the pose jumps between two ticks; who moves also moves within one.
      if (subStep > 0 && buffer.poseKey[at] !== share.poseKey) share.movedTick = tick;
      share.poseKey = buffer.poseKey[at]!;
    }
    followShare(share, tables.movement, scratch.sharesW!, watch.bodyAt, tick, PULSE_PAIR_SUB_STEPS);
  }
}

function neededNow(sim: Simulation): NeededSignal {
  const { control } = sim.state;
  const reduced = control.settings.reducedSensitivity;
  const rule = control.phase === 'running' && control.occupiedAtEnd ? 'hold' : 'switchOn';
  const limits = sim.tables.movement.thresholdsUv;
  const uv = reduced ? limits[`${rule}Reduced`] : limits[rule];
  return { rule, uv, reduced };
}

function pairTick(share: BodyShare, needed: NeededSignal): Tick {
  const level = LEVELS.indexOf(needed.reduced ? 'switchOnReduced' : 'switchOn');
  return Math.floor(share.pairSubStep[level]! / SUB_STEPS);
}

/** What keeps a body out of every beam, the largest first. */
function blindCause(view: BodyView): SightCause {
  const hidden = view.behindThings + view.behindPeople;
  const most = Math.max(hidden, view.masked, view.outOfReach, view.betweenBeams);
  if (most === hidden) return 'hidden';
  if (most === view.masked) return 'masked';
  return most === view.outOfReach ? 'outOfReach' : 'betweenBeams';
}

/** Lasting causes first: who sits behind glass is not told to move. */
function causeOf(sim: Simulation, sight: Omit<PersonSight, 'cause'>, share: BodyShare, fromTick: Tick): SightCause {
  const { phase } = sim.state.control;
  const { view, needed, contrastK } = sight;
  if (!view) return 'outside';
  if (phase === 'off' || phase === 'warmUp') return 'notSensing';
  const sizeUv = Math.abs(sight.largest?.uv ?? 0);
  if (sizeUv < needed.uv && view.inBeams < IN_VIEW_SHARE) return blindCause(view);
  if (sizeUv >= needed.uv) {
    return needed.rule === 'hold' || pairTick(share, needed) >= fromTick ? 'strongEnough' : 'onlyOnce';
  }
  if (sight.movedTick === null || sight.movedTick < fromTick) return 'still';
  const little = contrastK !== null && Math.abs(contrastK) < LITTLE_CONTRAST_K;
  if (little && sizeUv * ORDINARY_CONTRAST_K >= needed.uv * Math.abs(contrastK)) return 'littleContrast';
  return 'tooWeak';
}

/** Every Stand-in that has not been taken out, in their order, as of the last tick worked. */
export function sightsNow(watch: SightWatch, sim: Simulation): PersonSight[] {
  const { state, scratch } = sim;
  const tick = state.tick - 1;
  const movement = movementNow(sim, Math.max(0, tick));
  const fromTick = tick + 1 - SHARE_MEMORY_S * TICKS_PER_S;
  const buffer = scratch.bodies[SUB_STEPS - 1]!;
  const reach = reachOf(movement.map);
  const boxes = roomBoxes(sim.scenario.room, state.setup.furniture);
  const perK = bandRadianceSlope(state.setup.radiantTemperatureC);
  const maskBits = maskBitsOf(state.control.settings.maskedSectors);
  const kinds = PART_KINDS.length;
  const sights: PersonSight[] = [];
  state.people.forEach((person, owner) => {
    const share = watch.shares[owner];
    if (person.removed || !share) return;
    let view: BodyView | null = null;
    for (let b = 0; b < buffer.count; b++) {
      if (buffer.owner[b] !== owner) continue;
      const radiance = scratch.radiance.subarray(b * kinds, (b + 1) * kinds);
      view = viewOfBody(movement, reach, buffer, b, state.movement.tracks[b]!, maskBits, radiance);
    }
    const hiderId = view?.hiderBox == null || view.hiderBox < 0 ? null : boxes[view.hiderBox]!.furnitureId;
    const sight = {
      personId: person.spec.id,
      act: person.act,
      present: person.present,
      overTicks: Math.min(tick + 1 - Math.max(fromTick, share.sinceTick), SHARE_MEMORY_S * TICKS_PER_S),
      largest: largestSince(share, fromTick),
      needed: neededNow(sim),
      movedTick: share.movedTick,
      view,
      hider: hiderId
        ? (state.setup.furniture.find((f) => f.id === hiderId)?.kind ?? null)
        : view?.hiderBox === -1
          ? ('wall' as const)
          : null,
      contrastK: view?.contrast == null ? null : view.contrast / perK,
    };
    sights.push({ ...sight, cause: causeOf(sim, sight, share, fromTick) });
  });
  return sights;
}
