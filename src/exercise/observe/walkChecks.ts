/** What the shape of two walks cannot say: every line that a seed can draw lies in the room, and every walk ends in time. */
import { sentence } from '../../scenario/sentences.ts';
import { CLEAR_OF_WALL_M } from '../reach/roomLab.ts';
import type { ExerciseBase } from '../types.ts';
import type { WalksTask } from './types.ts';
import { allOffers, WALK_FROM_S } from './walks.ts';

export function walkFaults(fileName: string, { scenario, draws }: ExerciseBase, task: WalksTask): string[] {
  const { widthM, depthM } = scenario.room;
  const mounts = [scenario.mount.atM, ...draws.flat().flatMap(({ mount }) => (mount?.atM ? [mount.atM] : []))];
  const inside = ([x, y]: readonly [number, number]): boolean =>
    Math.min(x, y, widthM - x, depthM - y) >= CLEAR_OF_WALL_M;
  const outside = mounts
    .flatMap((atM) => allOffers(task, atM))
    .find(({ fromM, toM }) => !inside(fromM) || !inside(toM));
  const slowest = Math.min(...task.pacesMps.flat());
  const overS = WALK_FROM_S + task.lengthM / slowest;
  return [
    ...(outside
      ? [sentence(fileName, ['observe', 'bearingsDeg'], 'lines that lie in the room', [outside.fromM, outside.toM])]
      : []),
    ...(overS < task.toS
      ? []
      : [sentence(fileName, ['observe', 'toS'], `later than the slowest walk (${overS})`, task.toS)]),
  ];
}
