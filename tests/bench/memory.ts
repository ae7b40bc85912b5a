/** Memory that a tick of people and sensing asks the host for, for `bench.ts`: what is not kept must be cleared away. */
import { createMovementState, senseMovement } from '../../src/engine/detection/sense.ts';
import { poseTick, radiateBodies } from '../../src/engine/people/people.ts';
import { type BodyBuffer, createBodyBuffer, MOST_BODIES } from '../../src/engine/types.ts';
import { SUB_STEPS } from '../../src/engine/units.ts';
import { type Lab, labPerson, movePeople, placeAt, startWatch, type Watch } from '../../src/exercise/reach/lab.ts';
import type { Figure } from './measure.ts';

/** Ticks that are played again and again. */
const TICKS = 60;
/** Rounds before and while memory is read. */
const WARM_ROUNDS = 300;
const ROUNDS = 200;

/** Somebody who walks 6 m past the detector at 3 m, and somebody at a keyboard at 2 m. */
function walkerAndSitter(lab: Lab): Watch {
  const walk = [{ act: 'walk' as const, toM: placeAt(lab, 3, 33, 3), speedMps: 1 }];
  const typing = [{ act: 'type' as const, gestureEveryS: 5 }];
  return startWatch(lab, [
    labPerson(lab, placeAt(lab, 3, 33, -3), walk, 123),
    { ...labPerson(lab, placeAt(lab, 2, 200), typing), id: 'B' },
  ]);
}

/** Bytes a tick that `work` of one round asks for: the median of rounds, as clearing away falls into some of them. */
function bytesPerTick(work: () => void): number {
  for (let round = 0; round < WARM_ROUNDS; round++) work();
  const bytes = Array.from({ length: ROUNDS }, () => {
    const before = process.memoryUsage().heapUsed;
    work();
    return process.memoryUsage().heapUsed - before;
  });
  return bytes.sort((a, b) => a - b)[ROUNDS / 2]! / TICKS;
}

/** Bytes a tick, for the poses of a walker and a sitter and for sensing them. No threshold is reached: pulses, which outlive
 *  the tick, are no scratch. */
export function memoryFigures(lab: Lab): Figure[] {
  const watch = walkerAndSitter(lab);
  const instants = Array.from({ length: TICKS }, () => {
    movePeople(watch);
    radiateBodies(watch.people, [], lab.setup, watch.tick, watch.radiance);
    const bodies = Array.from({ length: SUB_STEPS }, (): BodyBuffer => createBodyBuffer(MOST_BODIES));
    poseTick(watch.people, [], watch.tick, bodies);
    return { bodies, people: structuredClone(watch.people), tick: watch.tick++ };
  });
  const state = createMovementState(lab.model, 1);
  const nobody: number[] = [];
  const { radiance, signalUv } = watch;
  const tables = { ...lab.tables, levelsUv: lab.tables.levelsUv.map(() => Number.POSITIVE_INFINITY) };
  const sensing = bytesPerTick(() => {
    for (const { bodies } of instants) {
      senseMovement({ tables, state, bodies, radiance, maskedSectors: nobody, placedOwners: nobody, signalUv });
    }
  });
  const posing = bytesPerTick(() => {
    for (const { people, tick } of instants) poseTick(people, [], tick, watch.bodies);
  });
  return [
    { name: 'memory of a tick, sensing a walker and a sitter', value: sensing, unit: 'bytes', ratio: null },
    { name: 'memory of a tick, posing the two', value: posing, unit: 'bytes', ratio: null },
  ];
}
