/** Benchmarks of the light calculation, for `bench.ts`: tables, one sample of the sky, the picture's field, memory. */

import {
  buildLightTables,
  lightField,
  previewLightTables,
  type SkyMoment,
  sampleSky,
} from '../../src/engine/light/light.ts';
import { forgetParts } from '../../src/engine/light/memory.ts';
import { buildGeometry, interreflection } from '../../src/engine/light/parts.ts';
import { roomScene } from '../../src/engine/light/roomScene.ts';
import type { LightTables } from '../../src/engine/light/types.ts';
import type { DetectorModel, RoomSpec, Setup, Site } from '../../src/engine/types.ts';
import { duration, type Figure, medianMs } from './measure.ts';

export interface LightBenchRoom {
  room: RoomSpec;
  site: Site;
  setup: Setup;
  model: DetectorModel;
  /** A moment with the sun on the façade, and one at night. */
  sunny: SkyMoment;
  night: SkyMoment;
}

/** Sensors of every figure: both photometers and desk points. */
export const SENSORS = 10;

/** The room with exactly as many desk points as make ten sensors. */
export function withTenSensors(room: RoomSpec): RoomSpec {
  const [first] = room.deskPoints;
  if (!first) throw new Error('the room of the benchmark has no desk point');
  const deskPoints = Array.from(
    { length: SENSORS - 2 },
    (_, i) => room.deskPoints[i] ?? { ...first, id: `more-${i}`, atM: [1 + 0.3 * i, 1] as [number, number] },
  );
  return { ...room, deskPoints };
}

/** Bytes held by the typed arrays below a value, each buffer once. */
export function typedBytes(root: unknown): number {
  const seen = new Set<unknown>();
  const walk = (value: unknown): number => {
    if (typeof value !== 'object' || value === null || seen.has(value)) return 0;
    seen.add(value);
    if (ArrayBuffer.isView(value)) {
      if (seen.has(value.buffer)) return 0;
      seen.add(value.buffer);
      return value.buffer.byteLength;
    }
    return Object.values(value).reduce((sum: number, member) => sum + walk(member), 0);
  };
  return walk(root);
}

function steps(tables: LightTables, moment: SkyMoment, setup: Setup): number {
  const runs = 200;
  let at = 0;
  // Through two hours and again, so that a sunny figure is not measured after sunset.
  const next = () => ({ ...moment, utcMs: moment.utcMs + 10_000 * (at++ % 720) });
  const ms = medianMs(() => {
    for (let i = 0; i < runs; i++) sampleSky(tables, next(), setup);
  }, 9);
  return ms / runs;
}

export function lightFigures(bench: LightBenchRoom, yardstickMs: number): Figure[] {
  const { room, site, setup, model, sunny, night } = bench;
  const build = () => buildLightTables(room, site, setup, model);
  const scene = roomScene(room, site, setup, model);
  const geometryMs = medianMs(() => buildGeometry(scene), 3);
  const geometry = buildGeometry(scene);
  const interMs = medianMs(() => interreflection(geometry, scene), 3);
  const buildMs = medianMs(() => {
    forgetParts();
    build();
  }, 3);
  const coarseMs = medianMs(() => {
    forgetParts();
    previewLightTables(room, site, setup, model);
  }, 5);
  const tables = build();
  let turn = 0;
  const moveMs = medianMs(() => {
    buildLightTables(room, site, { ...setup, mount: { ...setup.mount, turnDeg: ++turn } }, model);
  }, 3);
  // The sun goes on by a minute each time, through two hours and again; the first rounds are for the compiler.
  let minute = 0;
  const field = () => lightField(tables, { ...sunny, utcMs: sunny.utcMs + 60_000 * (minute++ % 120) }, setup);
  for (let i = 0; i < 40; i++) field();
  const fieldMs = medianMs(field, 41);
  const figures = [
    duration('light: geometry part of the tables', geometryMs, yardstickMs),
    duration('light: interreflection part of the tables', interMs, yardstickMs),
    duration('light: all tables from nothing', buildMs, yardstickMs),
    duration('light: coarse tables for a first picture', coarseMs, yardstickMs),
    duration('light: detector moved', moveMs, yardstickMs),
    duration('light: one sky sample, ten sensors, sun on the façade', steps(tables, sunny, setup), yardstickMs),
    duration(
      'light: one sky sample, ten sensors, overcast',
      steps(tables, { ...sunny, sky: 'overcast' }, setup),
      yardstickMs,
    ),
    duration('light: one sky sample, ten sensors, night', steps(tables, night, setup), yardstickMs),
    duration('light: field for the picture, sun moved', fieldMs, yardstickMs),
  ];
  const megabytes = typedBytes(tables) / 1e6;
  return [...figures, { name: 'light: memory of the tables', value: megabytes, unit: 'MB', ratio: megabytes }];
}
