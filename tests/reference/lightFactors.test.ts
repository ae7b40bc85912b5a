/** View factors of light: formulas against printed values, and the share that the mesh's own rays find. */
import { lightUp } from '../../src/engine/light/balance.ts';
import { viewFactorParallel, viewFactorPerpendicular } from '../../src/engine/light/factors.ts';
import { closedBox } from '../../src/engine/light/invariants.ts';
import { checkTable } from './lightTable.ts';

/** Numbers of room faces in the order of the engine: left, right, front, back, floor, ceiling. */
const FACE = { left: 0, floor: 4, ceiling: 5 } as const;

const { mesh, transport } = lightUp(closedBox([9, 6, 3], 0.5, 0)).geometry;

/** Share of what `from` sends out that arrives at `to`, by the factors between patches that interreflection uses. */
function meshShare(from: keyof typeof FACE, to: keyof typeof FACE): number {
  const n = mesh.patchCount;
  const faceOf = new Int32Array(n);
  for (let e = 0; e < mesh.count; e++) faceOf[mesh.patch[e]!] = mesh.surfaceOf[e]!;
  let arrived = 0;
  let areaM2 = 0;
  for (let p = 0; p < n; p++) {
    if (faceOf[p] !== FACE[from]) continue;
    areaM2 += mesh.patchAreaM2[p]!;
    for (let q = 0; q < n; q++) {
      if (faceOf[q] === FACE[to]) arrived += transport.factors[p * n + q]! * mesh.patchAreaM2[p]!;
    }
  }
  return arrived / areaM2;
}

const PRINTED = 'radiation catalogues and heat-transfer textbooks, from memory';
const QUADRATURE = 'double integral of the exchange kernel';
const HOTTEL = 'Hottel, closed form';
const DIGITS = 'digits of the expected value';
const RAYS = '256 rays an element';

// biome-ignore format: a table
checkTable('view factors', [
  ['opposite faces of a cube', () => viewFactorParallel(1, 1, 1), 0.19982, 3e-5, PRINTED, DIGITS],
  ['faces of a cube with a common edge', () => viewFactorPerpendicular(1, 1, 1), 0.20004, 3e-5, PRINTED, DIGITS],
  ['squares of 10 at a distance of 1', () => viewFactorParallel(10, 10, 1), 0.82699, 1e-5, PRINTED, DIGITS],
  ['floor to ceiling, 9 x 6 x 3 m', () => viewFactorParallel(9, 6, 3), 0.475576, 2e-6, QUADRATURE, DIGITS],
  ['floor to left wall, 9 x 6 x 3 m', () => viewFactorPerpendicular(6, 9, 3), 0.102713, 5e-6, HOTTEL, DIGITS],
  ['floor to ceiling, by the mesh', () => meshShare('floor', 'ceiling'), 0.475576, 2e-3, QUADRATURE, RAYS],
  ['ceiling to floor, by the mesh', () => meshShare('ceiling', 'floor'), 0.475576, 2e-3, QUADRATURE, RAYS],
  ['floor to left wall, by the mesh', () => meshShare('floor', 'left'), 0.102713, 5e-3, HOTTEL, RAYS],
]);
