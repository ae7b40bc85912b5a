/**
 * Whole rooms against an unbiased path tracer of other authorship: lamps, skies and sun, each alone. Rooms and values:
 * rooms.json beside this file, which also holds the standard error of each value. Path tracer and engine share the
 * definitions (CIE sky, Fresnel glass, diffuse surfaces) and nothing else.
 */
import { readFileSync } from 'node:fs';
import { evaluateRoom } from '../../src/cli/rooms.ts';
import type { ReferenceRoom, RoomSource } from '../../src/cli/roomsFile.ts';
import { checkTable, type LightRow } from './lightTable.ts';

/** Relative; narrower than what the product promises of its model (sky 5 %, sun 6 %), so that a slip shows early. */
const WITHIN = 0.03;
const CAUSE: Record<RoomSource['kind'], string> = {
  lamps: 'patches of 0.9 m, one point an element',
  sky: 'the sky is kept as 577 even patches; patches of 0.9 m',
  sun: 'a strip of sun is kept on elements of 0.3 m',
};

const rooms = JSON.parse(readFileSync(new URL('./rooms.json', import.meta.url), 'utf8')) as ReferenceRoom[];

const rows = rooms.flatMap((room) =>
  evaluateRoom(room).map((r): LightRow => {
    const noise = room.expected[r.sourceId]![r.sensorId]!.standardError_rel!;
    const { kind } = room.sources.find(({ id }) => id === r.sourceId)!;
    const source = `path tracing, standard error ${(noise * 100).toPrecision(1)} %`;
    return [
      `${room.title}: ${r.sourceId} at ${r.sensorId}, lx`,
      () => r.gotLx,
      r.expectedLx,
      WITHIN,
      source,
      CAUSE[kind],
    ];
  }),
);
checkTable('whole rooms against path tracing', rows);
