/**
 * Benchmarks of light over a year, for `bench.ts`: 8,760 hourly skies on ten sensors; how cost grows with the number of
 * patches.
 */
import { buildLightTables, sampleSky } from '../../src/engine/light/light.ts';
import { buildGeometry, interreflection } from '../../src/engine/light/parts.ts';
import { roomScene } from '../../src/engine/light/roomScene.ts';
import type { SkyCondition } from '../../src/engine/types.ts';
import { type LightBenchRoom, SENSORS } from './light.ts';
import { duration, type Figure, medianMs } from './measure.ts';

const YEAR_HOURS = 8760;
const HOUR_MS = 3_600_000;
/** Skies of the year by hour of the day it belongs to: three days of each kind in turn, as a place has them. */
const SKIES: readonly SkyCondition[] = ['clear', 'passingClouds', 'overcast'];

function yearFigures({ room, site, setup, model, sunny }: LightBenchRoom, yardstickMs: number): Figure[] {
  const tables = buildLightTables(room, site, setup, model);
  let lit = 0;
  const ms = medianMs(() => {
    lit = 0;
    for (let hour = 0; hour < YEAR_HOURS; hour++) {
      const sky = SKIES[Math.floor(hour / 72) % SKIES.length]!;
      const sample = sampleSky(tables, { ...sunny, sky, utcMs: sunny.utcMs + hour * HOUR_MS });
      if (sample.daylightLx[2]! > 0) lit++;
    }
  }, 3);
  if (tables.rowLx.inner.length !== SENSORS) throw new Error('the year was not worked with ten sensors');
  if (lit < 4000) throw new Error(`only ${lit} hours of the year had light`);
  return [
    duration(`light: year of ${YEAR_HOURS} hourly skies, ${SENSORS} sensors (${lit} with light)`, ms, yardstickMs),
  ];
}

/** Slope of log cost over log count: least squares. */
function exponent(counts: readonly number[], costs: readonly number[]): number {
  const x = counts.map(Math.log);
  const y = costs.map(Math.log);
  const mean = (values: readonly number[]) => values.reduce((sum, v) => sum + v, 0) / values.length;
  const [mx, my] = [mean(x), mean(y)];
  const top = x.reduce((sum, v, i) => sum + (v - mx) * (y[i]! - my), 0);
  return top / x.reduce((sum, v) => sum + (v - mx) ** 2, 0);
}

/** Sides of bare rooms, m: the mesh has patches of a fixed size, so larger rooms have more of them. */
const SIDES_M = [4, 6, 9, 13];

function growthFigures({ room, site, setup, model }: LightBenchRoom, yardstickMs: number): Figure[] {
  const counts: number[] = [];
  const costs: number[] = [];
  const figures: Figure[] = [];
  for (const sideM of SIDES_M) {
    const windows = room.windows.slice(0, 1).map((w) => ({ ...w, fromM: 1, widthM: 2 }));
    const bare = { ...room, widthM: sideM, depthM: sideM, windows, doors: [], luminaires: [], furniture: [] };
    const scene = roomScene(bare, site, { ...setup, furniture: [] }, model);
    const geometry = buildGeometry(scene);
    const ms = medianMs(() => interreflection(geometry, scene), 5);
    counts.push(geometry.mesh.patchCount);
    costs.push(ms);
    figures.push(duration(`light: interreflection of ${geometry.mesh.patchCount} patches`, ms, yardstickMs));
  }
  const power = exponent(counts, costs);
  return [
    ...figures,
    { name: 'light: interreflection grows as patches to the power of', value: power, unit: '', ratio: power },
  ];
}

export function lightYearFigures(bench: LightBenchRoom, yardstickMs: number): Figure[] {
  return [...yearFigures(bench, yardstickMs), ...growthFigures(bench, yardstickMs)];
}
