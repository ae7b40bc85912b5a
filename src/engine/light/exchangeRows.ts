/**
 * Reference rows about closed boxes of six even faces, answered with the room's own solver of interreflection and the
 * closed forms of rectangle to rectangle. Faces in the order of `FACES`; x along the length, y along the width.
 */
import { sqrt } from '../math.ts';
import { numberIn, type RowFunctions, RowInputError, type RowInputs } from '../rowInputs.ts';
import { viewFactorParallel, viewFactorPerpendicular } from './factors.ts';
import { interreflectionLu, solvePatches } from './solve.ts';

const FACES = ['floor', 'ceiling', 'south', 'north', 'west', 'east'] as const;

interface Box {
  x: number;
  y: number;
  z: number;
}

function boxOf(inputs: RowInputs): Box {
  return { x: numberIn(inputs, 'length_m'), y: numberIn(inputs, 'width_m'), z: numberIn(inputs, 'height_m') };
}

function areasM2({ x, y, z }: Box): number[] {
  return [x * y, x * y, x * z, x * z, y * z, y * z];
}

/** 6 x 6, row-major: share of what leaves a face that meets each other one. */
function boxFactors({ x, y, z }: Box): Float64Array {
  const factors = new Float64Array(36);
  const along = [z, y, x];
  for (let p = 0; p < 6; p++) {
    for (let q = 0; q < 6; q++) {
      if (p === q) continue;
      const own = p >> 1;
      const other = q >> 1;
      if (own === other) {
        const [a, b] = [0, 1, 2].filter((axis) => axis !== own).map((axis) => along[axis]!) as [number, number];
        factors[p * 6 + q] = viewFactorParallel(a, b, along[own]!);
      } else {
        // The shared edge runs along the third axis; each face stretches along the other's normal.
        factors[p * 6 + q] = viewFactorPerpendicular(along[3 - own - other]!, along[other]!, along[own]!);
      }
    }
  }
  return factors;
}

/** Total illuminance of each face: E = direct + F J with J = rho E. */
function totalLx(box: Box, reflectance: number[], directLx: number[]): number[] {
  const factors = boxFactors(box);
  const exitance = Float64Array.from(directLx, (lx, p) => lx * reflectance[p]!);
  solvePatches(interreflectionLu(Float64Array.from(reflectance), factors, 6), 6, exitance);
  return directLx.map((lx, p) => exitance.reduce((sum, value, q) => sum + value * factors[p * 6 + q]!, lx));
}

function meanLx(lx: number[], areas: number[]): number {
  const total = areas.reduce((a, b) => a + b);
  return lx.reduce((sum, value, p) => sum + value * areas[p]!, 0) / total;
}

/** Numbers by face name under `key`. */
function byFace(inputs: RowInputs, key: string): number[] {
  const value = inputs[key];
  if (typeof value !== 'object' || value === null) throw new RowInputError(key, `numbers for ${FACES.join(', ')}`);
  return FACES.map((face) => numberIn(value as RowInputs, face));
}

export const exchangeRows: RowFunctions = {
  sixZoneBoxIlluminance: (r) => {
    const lx = totalLx(boxOf(r), byFace(r, 'reflectance'), byFace(r, 'directIlluminance_lx'));
    return Object.fromEntries(FACES.map((face, p) => [face, lx[p]!]));
  },
  closedCavityIndirect: (r) => {
    // A cube of that area with the flux spread evenly.
    const areaM2 = numberIn(r, 'surfaceArea_m2');
    const side = sqrt(areaM2 / 6);
    const direct = numberIn(r, 'flux_lm') / areaM2;
    const box = { x: side, y: side, z: side };
    const lx = totalLx(box, Array(6).fill(numberIn(r, 'reflectance')), Array(6).fill(direct));
    return meanLx(lx, areasM2(box)) - direct;
  },
  closedRoomMeanIlluminance: (r) => {
    // All flux on the floor: the mean must not depend on where it goes first.
    const box = boxOf(r);
    const areas = areasM2(box);
    const direct = areas.map((area, p) => (p === 0 ? numberIn(r, 'flux_lm') / area : 0));
    return meanLx(totalLx(box, Array(6).fill(numberIn(r, 'reflectance')), direct), areas);
  },
  utilanceLambertCeiling: (r) => {
    // The ceiling shines with 1 lm/m2; what reaches the faces at once is its view factor backwards.
    const box = boxOf(r);
    const factors = boxFactors(box);
    const direct = FACES.map((_, p) => factors[p * 6 + 1]!);
    const [floor, ceiling, wall] = ['floorReflectance', 'ceilingReflectance', 'wallReflectance'].map((key) =>
      numberIn(r, key),
    ) as [number, number, number];
    return totalLx(box, [floor, ceiling, wall, wall, wall, wall], direct)[0]!;
  },
};
