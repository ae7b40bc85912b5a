/** `ranges [DETECTOR]`: detection ranges as a table, measured by walking and sitting in an empty room. */
import { lensFacets } from '../engine/detection/lens.ts';
import type { DetectorModel } from '../engine/types.ts';
import { detectionRangeM, medianTowardM } from '../exercise/reach/measures.ts';
import { loadDetector } from '../scenario/load.ts';
import { diskLibrary } from './files.ts';
import { OWN_DETECTOR } from './labRows.ts';

const HEIGHTS_M = [2.5, 3, 4];
const TEMPERATURES_C = [20, 25, 30];

const COLUMNS = ['height m', 'room C', 'across', 'toward, lights off', 'toward, lights on', 'seated'];

function row(cells: string[]): string {
  return cells.map((cell, i) => cell.padStart(COLUMNS[i]!.length)).join('  ');
}

function line(model: DetectorModel, mountingHeightM: number, roomTemperatureC: number): string {
  const conditions = { model, mountingHeightM, roomTemperatureC };
  return row([
    mountingHeightM.toFixed(1),
    roomTemperatureC.toFixed(0),
    detectionRangeM({ ...conditions, movement: 'walkingAcross' }).toFixed(1),
    (2 * medianTowardM(conditions, 'switchOn')).toFixed(1),
    (2 * medianTowardM(conditions, 'hold')).toFixed(1),
    detectionRangeM({ ...conditions, movement: 'seated' }).toFixed(1),
  ]);
}

/** Prints the table; 0, or 1 when the detector is unknown or unusable. */
export function ranges(args: string[]): number {
  const [id = OWN_DETECTOR, ...rest] = args;
  if (rest.length > 0) {
    console.error('ranges: expected at most one detector: npm run sim -- ranges [DETECTOR]');
    return 1;
  }
  const loaded = loadDetector(diskLibrary(), id);
  if (!loaded.ok) {
    console.error(loaded.sentences.join('\n'));
    return 1;
  }
  try {
    lensFacets(loaded.value);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    console.error(`detectors/${id}.json: ${error.message}.`);
    return 1;
  }
  console.log(`${id}: diameters in metres, walking at 1 m/s, office clothing.`);
  console.log(
    'Across and seated: at least 90 % of 24 attempts; toward: median of 24 walks from 15 m away; 0.0: not even at the first step.',
  );
  console.log(row(COLUMNS));
  for (const heightM of HEIGHTS_M) for (const roomC of TEMPERATURES_C) console.log(line(loaded.value, heightM, roomC));
  return 0;
}
