/** Reference quantities that need a whole person in front of the whole detector. */
import { senseMovement } from '../engine/detection/sense.ts';
import { bandRadiance8to14 } from '../engine/heat/planck.ts';
import { exp } from '../engine/math.ts';
import { numberIn, type RowFunctions, RowInputError, type RowInputs, wordIn } from '../engine/rowInputs.ts';
import type { DetectorModel, FurnitureKind, FurnitureSpec } from '../engine/types.ts';
import { NUMBERS_PER_PART, PART_KINDS } from '../engine/types.ts';
import { TICK_S, TICKS_PER_S } from '../engine/units.ts';
import { createLab, type Lab, labPerson, peakWhile, placeAt, startWatch, type Watch } from '../exercise/reach/lab.ts';
import { detectionRangeM, MOVEMENTS, type RangeQuestion } from '../exercise/reach/measures.ts';
import { loadDetector } from '../scenario/load.ts';
import { diskLibrary } from './files.ts';

/** The detector that comes with the product; the rows ask for no other. */
export const OWN_DETECTOR = 'dome-a';

export function ownDetector(id: string = OWN_DETECTOR): DetectorModel {
  const loaded = loadDetector(diskLibrary(), id);
  if (!loaded.ok) throw new Error(loaded.sentences.join(' '));
  return loaded.value;
}

const known = new Map<string, number>();

function rangeOf(inputs: RowInputs): number {
  const question: RangeQuestion = {
    model: ownDetector(),
    mountingHeightM: numberIn(inputs, 'mountingHeight_m'),
    roomTemperatureC: numberIn(inputs, 'roomTemperature_C'),
    movement: wordIn(inputs, 'movement', MOVEMENTS),
  };
  const { model, ...rest } = question;
  const key = JSON.stringify([model.id, rest]);
  const found = known.get(key) ?? detectionRangeM(question);
  known.set(key, found);
  return found;
}

function partIn(inputs: RowInputs, key: string): RowInputs {
  const value = inputs[key];
  if (typeof value !== 'object' || value === null) throw new RowInputError(key, 'a range to measure');
  return value as RowInputs;
}

/** The walk that all ratios refer to: 3 m across at 5 m, 1 m/s, between quadrant borders. */
const WALK_RADIUS_M = 5;
const WALK_BEARING_DEG = 40;
const WALK_S = 3;

function clearLab(furniture: FurnitureSpec[] = []): Lab {
  return createLab({ model: ownDetector(), mountingHeightM: 3, roomTemperatureC: 20, setup: { furniture } });
}

/** People walking across, one at each bearing, all in the same sense. Noise is off. */
function crossing(lab: Lab, bearingsDeg: readonly number[]): Watch {
  const people = bearingsDeg.map((bearing, i) => {
    const plan = [{ act: 'walk' as const, toM: placeAt(lab, WALK_RADIUS_M, bearing, 1.5), speedMps: 1 }];
    const person = labPerson(lab, placeAt(lab, WALK_RADIUS_M, bearing, -1.5), plan, bearing + 90);
    return { ...person, id: 'ABCD'[i]! };
  });
  return startWatch(lab, people, 1, false);
}

/** A sheet from floor to ceiling between detector and walk, square to the line of sight in plan as quarter turns allow. */
function partition(lab: Lab, kind: FurnitureKind): FurnitureSpec[] {
  const common = { kind, depthM: 0.04, heightM: 3.05, reflectance: 0.5, widthM: 30 };
  const [x, y] = lab.centreM;
  return [
    { ...common, id: 'a', atM: [x, y + 1], turnDeg: 0 },
    { ...common, id: 'b', atM: [x + 1, y], turnDeg: 90 },
  ];
}

/** Peak of a floor patch of 1 m2 at 3 m that warms by 6 K with a time constant of 300 s, µV. */
function slowPatchPeakUv(lab: Lab): number {
  const watch = startWatch(lab, [], 1, false);
  const [x, y] = placeAt(lab, 3, WALK_BEARING_DEG);
  const thing = PART_KINDS.indexOf('thing');
  for (const buffer of watch.bodies) {
    buffer.count = 1;
    buffer.poseKey[0] = 1;
    buffer.partKind[0] = thing;
    // A disc of 1 m2, flat on the floor.
    buffer.parts.set([x, y, 0.003, 0.5642, 0, 0, 0, 0.5642, 0, 0, 0, 0.002], 0 * NUMBERS_PER_PART);
  }
  let peak = 0;
  for (let tick = 0; tick < 900 * TICKS_PER_S; tick++) {
    const warmedC = 20 + 6 * (1 - exp((-tick * TICK_S) / 300));
    watch.radiance[thing] = bandRadiance8to14(warmedC) - bandRadiance8to14(20);
    const { state, bodies, radiance, signalUv } = watch;
    senseMovement({
      tables: lab.tables,
      state,
      bodies,
      radiance,
      maskedSectors: [],
      placedOwners: [],
      signalUv,
      noise: false,
    });
    for (const uv of signalUv) peak = Math.max(peak, Math.abs(uv));
  }
  return peak;
}

const CASES = [
  'motionlessSettled',
  'equalRadiance',
  'behindGlass',
  'behindOpaqueWall',
  'slowFloorPatch',
  'contrastReversed',
  'contrastDoubled',
  'frameRateHalved',
  'twoPersonsDifferentQuadrants',
] as const;

function peakOf(name: (typeof CASES)[number], lab: Lab): number {
  const watch = crossing(lab, [WALK_BEARING_DEG]);
  switch (name) {
    case 'motionlessSettled':
      peakWhile(watch, WALK_S + 10);
      return peakWhile(watch, 5);
    case 'equalRadiance':
      watch.contrast = 0;
      break;
    case 'contrastReversed':
      watch.contrast = -1;
      break;
    case 'contrastDoubled':
      watch.contrast = 2;
      break;
    case 'frameRateHalved':
      watch.halfRate = true;
      break;
    case 'behindGlass':
      return peakWhile(crossing(clearLab(partition(lab, 'glassScreen')), [WALK_BEARING_DEG]), WALK_S + 1);
    case 'behindOpaqueWall':
      return peakWhile(crossing(clearLab(partition(lab, 'screen')), [WALK_BEARING_DEG]), WALK_S + 1);
    case 'slowFloorPatch':
      return slowPatchPeakUv(lab);
    case 'twoPersonsDifferentQuadrants':
      return peakWhile(crossing(lab, [WALK_BEARING_DEG, WALK_BEARING_DEG + 180]), WALK_S + 1, [0]);
  }
  return peakWhile(watch, WALK_S + 1);
}

function signalInvariant(inputs: RowInputs): number {
  const name = wordIn(inputs, 'case', CASES);
  const lab = clearLab();
  const channels = name === 'twoPersonsDifferentQuadrants' ? [0] : [0, 1, 2, 3];
  return peakOf(name, lab) / peakWhile(crossing(lab, [WALK_BEARING_DEG]), WALK_S + 1, channels);
}

export const labRows: RowFunctions = {
  signalInvariant,
  detectionRange: rangeOf,
  detectionRangeRatio: (r) => rangeOf(partIn(r, 'numerator')) / rangeOf(partIn(r, 'denominator')),
};
