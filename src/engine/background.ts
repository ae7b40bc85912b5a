/**
 * What stands still behind bodies and is warmer or colder than the room: the surfaces of `stillSurfaces.ts` as of each
 * full minute, for sensing and for whoever shows or explains it. A pure function of scenario, setup, seed and tick, so
 * that it is no state: going back, and moving the sun, give what a run from the start would have.
 */
import { type Surface, withSurfaces } from './detection/background.ts';
import type { MovementTables, Surroundings } from './detection/types.ts';
import { outsideLight } from './light/light.ts';
import type { LightTables } from './light/types.ts';
import { exp } from './math.ts';
import { skyMoment } from './skyClock.ts';
import { type SunNow, stillSurfaces } from './stillSurfaces.ts';
import type { Tables } from './tables.ts';
import type { Scenario, Setup, Tick } from './types.ts';
import { wrapDeg } from './units.ts';

/** Surfaces are taken anew this often, ticks. Assumed: a minute, in which a patch moves by 1 to 2 cm, the size of a pixel
 *  of the static scene; oftener costs and shows nothing. */
export const SURFACES_EVERY_TICKS = 600;
/** A sunny floor follows the sun with this time constant, minutes. Assumed: a covered screed; it matters when clouds pass. */
const WARMING_MIN = 5;
/** Minutes looked back. Assumed: three time constants, 95 % of what the surface remembers. */
const LOOK_BACK_MIN = 15;

/**
 * The sun that warms surfaces at a tick: where it stood at the last full minute, and its beam as a floor remembers it.
 * Only passing clouds change the beam within minutes. Whoever moves the sun finds surfaces that have lain in it.
 */
export function warmingSun(scenario: Scenario, setup: Setup, seed: number, tick: Tick, light: LightTables): SunNow {
  const minuteTick = tick - (tick % SURFACES_EVERY_TICKS);
  const at = (back: number) =>
    outsideLight(light, skyMoment(scenario, setup, seed, minuteTick - back * SURFACES_EVERY_TICKS));
  const now = at(0);
  let { directNormalLx } = now;
  if (setup.sky === 'passingClouds' && now.sunAltitudeDeg > 0) {
    let weights = 1;
    for (let back = 1; back < LOOK_BACK_MIN; back++) {
      const weight = exp(-back / WARMING_MIN);
      directNormalLx += weight * at(back).directNormalLx;
      weights += weight;
    }
    directNormalLx /= weights;
  }
  return {
    altitudeDeg: now.sunAltitudeDeg,
    bearingDeg: wrapDeg(now.sunAzimuthDeg - scenario.room.backWallFacesDeg),
    directNormalLx,
  };
}

/** Detectors before surfaces, kept for each scene. Assumed: going back and forth within a few minutes; 1.3 MB each. */
const KEPT = 8;
const kept = new WeakMap<Surroundings, Map<string, MovementTables>>();

function before(tables: MovementTables, surfaces: readonly Surface[]): MovementTables {
  if (surfaces.length === 0) return tables;
  const background = surfaces.map(({ excess, faceM }) => `${excess} ${faceM.join(' ')}`).join('\n');
  const known = kept.get(tables.surroundings) ?? new Map<string, MovementTables>();
  kept.set(tables.surroundings, known);
  const made = known.get(background) ?? withSurfaces(tables, surfaces, background);
  known.delete(background);
  known.set(background, made);
  if (known.size > KEPT) known.delete(known.keys().next().value!);
  return made;
}

/** The detector's tables with what lies behind bodies in a tick. Rooms without a window cost nothing. */
export function movementAt(
  { movement, light }: Tables,
  scenario: Scenario,
  setup: Setup,
  seed: number,
  tick: Tick,
): MovementTables {
  if (scenario.room.windows.length === 0) return movement;
  const sun = warmingSun(scenario, setup, seed, tick, light);
  return before(movement, stillSurfaces(scenario, setup, sun));
}
