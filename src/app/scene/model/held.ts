/** Cover cloth and torch, drawn while they are held before the detector. Pure: who and where in, meshes out. */
import { BufferAttribute, BufferGeometry, Matrix4, Quaternion, Vector3 as V3 } from 'three';
import { TORCH_AWAY_M, TORCH_LEAN_DEG } from '../../../engine/light/torch.ts';
import type { DetectorMount, RowId, Vector3 } from '../../../engine/types.ts';
import { degToRad } from '../../../engine/units.ts';
import { CUBE, cone, createBuilder, type Paint, placed, toGeometry } from './builder.ts';
import { DETECTOR_RADIUS_M, DETECTOR_SCALE } from './fittings.ts';
import { MATERIAL, tinted } from './palette.ts';

/** Radius and depth of the detector as drawn, m. */
const DISC_M = DETECTOR_RADIUS_M * DETECTOR_SCALE;
const DEPTH_M = 0.035 * DETECTOR_SCALE + 0.7 * DISC_M;

/** The cloth as rings from the ceiling down: radius and depth in parts of disc and detector. Assumed: a slack bag of plain weave. */
const CLOTH: readonly (readonly [radius: number, depth: number])[] = [
  [1.16, 0],
  [1.3, 0.16],
  [1.38, 0.42],
  [1.3, 0.74],
  [1.06, 1.02],
  [0.66, 1.2],
  [0.24, 1.28],
];
const SIDES = 28;
/** Reflectance of the cloth. Assumed: unbleached grey, told from the white detector also without colour. */
const CLOTH_REFLECTANCE = 0.3;

/** A soft cap over disc and dome, held by a band at the ceiling. */
export function clothGeometry({ atM, heightM }: DetectorMount): BufferGeometry {
  const b = createBuilder(null);
  const [x, y] = atM;
  const weave = tinted(MATERIAL.thing, CLOTH_REFLECTANCE);
  const at = ([radius, depth]: readonly [number, number]): [number, number] => [
    radius * DISC_M,
    heightM - depth * DEPTH_M,
  ];
  for (let k = 1; k < CLOTH.length; k++) {
    // Every other ring a little darker: folds that a flat grey would not show.
    const paint: Paint = { color: weave, light: CUBE, share: k % 2 === 0 ? 0.86 : 1 };
    // The ceiling is not drawn: seen from above the cap is shut as well.
    const lids = k === 1 ? { top: paint } : k === CLOTH.length - 1 ? { bottom: paint } : {};
    cone(b, [x, y], at(CLOTH[k]!), at(CLOTH[k - 1]!), SIDES, paint, lids);
  }
  const band: Paint = { color: tinted(MATERIAL.leg, 0.06), light: CUBE };
  cone(b, [x, y], [1.24 * DISC_M, heightM - 0.02], [1.18 * DISC_M, heightM], SIDES, band);
  return toGeometry(b);
}

/** Where the torch is held, and what it is aimed at: the middle of the dome. */
export function torchPlace({ atM, heightM }: DetectorMount, side: RowId): { fromM: Vector3; toM: Vector3 } {
  const lean = degToRad(TORCH_LEAN_DEG);
  const toM: Vector3 = [atM[0], atM[1], heightM - DEPTH_M / 2];
  const sideways = (side === 'window' ? 1 : -1) * Math.sin(lean) * TORCH_AWAY_M;
  return { fromM: [toM[0], toM[1] + sideways, toM[2] - Math.cos(lean) * TORCH_AWAY_M], toM };
}

/** Drawn so much larger than it is. Assumed: a hand lamp of 14 cm, to be seen from the back of a class. */
const TORCH_SCALE = 3.2;
const HANDLE_M = 0.1 * TORCH_SCALE;
const HEAD_M = 0.04 * TORCH_SCALE;
const HANDLE_R_M = 0.013 * TORCH_SCALE;
const HEAD_R_M = 0.024 * TORCH_SCALE;

/** Local z points along the beam, its origin at the lens of the lamp. */
function alongBeam(mount: DetectorMount, side: RowId): { place: Matrix4; lengthM: number } {
  const { fromM, toM } = torchPlace(mount, side);
  const [from, to] = [new V3(...fromM), new V3(...toM)];
  const way = to.clone().sub(from);
  const turn = new Quaternion().setFromUnitVectors(new V3(0, 0, 1), way.clone().normalize());
  return { place: new Matrix4().makeRotationFromQuaternion(turn).setPosition(from), lengthM: way.length() };
}

export function torchGeometry(mount: DetectorMount, side: RowId): BufferGeometry {
  const b = createBuilder(null);
  const dark: Paint = { color: tinted(MATERIAL.leg, 0.08), light: CUBE };
  const grip: Paint = { color: tinted(MATERIAL.frame, 0.25), light: CUBE };
  placed(b, alongBeam(mount, side).place, () => {
    const neck = -HEAD_M;
    cone(b, [0, 0], [HANDLE_R_M, neck - HANDLE_M], [HANDLE_R_M, neck], 16, grip, { bottom: dark });
    cone(b, [0, 0], [HANDLE_R_M, neck], [HEAD_R_M, 0], 16, dark, { top: dark });
  });
  return toGeometry(b);
}

/** The beam from the lens of the lamp to the dome: a cone without lids. */
export function beamGeometry(mount: DetectorMount, side: RowId): BufferGeometry {
  const { place, lengthM } = alongBeam(mount, side);
  const points: number[] = [];
  const point = (radiusM: number, k: number, z: number): void => {
    const turn = (k / SIDES) * 2 * Math.PI;
    points.push(...new V3(radiusM * Math.cos(turn), radiusM * Math.sin(turn), z).applyMatrix4(place).toArray());
  };
  for (let k = 0; k < SIDES; k++) {
    for (const [radiusM, i, z] of [
      [HEAD_R_M, k, 0],
      [HEAD_R_M, k + 1, 0],
      [DISC_M, k + 1, lengthM],
      [HEAD_R_M, k, 0],
      [DISC_M, k + 1, lengthM],
      [DISC_M, k, lengthM],
    ] as const) {
      point(radiusM, i, z);
    }
  }
  return new BufferGeometry().setAttribute('position', new BufferAttribute(new Float32Array(points), 3));
}
