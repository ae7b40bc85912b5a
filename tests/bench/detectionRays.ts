/**
 * Sensing beside the plain way, for `bench.ts`: rays over a triangulated body (plainRays.ts), as many as bring its peaks
 * as near to the truth as ours are. Truth: many rays against the ellipsoids themselves and a map of a third of the pixel.
 */
import { bakeAngularMap, PX_PER_UNIT } from '../../src/engine/detection/angularMap.ts';
import { stepChain } from '../../src/engine/detection/chain.ts';
import { createMovementState } from '../../src/engine/detection/sense.ts';
import type { AngularMap } from '../../src/engine/detection/types.ts';
import { poseBodies, radiateBodies } from '../../src/engine/people/people.ts';
import { type BodyBuffer, createBodyBuffer, PART_KINDS } from '../../src/engine/types.ts';
import { SUB_STEPS } from '../../src/engine/units.ts';
import {
  type Lab,
  labPerson,
  movePeople,
  peakWhile,
  placeAt,
  startWatch,
  type Watch,
} from '../../src/exercise/reach/lab.ts';
import { personMs, walkPoses } from './detection.ts';
import { type Figure, rate, times } from './measure.ts';
import { type Caster, ellipsoidCaster, triangleCaster, weighPlainly } from './plainRays.ts';

/** Rays a body. Chosen so that errors are equal: over 36 walks 1.1 % (root mean square) against 1.2 % of ours; 2,000 rays
 *  err by 1.3 %, 1,000 by 1.8 %. The errors of the walks below are printed with the figures. */
const RAYS = 2500;
const TRUTH_RAYS = 40_000;
const WALKS = [0.8, 1.5, 3, 5, 8, 11].flatMap((radiusM) => [10, 75, 190].map((bearing) => [radiusM, bearing] as const));
/** Across the beams, 1.4 m, and a little after. */
const HALF_WALK_M = 0.7;
const WALK_TICKS = 18;

function startWalk(lab: Lab, radiusM: number, bearing: number): Watch {
  const plan = [{ act: 'walk' as const, toM: placeAt(lab, radiusM, bearing, HALF_WALK_M), speedMps: 1 }];
  const person = labPerson(lab, placeAt(lab, radiusM, bearing, -HALF_WALK_M), plan, bearing + 90);
  return startWatch(lab, [person], 1, false);
}

/** Largest |signal| of the walk when bodies are weighed by rays, µV. */
function rayPeakUv(lab: Lab, radiusM: number, bearing: number, caster: Caster, rays: number, map: AngularMap): number {
  const watch = startWalk(lab, radiusM, bearing);
  const { chain } = lab.tables;
  const { filters } = createMovementState(lab.model, 1);
  const fluxW = new Float64Array(4);
  const buffer = createBodyBuffer(1);
  let standing: Float64Array | null = null;
  let peakUv = 0;
  for (let tick = 0; tick < WALK_TICKS; tick++) {
    movePeople(watch);
    radiateBodies(watch.people, [], lab.setup, watch.tick, watch.radiance);
    for (let s = 0; s < SUB_STEPS; s++) {
      poseBodies(watch.people, [], watch.tick, s, buffer);
      weighPlainly(caster, buffer, { ...lab.tables, map }, watch.radiance, rays, fluxW);
      // Whoever is there at the start is no movement.
      standing ??= fluxW.slice();
      for (let c = 0; c < fluxW.length; c++) {
        const uv = stepChain(chain, filters, c, (fluxW[c]! - standing[c]!) * chain.uvPerW);
        peakUv = Math.max(peakUv, Math.abs(uv));
      }
    }
    watch.tick++;
  }
  return peakUv;
}

/** Root mean square of the relative errors of the walks' peaks, per cent as text: by rays, by ours. */
function peakErrors(lab: Lab): [plain: string, ours: string] {
  const fine = bakeAngularMap(lab.model, 3 * PX_PER_UNIT);
  const squares = [0, 0];
  for (const [radiusM, bearing] of WALKS) {
    const truth = rayPeakUv(lab, radiusM, bearing, ellipsoidCaster, TRUTH_RAYS, fine);
    const plain = rayPeakUv(lab, radiusM, bearing, triangleCaster(), RAYS, lab.tables.map);
    const ours = peakWhile(startWalk(lab, radiusM, bearing), WALK_TICKS / 10);
    [plain, ours].forEach((uv, k) => {
      squares[k]! += (uv / truth - 1) ** 2 / WALKS.length;
    });
  }
  const [plain, ours] = squares.map((square) => `${(100 * Math.sqrt(square)).toFixed(1)} %`);
  return [plain!, ours!];
}

/**
 * Time to weigh 2000 sub-steps of one moving person by rays, ms: each pose at its fastest of five, because a pose takes as
 * long as a whole run of ours, and the longer a run, the more often a shared machine interrupts it.
 */
function rayPersonMs(lab: Lab, radiusM: number, bearing: number): number {
  const poses = walkPoses(lab, radiusM, bearing).filter((_, k) => k % 4 === 0);
  const radiance = new Float64Array(PART_KINDS.length).fill(1);
  const fluxW = new Float64Array(4);
  const caster = triangleCaster();
  const timed = (pose: BodyBuffer) => {
    const start = performance.now();
    weighPlainly(caster, pose, lab.tables, radiance, RAYS, fluxW);
    return performance.now() - start;
  };
  const fastest = poses.map((pose) => Math.min(...Array.from({ length: 5 }, () => timed(pose))));
  return (fastest.reduce((sum, ms) => sum + ms, 0) * 2000) / poses.length;
}

/** Distances of the person, m. */
const RADII_M = [0.8, 4, 12];
const BEARING_DEG = 33;

export function rayFigures(lab: Lab, yardstickMs: number): Figure[] {
  // Ours first: it is slower once the compiler has seen it called from many places.
  const oursMs = RADII_M.map((radiusM) => personMs(lab, radiusM, BEARING_DEG));
  const raysMs = RADII_M.map((radiusM) => rayPersonMs(lab, radiusM, BEARING_DEG));
  const [plain, ours] = peakErrors(lab);
  return RADII_M.flatMap((radiusM, k) => {
    const name = `person at ${radiusM} m, ${RAYS} rays through three-mesh-bvh (peaks wrong by ${plain}, ours by ${ours})`;
    return [
      rate(name, 'person-ticks/s', 2000, raysMs[k]!, yardstickMs),
      times(`person at ${radiusM} m: ours, as fast as the rays`, raysMs[k]!, oursMs[k]!),
    ];
  });
}
