/**
 * Light beside the plain alternative, for `bench.ts`: an unbiased path tracer at the error of our tables, six sensors of
 * the furnished reference room. Rays go through three-mesh-bvh, or through the tests' own slabs, which suit a room of
 * three boxes better. Sky is found by chance, the sun by a shadow ray at each bounce. A path tracer begins anew with each
 * sky; our tables are built once and weigh each further sky.
 */
import { readFileSync } from 'node:fs';
import { outsideLight, referenceScene } from '../../src/cli/rooms.ts';
import type { ReferenceRoom, RoomSource } from '../../src/cli/roomsFile.ts';
import { type LitScene, lightUp } from '../../src/engine/light/balance.ts';
import { type BlindPart, buildBlindPart, sensorDaylight } from '../../src/engine/light/parts.ts';
import { meshCast } from '../reference/meshRays.ts';
import { type Cast, pathTraced, randomFrom, slabCast } from '../reference/pathTracer.ts';
import { duration, type Figure, medianMs, times } from './measure.ts';

/** Paths run at each sensor; from their noise and time follows the time to any error. */
const PATHS = 20_000;
/** About the hours of daylight in a year. */
const SKIES_OF_A_YEAR = 4400;

type DaySource = Exclude<RoomSource, { kind: 'lamps' }>;

interface Ours {
  lit: LitScene;
  open: BlindPart;
  tablesMs: number;
}

const rootMeanSquare = (values: number[]) => Math.sqrt(values.reduce((sum, v) => sum + v * v, 0) / values.length);
const percent = (share: number) => `${(share * 100).toFixed(2)} %`;

/** Time until the paths of every sensor have the standard error asked for, ms: error falls as one over their root. */
function pathsMs(room: ReferenceRoom, source: DaySource, cast: Cast, error: number): number {
  const random = randomFrom(1);
  return room.sensors.reduce((sum, { position_m, normal }) => {
    const start = performance.now();
    const reached = pathTraced(room, source, position_m, normal, PATHS, random, cast).error;
    return sum + (performance.now() - start) * (reached / error) ** 2;
  }, 0);
}

function sourceFigures(room: ReferenceRoom, source: DaySource, ours: Ours, yardstickMs: number): Figure[] {
  const { lit, open, tablesMs } = ours;
  const light = outsideLight(source);
  const step = () => sensorDaylight(lit.geometry, lit.scene, lit.sensors, open, light);
  const steps = 200;
  const stepMs = medianMs(() => Array.from({ length: steps }, step)) / steps;
  // The stored lux has noise of its own, up to 0.24 %, which counts here as an error of ours.
  const expected = room.sensors.map(({ id }) => room.expected[source.id]![id]!.illuminance_lx);
  const error = rootMeanSquare(step().map((lx, s) => lx / expected[s]! - 1));
  const head = `light: ${source.kind}, ${room.sensors.length} sensors`;
  const casts: [string, Cast][] = [
    ['three-mesh-bvh', meshCast(room)],
    ['own slabs', slabCast(room)],
  ];
  return [
    duration(`${head}, one sky by our tables (error ${percent(error)})`, stepMs, yardstickMs),
    ...casts.flatMap(([name, cast]) => {
      const ms = [1, 2, 3].map(() => pathsMs(room, source, cast, error)).sort((a, b) => a - b)[1]!;
      const year = SKIES_OF_A_YEAR;
      return [
        duration(`${head}, one sky by paths over ${name} to the same error`, ms, yardstickMs),
        times(`${head}: paths over ${name} to tables and step, one sky`, ms, tablesMs + stepMs),
        times(`${head}: the same, ${year} skies`, ms * year, tablesMs + stepMs * year),
      ];
    }),
  ];
}

export function lightPathFigures(yardstickMs: number): Figure[] {
  const file = new URL('../reference/rooms.json', import.meta.url);
  const rooms = JSON.parse(readFileSync(file, 'utf8')) as ReferenceRoom[];
  const room = rooms.find(({ boxes }) => boxes.length > 0)!;
  const scene = referenceScene(room);
  const build = () => {
    const lit = lightUp(scene);
    return { lit, open: buildBlindPart(lit.geometry, lit.sensors, scene.openings.length, []) };
  };
  const tablesMs = medianMs(build, 3);
  const ours = { ...build(), tablesMs };
  const sources = room.sources.filter((source) => source.kind !== 'lamps');
  return [
    duration(`light: tables of the furnished reference room, ${room.sensors.length} sensors`, tablesMs, yardstickMs),
    ...sources.flatMap((source) => sourceFigures(room, source, ours, yardstickMs)),
  ];
}
