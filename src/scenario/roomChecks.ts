/** What the shape of a room cannot say: openings inside their walls, nothing on top of something else. */
import type { RoomSpec } from '../engine/types.ts';
import { checkInside, checkUnique, type Faults } from './checks.ts';
import { sentence } from './sentences.ts';

interface Hole {
  id: string;
  at: (string | number)[];
  wall: string;
  fromM: number;
  widthM: number;
  sillM: number;
  headM: number;
}

function holesOf(room: RoomSpec): Hole[] {
  return [
    ...room.windows.map((w, i) => ({ ...w, at: ['windows', i] })),
    ...room.doors.map((d, i) => ({ ...d, sillM: 0, at: ['doors', i] })),
  ];
}

function checkHole(faults: Faults, base: (string | number)[], room: RoomSpec, hole: Hole): void {
  const say = (key: string, expected: string, found: number) =>
    faults.sentences.push(sentence(faults.fileName, [...base, ...hole.at, key], expected, found));
  const alongX = hole.wall === 'front' || hole.wall === 'back';
  const lengthM = alongX ? room.widthM : room.depthM;
  if (hole.fromM + hole.widthM > lengthM + 1e-9) {
    say('widthM', `at most ${(lengthM - hole.fromM).toFixed(2)} m, up to the end of its wall`, hole.widthM);
  }
  if (hole.headM > room.heightM) say('headM', `at most the room's height, ${room.heightM} m`, hole.headM);
  if (hole.sillM >= hole.headM) say('sillM', `below its headM, ${hole.headM} m`, hole.sillM);
}

/** Overlap by more than rounding; edges may touch. */
function overlap(a: Hole, b: Hole): boolean {
  const gapM = 1e-9;
  return (
    a.wall === b.wall &&
    a.fromM + a.widthM > b.fromM + gapM &&
    b.fromM + b.widthM > a.fromM + gapM &&
    a.headM > b.sillM + gapM &&
    b.headM > a.sillM + gapM
  );
}

/** `base` is where the room sits in the file: [] for a file of its own, ['room'] inside a story. */
export function checkRoom(fileName: string, base: (string | number)[], room: RoomSpec): string[] {
  const faults: Faults = { fileName, sentences: [] };
  const holes = holesOf(room);
  holes.forEach((hole, i) => {
    checkHole(faults, base, room, hole);
    const other = holes.slice(0, i).find((earlier) => overlap(earlier, hole));
    if (other) {
      const expected = `clear of "${other.id}" in the same wall`;
      faults.sentences.push(sentence(fileName, [...base, ...hole.at, 'fromM'], expected, hole.fromM));
    }
  });
  for (const key of ['windows', 'doors', 'furniture', 'luminaires', 'deskPoints'] as const) {
    checkUnique(
      faults,
      [...base, key],
      room[key].map((thing) => thing.id),
    );
  }
  for (const key of ['furniture', 'luminaires', 'deskPoints'] as const) {
    room[key].forEach((thing, i) => {
      checkInside(faults, [...base, key, i, 'atM'], room, thing.atM);
    });
  }
  room.luminaires.forEach((lamp, i) => {
    if (lamp.heightM <= room.heightM) return;
    const expected = `at most the room's height, ${room.heightM} m`;
    faults.sentences.push(sentence(fileName, [...base, 'luminaires', i, 'heightM'], expected, lamp.heightM));
  });
  return faults.sentences;
}
