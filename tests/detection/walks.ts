/** Walks in the laboratory, as the behaviour tests need them. Noise is off unless said. */

import type { FurnitureSpec, PersonSpec, Setup } from '../../src/engine/types.ts';
import {
  createLab,
  type Lab,
  labPerson,
  placeAt,
  startWatch,
  type Watch,
  watchFor,
} from '../../src/exercise/reach/lab.ts';
import { DOME } from './stage.ts';

export function lab(mountingHeightM = 3, roomTemperatureC = 20, setup: Partial<Setup> = {}): Lab {
  return createLab({ model: DOME, mountingHeightM, roomTemperatureC, setup });
}

/** Walks along the tangent at a radius: from `-halfM` to `+halfM` (negative half: anticlockwise). */
export function across(l: Lab, radiusM: number, bearingDeg: number, halfM = 1.5, speedMps = 1): PersonSpec {
  const plan = [{ act: 'walk' as const, toM: placeAt(l, radiusM, bearingDeg, halfM), speedMps }];
  return labPerson(l, placeAt(l, radiusM, bearingDeg, -halfM), plan, bearingDeg + (halfM > 0 ? 90 : -90));
}

/** Walks toward the detector, from radius + half to radius - half. */
export function toward(l: Lab, radiusM: number, bearingDeg: number, halfM = 1, speedMps = 1): PersonSpec {
  const plan = [{ act: 'walk' as const, toM: placeAt(l, radiusM - halfM, bearingDeg), speedMps }];
  return labPerson(l, placeAt(l, radiusM + halfM, bearingDeg), plan, bearingDeg + 180);
}

export function quiet(l: Lab, people: PersonSpec[], seed = 1): Watch {
  return startWatch(
    l,
    people.map((p, i) => ({ ...p, id: 'ABCDEFGH'[i]! })),
    seed,
    false,
  );
}

/** Signal of one channel at every sub-step, µV. */
export function trace(watch: Watch, durationS: number, channel: number): number[] {
  const uv: number[] = [];
  watchFor(watch, durationS, null, ({ signalUv }) => {
    for (let s = 0; s < 5; s++) uv.push(signalUv[channel * 5 + s]!);
  });
  return uv;
}

export function median(values: number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)]!;
}

export function sheet(
  id: string,
  kind: FurnitureSpec['kind'],
  atM: [number, number],
  turnDeg: 0 | 90,
  heightM: number,
): FurnitureSpec {
  return { id, kind, atM, turnDeg, widthM: 30, depthM: 0.04, heightM, reflectance: 0.5 };
}
