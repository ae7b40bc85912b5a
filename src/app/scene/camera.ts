/** Where the eye stands. All stations keep one lens; distance follows from fitting the room into the stage. */
import { PerspectiveCamera, Vector3 } from 'three';
import type { RoomSpec } from '../../engine/types.ts';
import { boardBounds } from './model/outside.ts';

export type StationId = 'corner' | 'door' | 'desk' | 'ceiling';

/** Vertical field of view, degrees. Value: `look`; narrow, so that verticals stay nearly parallel. */
export const FIELD_OF_VIEW_DEG = 17;
/** Orbit by hand stays within this much of the station, degrees. Value: `look`. */
export const ORBIT_LIMIT_DEG = 30;
/** Between stations, ms. Value: `look`. */
export const EASE_MS = 600;

export interface Eye {
  /** From the room's -y axis towards +x, degrees. */
  azimuthDeg: number;
  elevationDeg: number;
  targetM: [number, number, number];
  distanceM: number;
}

interface Station {
  azimuthDeg: number;
  elevationDeg: number;
}

/** Corner is the picture of the room; door and desk stand lower and to one side; ceiling looks down as the detector does. */
const STATIONS: Record<StationId, Station> = {
  corner: { azimuthDeg: 23, elevationDeg: 36 },
  door: { azimuthDeg: 52, elevationDeg: 27 },
  desk: { azimuthDeg: 10, elevationDeg: 25 },
  ceiling: { azimuthDeg: 0, elevationDeg: 78 },
};

const rad = (deg: number) => (deg * Math.PI) / 180;

/** Unit vector from the target to the eye, room axes. */
export function eyeDirection(azimuthDeg: number, elevationDeg: number): [number, number, number] {
  const [a, e] = [rad(azimuthDeg), rad(elevationDeg)];
  return [Math.sin(a) * Math.cos(e), -Math.cos(a) * Math.cos(e), Math.sin(e)];
}

/** Room axes (x right, y back, z up) to three's (x right, y up, z towards the viewer). */
export function toThree(x: number, y: number, z: number, out: Vector3): Vector3 {
  return out.set(x, z, -y);
}

/** Free margins of the stage that labels and the page's words keep, as shares of width and height. */
export interface Margins {
  left: number;
  right: number;
  top: number;
  bottom: number;
}

/** Values: `look` for the corner, where the room takes two thirds of the width and its labels the rest. The others keep the
 *  page's question (above left) and choices (below left) off the room. */
export const STAGE_MARGINS: Record<StationId, Margins> = {
  corner: { left: 0.15, right: 0.185, top: 0.12, bottom: 0.045 },
  door: { left: 0.15, right: 0.175, top: 0.13, bottom: 0.05 },
  desk: { left: 0.1, right: 0.175, top: 0.19, bottom: 0.14 },
  ceiling: { left: 0.35, right: 0.175, top: 0.16, bottom: 0.05 },
};

/** On a stage narrower than this, px, the outputs stand in the sheet and the page's words above and below. */
const SMALL_STAGE_PX = 800;
/** Heights of the page's question above and choices below, px. Assumed: two lines of question. */
const WORDS_PX = { above: 122, aboveOnPhone: 165, below: 98 };
/** Under this width the page's top words take a second line, px. */
const PHONE_PX = 500;
/** Height of the sun's arc at the top of the working stage, px. */
const ARC_PX = 88;

/** A stage lower than this has no room for the legend under the model, px. Source: where its words go narrow as well. */
const LOW_STAGE_PX = 600;
/** Shares that a model beside its legend keeps at its sides, on a low stage and on one that is narrow too. */
const BESIDE_LEGEND = { low: { left: 0.22, right: 0.18 }, narrow: { left: 0.31, right: 0 } };

/**
 * The usual margins, or those of a small stage: the page's words keep their size there, so they take a larger share.
 * `legend`: something lies on the floor, and its words stand at the left.
 */
export function marginsFor(station: StationId, widthPx: number, heightPx: number, legend = false): Margins {
  const beside = legend && heightPx < LOW_STAGE_PX;
  if (widthPx >= SMALL_STAGE_PX) {
    const usual = STAGE_MARGINS[station];
    const sides = beside && usual.left < BESIDE_LEGEND.low.left ? BESIDE_LEGEND.low : {};
    return { ...usual, ...sides, top: Math.max(usual.top, ARC_PX / Math.max(heightPx, ARC_PX * 4)) };
  }
  const above = widthPx < PHONE_PX ? WORDS_PX.aboveOnPhone : WORDS_PX.above;
  const share = (px: number, most: number) => Math.min(px / Math.max(heightPx, 1), most);
  const sides = beside && widthPx >= PHONE_PX ? BESIDE_LEGEND.narrow : { left: 0.04, right: 0.04 };
  return { ...sides, top: share(above, 0.36), bottom: share(WORDS_PX.below, 0.26) };
}

/** Corners of what must be seen: board below, ceiling outline above. */
function outlineCorners(room: RoomSpec): Vector3[] {
  const { min, max } = boardBounds(room);
  const low = -0.28;
  const corners: Vector3[] = [];
  for (const x of [min[0], max[0]]) for (const y of [min[1], max[1]]) corners.push(toThree(x, y, low, new Vector3()));
  for (const x of [0, room.widthM]) {
    for (const y of [0, room.depthM])
      corners.push(toThree(x, y, y === 0 && x > 0 ? 0.42 : room.heightM, new Vector3()));
  }
  return corners;
}

export function placeCamera(camera: PerspectiveCamera, eye: Eye): void {
  const d = eyeDirection(eye.azimuthDeg, eye.elevationDeg);
  const [x, y, z] = eye.targetM;
  toThree(x + d[0] * eye.distanceM, y + d[1] * eye.distanceM, z + d[2] * eye.distanceM, camera.position);
  camera.up.set(0, 1, 0);
  camera.lookAt(toThree(x, y, z, new Vector3()));
  camera.near = Math.max(1, eye.distanceM - 25);
  camera.far = eye.distanceM + 40;
  camera.updateMatrixWorld();
}

/** The eye of a station such that the room fits between the margins; the frustum is shifted, not the horizon. */
export function stationEye(
  room: RoomSpec,
  station: StationId,
  aspect: number,
  margins: Margins,
): { eye: Eye; shift: [number, number] } {
  const s = STATIONS[station];
  const targetM: Eye['targetM'] = [room.widthM / 2, room.depthM / 2, room.heightM * 0.3];
  const probe = new PerspectiveCamera(FIELD_OF_VIEW_DEG, aspect, 1, 200);
  const corners = outlineCorners(room);
  let distanceM = 34;
  let box = { x0: -1, x1: 1, y0: -1, y1: 1 };
  for (let round = 0; round < 6; round++) {
    placeCamera(probe, { azimuthDeg: s.azimuthDeg, elevationDeg: s.elevationDeg, targetM, distanceM });
    probe.updateProjectionMatrix();
    box = { x0: Infinity, x1: -Infinity, y0: Infinity, y1: -Infinity };
    for (const corner of corners) {
      const p = corner.clone().project(probe);
      box.x0 = Math.min(box.x0, p.x);
      box.x1 = Math.max(box.x1, p.x);
      box.y0 = Math.min(box.y0, p.y);
      box.y1 = Math.max(box.y1, p.y);
    }
    const wide = (box.x1 - box.x0) / (2 * (1 - margins.left - margins.right));
    const high = (box.y1 - box.y0) / (2 * (1 - margins.top - margins.bottom));
    distanceM *= Math.max(wide, high);
  }
  const centreX = (box.x0 + box.x1) / 2;
  const centreY = (box.y0 + box.y1) / 2;
  const wantX = margins.left - margins.right;
  const wantY = margins.bottom - margins.top;
  return {
    eye: { azimuthDeg: s.azimuthDeg, elevationDeg: s.elevationDeg, targetM, distanceM },
    shift: [wantX - centreX, wantY - centreY],
  };
}

/** Moves the picture on the stage by shares of half its size, without turning the camera. */
export function shiftFrustum(camera: PerspectiveCamera, shift: [number, number]): void {
  camera.updateProjectionMatrix();
  camera.projectionMatrix.elements[8] = -shift[0];
  camera.projectionMatrix.elements[9] = -shift[1];
  camera.projectionMatrixInverse.copy(camera.projectionMatrix).invert();
}

export function blendEyes(a: Eye, b: Eye, share: number): Eye {
  const mix = (p: number, q: number) => p + (q - p) * share;
  return {
    azimuthDeg: mix(a.azimuthDeg, b.azimuthDeg),
    elevationDeg: mix(a.elevationDeg, b.elevationDeg),
    targetM: [mix(a.targetM[0], b.targetM[0]), mix(a.targetM[1], b.targetM[1]), mix(a.targetM[2], b.targetM[2])],
    distanceM: mix(a.distanceM, b.distanceM),
  };
}

/** Ease in and out. */
export function eased(share: number): number {
  return share * share * (3 - 2 * share);
}
