/** Benchmarks of movement sensing, for `bench.ts`: people against the map, beams, tables, a calm day, the picture. */
import dome from '../../scenarios/detectors/dome-a.json' with { type: 'json' };
import { bakeAngularMap } from '../../src/engine/detection/angularMap.ts';
import { buildMovementTables, createMovementState } from '../../src/engine/detection/sense.ts';
import { sightCells } from '../../src/engine/detection/sightCells.ts';
import { weighBodies } from '../../src/engine/detection/tracks.ts';
import { poseBodies } from '../../src/engine/people/people.ts';
import {
  type BodyBuffer,
  createBodyBuffer,
  type DetectorModel,
  type RoomSpec,
  type Setup,
} from '../../src/engine/types.ts';
import {
  createLab,
  type Lab,
  labPerson,
  placeAt,
  startWatch,
  type Watch,
  watchTick,
} from '../../src/exercise/reach/lab.ts';
import { duration, type Figure, medianMs, rate } from './measure.ts';
import { memoryFigures } from './memory.ts';

export const MODEL: DetectorModel = dome;

export function labWith(model: DetectorModel): Lab {
  return createLab({ model, mountingHeightM: 3, roomTemperatureC: 20 });
}

/** The same lens with every ring's facets multiplied; areas shrink so that the dome stays as large. */
function withBeams(factor: number): DetectorModel {
  return {
    ...MODEL,
    rings: MODEL.rings.map((ring) => {
      const facets = Math.max(4, 4 * Math.round((ring.facets * factor) / 4));
      return { ...ring, facets, areaCm2: (ring.areaCm2 * ring.facets) / facets };
    }),
  };
}

export function beamsOf(model: DetectorModel): number {
  return 2 * model.rings.reduce((sum, ring) => sum + ring.facets, 0);
}

/** Poses of a walker over two seconds at a place, one buffer a sub-step. */
export function walkPoses(lab: Lab, radiusM: number, bearingDeg: number): BodyBuffer[] {
  const plan = [{ act: 'walk' as const, toM: placeAt(lab, radiusM, bearingDeg, 2), speedMps: 1 }];
  const watch = startWatch(lab, [labPerson(lab, placeAt(lab, radiusM, bearingDeg, -2), plan, bearingDeg + 90)], 1);
  return Array.from({ length: 200 }, (_, step) => {
    if (step % 5 === 0) watchTick(watch);
    const buffer = createBodyBuffer(1);
    poseBodies(watch.people, [], watch.tick - 1, step % 5, buffer);
    return buffer;
  });
}

/** Fastest of sixty runs, ms: the machine is shared, and what is compared here differs by less than its mood. */
function fastestMs(work: () => void): number {
  const times = Array.from({ length: 60 }, () => {
    const start = performance.now();
    work();
    return performance.now() - start;
  });
  return Math.min(...times);
}

/** Time to weigh 2000 sub-steps of one moving person, ms, from runs of 200. */
export function personMs(lab: Lab, radiusM: number, bearingDeg: number): number {
  const poses = walkPoses(lab, radiusM, bearingDeg);
  const state = createMovementState(lab.model, 1);
  const ms = fastestMs(() => {
    for (const pose of poses) weighBodies(lab.tables, state, pose, 0, false);
  });
  return (ms * 2000) / poses.length;
}

/** Places spread evenly over the floor that a walker is seen on (24 m across), and the turn from one to the next. */
const FLOOR_PLACES = 24;
const FLOOR_RADIUS_M = 12;
const GOLDEN_ANGLE_DEG = 137.508;

/** `personMs` as the mean over the covered floor: every square metre counts the same. */
function floorMs(lab: Lab): number {
  let sum = 0;
  for (let k = 0; k < FLOOR_PLACES; k++) {
    sum += personMs(lab, FLOOR_RADIUS_M * Math.sqrt((k + 0.5) / FLOOR_PLACES), (k * GOLDEN_ANGLE_DEG) % 360);
  }
  return sum / FLOOR_PLACES;
}

/** A tick of a room in which nobody, or nobody who moves, is. */
function calmMs(watch: Watch, ticks: number): number {
  return fastestMs(() => {
    for (let k = 0; k < ticks; k++) watchTick(watch);
  });
}

/** Six people at their desks, a reach of two seconds in about 45 s each for eight hours, motionless for the other sixteen;
 *  all 864,000 ticks are run, once, ms. */
function officeDayMs(lab: Lab): number {
  const people = [1.5, 2, 2.5, 3, 3.5, 4].map((radiusM, i) => ({
    ...labPerson(lab, placeAt(lab, radiusM, 60 * i + 20), [
      { act: 'sitStill' as const, forS: 8 * 3600 },
      { act: 'reach' as const, forS: 8 * 3600, gestureEveryS: 45 },
      { act: 'sitStill' as const },
    ]),
    id: 'ABCDEF'[i]!,
  }));
  const watch = startWatch(lab, people, 1);
  const start = performance.now();
  for (let k = 0; k < 864_000; k++) watchTick(watch);
  return performance.now() - start;
}

export function detectionFigures(yardstickMs: number, furnished?: { room: RoomSpec; setup: Setup }): Figure[] {
  const lab = labWith(MODEL);
  const figures = [0.8, 2, 4, 8, 12].map((radiusM) => {
    const ms = (personMs(lab, radiusM, 33) + personMs(lab, radiusM, 128) + personMs(lab, radiusM, 271)) / 3;
    return rate(`moving person at ${radiusM} m`, 'person-ticks/s', 2000, ms, yardstickMs);
  });
  figures.unshift(rate('moving person, mean of the covered floor', 'person-ticks/s', 2000, floorMs(lab), yardstickMs));
  for (const factor of [0.5, 1, 2]) {
    const model = withBeams(factor);
    const ms = personMs(labWith(model), 5, 33);
    figures.push(rate(`the same at 5 m, ${beamsOf(model)} beams`, 'person-ticks/s', 2000, ms, yardstickMs));
  }
  figures.push(
    duration(
      'angular map of the lens',
      medianMs(() => bakeAngularMap(MODEL)),
      yardstickMs,
    ),
  );
  const { room, setup } = furnished ?? { room: null, setup: null };
  if (room && setup) {
    figures.push(
      duration(
        'all tables of a furnished room',
        medianMs(() => buildMovementTables(MODEL, room, setup)),
        yardstickMs,
      ),
    );
  }
  figures.push(
    duration(
      'outlines of all beams',
      medianMs(() => sightCells(MODEL, lab.tables, [])),
      yardstickMs,
    ),
  );
  const ticks = 2000;
  const day = (ms: number) => (ms / ticks) * 864000;
  figures.push(duration('sensing of an empty day', day(calmMs(startWatch(lab, [], 1), ticks)), yardstickMs));
  figures.push(duration('sensing of an office day, six people', officeDayMs(lab), yardstickMs));
  figures.push(...memoryFigures(lab));
  return figures;
}
