/** Uniforms that all lit materials share: one object each, so that a write reaches every material. */
import { Color, type DataTexture, type IUniform, Vector3, Vector4 } from 'three';
import { wallOpening } from '../../../engine/room/openings.ts';
import type { RoomSpec, WallId } from '../../../engine/types.ts';
import type { AtlasSlot, FieldAtlas } from './fieldAtlas.ts';
import { atlasRows } from './fieldAtlas.ts';
import { MAX_SUN_BOXES, MAX_SUN_WINDOWS } from './shader.ts';
import { LIGHT_MAP_STOPS } from './stops.ts';
import { TOP_MAP_ID } from './viewField.ts';

/** Colour of each source on neutral ground. Values: `look`; chosen for the picture, luminance close to 1. */
export const TINT = {
  sky: new Vector3(0.98, 1, 1.04),
  twilight: new Vector3(0.78, 0.95, 1.5),
  sun: new Vector3(1.06, 1, 0.88),
  lamp: new Vector3(1.06, 1, 0.85),
  door: new Vector3(1.25, 0.97, 0.6),
};

function vectors(count: number): Vector4[] {
  return Array.from({ length: count }, () => new Vector4());
}

export type RoomUniforms = ReturnType<typeof createRoomUniforms>;

export function createRoomUniforms() {
  return {
    uAtlas: { value: null as DataTexture | null },
    uCubeS: { value: vectors(6) },
    uCubeT: { value: vectors(6) },
    uCubeMin: { value: new Vector3() },
    uCubeMax: { value: new Vector3() },
    /** 1 where the back, front, right, left wall has windows. */
    uGlazed: { value: new Vector4() },
    /** Middle of the first door's opening. */
    uDoorAt: { value: new Vector3(0, 0, 1) },
    uWeights: { value: new Vector4(1, 0, 0, 1) },
    uSkyTint: { value: TINT.sky.clone() },
    uLampTint: { value: TINT.lamp.clone() },
    uDoorTint: { value: TINT.door.clone() },
    uSunTint: { value: TINT.sun.clone() },
    uCorridorLx: { value: 0 },
    uOutsideTone: { value: new Vector3(1, 1, 1) },
    uExposure: { value: 0.46 },
    uGrey: { value: 0 },
    uSun: { value: new Vector3(0, 0, 1) },
    uSunWindows: { value: 0 },
    uWinRect: { value: vectors(MAX_SUN_WINDOWS) },
    uWinPlane: { value: vectors(MAX_SUN_WINDOWS) },
    uWinGlassHead: { value: new Array<number>(MAX_SUN_WINDOWS).fill(0) },
    uSunBoxes: { value: 0 },
    uBoxMin: { value: vectors(MAX_SUN_BOXES) },
    uBoxMax: { value: vectors(MAX_SUN_BOXES) },
    uMapOn: { value: 0 },
    /** 1: surfaces as plain card, whatever light falls on them. */
    uPlain: { value: 0 },
    /** 0: nothing is set. */
    uSetpointLx: { value: 0 },
    uStops: {
      value: LIGHT_MAP_STOPS.map((hex) => {
        const c = new Color().setStyle(hex, '');
        return new Vector3(c.r, c.g, c.b);
      }),
    },
  } satisfies Record<string, IUniform>;
}

/** Points the ambient cube at the room's faces and openings. A face that is missing leaves its side dark. */
export function pointCube(uniforms: RoomUniforms, atlas: FieldAtlas, room: RoomSpec): void {
  const { byKind } = atlas;
  const top = atlas.byFurniture.get(TOP_MAP_ID)?.[0] ?? byKind.floor;
  const sides: (AtlasSlot | undefined)[] = [top, byKind.ceiling, byKind.left, byKind.right, byKind.front, byKind.back];
  sides.forEach((slot, k) => {
    const rows = slot ? atlasRows(atlas, slot) : { s: [0, 0, 0, -1], t: [0, 0, 0, -1] };
    uniforms.uCubeS.value[k]!.fromArray(rows.s);
    uniforms.uCubeT.value[k]!.fromArray(rows.t);
  });
  uniforms.uCubeMin.value.set(0.02, 0.02, 0.02);
  uniforms.uCubeMax.value.set(room.widthM - 0.02, room.depthM - 0.02, room.heightM - 0.02);
  const glazed = (wall: WallId) => (room.windows.some((w) => w.wall === wall) ? 1 : 0);
  uniforms.uGlazed.value.set(glazed('back'), glazed('front'), glazed('right'), glazed('left'));
  const door = room.doors[0];
  if (!door) return;
  const { originM: o, uM: u, normal: n } = wallOpening(room, { ...door, sillM: 0 });
  uniforms.uDoorAt.value.set(o[0] + u[0] / 2 - n[0] * 0.3, o[1] + u[1] / 2 - n[1] * 0.3, door.headM / 2);
}
