/** A room of a story as a scene of the light calculation. */
import { cos, sin } from '../math.ts';
import { roomBoxes } from '../room/boxes.ts';
import { wallOpening } from '../room/openings.ts';
import type { DetectorModel, DoorSpec, LuminaireSpec, RoomSpec, Setup, Site, Vector3, WindowSpec } from '../types.ts';
import { degToRad } from '../units.ts';
import type { LightScene, SceneLamp, SceneOpening, SceneSensor } from './scene.ts';

/** Diffuse reflectance of the room side of glass. Source: about 0.1 for two panes at all angles (Fresnel, hemispherical);
 *  0 would lose 1 to 2 % of the light of a room with large windows. */
export const GLASS_INSIDE_REFLECTANCE = 0.1;
/** Light leaving an open door per lux on the corridor floor. Assumed: 0.4, a light corridor seen through its opening;
 *  0.2 would halve what an open door adds. */
export const CORRIDOR_SHARE = 0.4;

type RoomSize = Pick<RoomSpec, 'widthM' | 'depthM'>;

function corners(room: RoomSize, o: Parameters<typeof wallOpening>[1]): { minM: Vector3; maxM: Vector3 } {
  const { originM, uM, vM } = wallOpening(room, o);
  return {
    minM: originM,
    maxM: [originM[0] + uM[0] + vM[0], originM[1] + uM[1] + vM[1], originM[2] + uM[2] + vM[2]],
  };
}

function windowOpening(room: RoomSize, w: WindowSpec): SceneOpening {
  return {
    id: w.id,
    face: w.wall,
    ...corners(room, w),
    kind: 'window',
    transmittance: w.transmittance * w.frameFactor * w.dirtFactor,
    glazed: true,
    insideReflectance: GLASS_INSIDE_REFLECTANCE,
    revealM: w.revealM,
    exitanceLx: 0,
  };
}

function doorOpening(room: RoomSize, d: DoorSpec): SceneOpening {
  return {
    id: d.id,
    face: d.wall,
    ...corners(room, { ...d, sillM: 0 }),
    kind: 'door',
    transmittance: 0,
    glazed: false,
    insideReflectance: 0,
    revealM: 0,
    exitanceLx: CORRIDOR_SHARE * d.corridorLx,
  };
}

function lamp(l: LuminaireSpec, maintenanceFactor: number): SceneLamp {
  const flux = l.fluxLm * maintenanceFactor;
  return {
    centreM: [l.atM[0], l.atM[1], l.heightM],
    sizeM: l.turnDeg === 0 ? [l.lengthM, l.widthM] : [l.widthM, l.lengthM],
    downLm: flux * (1 - l.upShare),
    upLm: flux * l.upShare,
    distribution: l.distribution,
  };
}

/** Photometers in the order of the readings: inner, window; then desk points in the room's order. */
export function sceneSensors(room: RoomSpec, mount: Setup['mount'], model: DetectorModel): SceneSensor[] {
  const tilt = degToRad(model.photometerTiltDeg);
  const bearing = degToRad(mount.turnDeg);
  const photometer = (id: string, side: 1 | -1): SceneSensor => ({
    id,
    positionM: [mount.atM[0], mount.atM[1], mount.heightM],
    normal: [side * sin(tilt) * sin(bearing), side * sin(tilt) * cos(bearing), -cos(tilt)],
    halfAngleDeg: model.photometerHalfAngleDeg,
  });
  return [
    photometer('photometer/inner', -1),
    photometer('photometer/window', 1),
    ...room.deskPoints.map(
      (d): SceneSensor => ({
        id: `desk/${d.id}`,
        positionM: [d.atM[0], d.atM[1], d.heightM],
        normal: [0, 0, 1],
        halfAngleDeg: null,
      }),
    ),
  ];
}

/** Lamp groups: inner row, window row. Glass screens are left out: they pass almost all light. */
export function roomScene(room: RoomSpec, site: Site, setup: Setup, model: DetectorModel): LightScene {
  const ofRow = (row: LuminaireSpec['row']) => (setup.luminaires ?? room.luminaires).filter((l) => l.row === row);
  return {
    sizeM: [room.widthM, room.depthM, room.heightM],
    reflectance: setup.reflectance,
    openings: [...room.windows.map((w) => windowOpening(room, w)), ...room.doors.map((d) => doorOpening(room, d))],
    boxes: roomBoxes(room, setup.furniture)
      .filter((box) => !box.glass)
      .map(({ minM, maxM, reflectance, furnitureId }) => ({ minM, maxM, reflectance, furnitureId })),
    lampGroups: [ofRow('inner'), ofRow('window')].map((row) => row.map((l) => lamp(l, room.maintenanceFactor))),
    sensors: sceneSensors(room, setup.mount, model),
    yBearingDeg: room.backWallFacesDeg,
    groundReflectance: site.groundReflectance,
    obstructionAltitudeDeg: site.obstructionAltitudeDeg,
    obstructionReflectance: site.obstructionReflectance,
  };
}
