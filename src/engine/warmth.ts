/**
 * The room as the detector's band sees it at the shown instant: contrast in kelvin against the mean background, from the
 * same radiances, the same raster and the same map that sensing uses. Reads only.
 */

import { warmingSun } from './background.ts';
import { type BodySight, fluxForPulseW, sightOfBodies } from './detection/bodySight.ts';
import type { MovementTables } from './detection/types.ts';
import { equivalentK } from './heat/contrast.ts';
import { bodyOfThing, poseBodies, radianceOfBodies } from './people/people.ts';
import { type Box, roomBoxes } from './room/boxes.ts';
import { nearestBox } from './room/rays.ts';
import { movementNow, type Simulation } from './simulation.ts';
import {
  type BodyBuffer,
  createBodyBuffer,
  MOST_BODIES,
  NUMBERS_PER_PART,
  PART_KINDS,
  PARTS_PER_BODY,
  type Tick,
  type Vector3,
  type WarmThingKind,
} from './types.ts';
import { SUB_STEPS } from './units.ts';
import { type WarmthPatch, warmthPatches } from './warmthPatches.ts';

/** `faint`: too little contrast for a pulse, however it moves there. `hidden`: nothing of it reaches the detector. */
export type WarmthState = 'seen' | 'faint' | 'hidden' | 'masked';
export type HiddenBy = 'glass' | 'furniture' | 'wall' | 'person';

export interface WarmthBody {
  /** A Stand-in's letter, or the id of a warm thing. */
  id: string;
  thing: WarmThingKind | null;
  state: WarmthState;
  hiddenBy: HiddenBy | null;
  /** Mean contrast of what is seen, and by part kind (order of PART_KINDS), K. */
  contrastK: number;
  partsK: number[];
  /** Mean contrast at which this body, its parts in proportion, would just give one pulse here at its best pace, K; null
   *  when nothing is seen. */
  needsK: number | null;
  /** Share of it that the detector sees, 0-1. */
  seenShare: number;
  middleM: Vector3;
}

export interface WarmthView {
  tick: Tick;
  /** Mean background: the radiant temperature of the room, °C. */
  backgroundC: number;
  /** Air outside when the story tells it, °C. */
  outsideAirC: number | null;
  /** In the order of Frame.bodyParts. */
  bodies: WarmthBody[];
  patches: WarmthPatch[];
}

/** Seen less than this, a body is called hidden, share. Assumed: a fingertip past a screen's edge tells nobody anything. */
const HIDDEN_UNDER_SHARE = 0.03;
/** Flux that a pulse needs at the threshold in force, W. */
function neededFluxW(sim: Simulation): number {
  const { movement } = sim.tables;
  const reduced = sim.state.control.settings.reducedSensitivity;
  const thresholdUv = reduced ? movement.thresholdsUv.holdReduced : movement.thresholdsUv.hold;
  return fluxForPulseW(movement, sim.scenario.detectorModel, thresholdUv);
}

/** What stands before most parts of a body that cannot be seen. */
function hiderOf(tables: MovementTables, boxes: readonly Box[], buffer: BodyBuffer, body: number): HiddenBy {
  const { eyeM, boxes: soup, roomM } = tables.surroundings;
  const votes = { glass: 0, furniture: 0, wall: 0, person: 0 };
  for (let part = 0; part < PARTS_PER_BODY; part++) {
    const k = (body * PARTS_PER_BODY + part) * NUMBERS_PER_PART;
    const { parts } = buffer;
    if (parts[k + 3] === 0 && parts[k + 4] === 0 && parts[k + 5] === 0) continue;
    const [x, y, z] = [parts[k]!, parts[k + 1]!, parts[k + 2]!];
    const [dx, dy, dz] = [x - eyeM[0], y - eyeM[1], z - eyeM[2]];
    const hit = nearestBox(soup, eyeM[0], eyeM[1], eyeM[2], dx, dy, dz, 1);
    if (hit >= 0) votes[boxes[hit]?.glass ? 'glass' : 'furniture']++;
    else if (x < 0 || y < 0 || x > roomM[0] || y > roomM[1]) votes.wall++;
    else votes.person++;
  }
  const order: readonly HiddenBy[] = ['glass', 'furniture', 'wall', 'person'];
  return order.reduce((best, cause) => (votes[cause] > votes[best] ? cause : best));
}

/** `strength`: best flux over what a pulse needs. */
function stateOf(sight: BodySight, strength: number): WarmthState {
  if (sight.freeSr < HIDDEN_UNDER_SHARE * sight.totalSr) return 'hidden';
  if (sight.freeSr - sight.maskedSr < HIDDEN_UNDER_SHARE * sight.totalSr) return 'masked';
  return strength < 1 ? 'faint' : 'seen';
}

interface Owner {
  id: string;
  thing: WarmThingKind | null;
}

/** Whose body each is, in the order of the buffer. */
function ownersOf(sim: Simulation): Owner[] {
  const { people, setup } = sim.state;
  return [
    ...people.filter((person) => person.present).map((person) => ({ id: person.spec.id, thing: null })),
    ...setup.warmThings.filter(bodyOfThing).map((thing) => ({ id: thing.id, thing: thing.kind })),
  ];
}

function bodiesOf(sim: Simulation, tick: Tick): WarmthBody[] {
  const { people, setup, control } = sim.state;
  const movement = movementNow(sim, tick);
  const buffer = createBodyBuffer(MOST_BODIES);
  const radiance = new Float64Array(MOST_BODIES * PART_KINDS.length);
  poseBodies(people, setup.warmThings, tick, SUB_STEPS - 1, buffer);
  radianceOfBodies(people, setup.warmThings, setup, radiance);
  const sights = sightOfBodies(movement, buffer, radiance, control.settings.maskedSectors);
  const boxes = roomBoxes(sim.scenario.room, setup.furniture);
  const backgroundC = setup.radiantTemperatureC;
  const fluxW = neededFluxW(sim);
  const owners = ownersOf(sim);
  return sights.map((sight, body) => {
    const seenShare = sight.totalSr > 0 ? (sight.freeSr - sight.maskedSr) / sight.totalSr : 0;
    const strength = (sight.bestFluxW * seenShare) / fluxW;
    const state = stateOf(sight, strength);
    const contrastK = equivalentK(sight.radiance, backgroundC);
    const unseen = state === 'hidden' || state === 'masked';
    return {
      ...owners[body]!,
      state,
      hiddenBy: state === 'hidden' ? hiderOf(movement, boxes, buffer, body) : null,
      contrastK,
      partsK: sight.partRadiance.map((delta) => equivalentK(delta, backgroundC)),
      needsK: unseen || strength === 0 ? null : Math.abs(contrastK) / strength,
      seenShare: Math.min(1, seenShare),
      middleM: sight.middleM,
    };
  });
}

/** The shown instant; changes nothing and remembers nothing. */
export function warmthOf(sim: Simulation): WarmthView {
  const { state, scenario, tables } = sim;
  const tick = Math.max(0, state.tick - 1);
  const sun = warmingSun(scenario, state.setup, state.seed, tick, tables.light);
  return {
    tick,
    backgroundC: state.setup.radiantTemperatureC,
    outsideAirC: scenario.site.outsideAirC ?? null,
    bodies: bodiesOf(sim, tick),
    patches: warmthPatches(scenario, state.setup, sun, tables.movement.surroundings),
  };
}
