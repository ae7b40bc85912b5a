/** Prepares the sun's direct patch for the shader: which windows it enters by, with which lux, past which boxes. */

import { glazingRatio } from '../../../engine/light/glass.ts';
import type { Box } from '../../../engine/room/boxes.ts';
import type { RoomSpec, Vector3, WindowSpec } from '../../../engine/types.ts';
import { degToRad } from '../../../engine/units.ts';
import { meets } from '../boxRay.ts';
import { MAX_SUN_BOXES, MAX_SUN_WINDOWS } from './shader.ts';
import type { RoomUniforms } from './uniforms.ts';

/** Towards the sun, room axes. Bearing clockwise from +y. */
export function sunDirection(altitudeDeg: number, bearingDeg: number): Vector3 {
  const a = degToRad(altitudeDeg);
  const b = degToRad(bearingDeg);
  return [Math.sin(b) * Math.cos(a), Math.cos(b) * Math.cos(a), Math.sin(a)];
}

function outward(w: WindowSpec): Vector3 {
  switch (w.wall) {
    case 'back':
      return [0, 1, 0];
    case 'front':
      return [0, -1, 0];
    case 'left':
      return [-1, 0, 0];
    case 'right':
      return [1, 0, 0];
  }
}

/** Height above which a blind leaves the glass open is `headM` minus what it covers. */
function openHeadM(w: WindowSpec, closedShare: number): number {
  return w.headM - (w.headM - w.sillM) * closedShare;
}

/** Writes direction, windows and their lux (normal to the ray, inside). No direct sun: no windows. */
export function aimSun(
  u: RoomUniforms,
  room: RoomSpec,
  blinds: readonly { windowId: string; closedShare: number }[],
  sun: { altitudeDeg: number; bearingDeg: number; directNormalLx: number },
): void {
  const s = sunDirection(sun.altitudeDeg, sun.bearingDeg);
  u.uSun.value.set(...s);
  let count = 0;
  if (sun.altitudeDeg > 0 && sun.directNormalLx > 1) {
    for (const w of room.windows) {
      const n = outward(w);
      const facing = n[0] * s[0] + n[1] * s[1];
      if (facing < 0.01 || count >= MAX_SUN_WINDOWS) continue;
      const alongX = w.wall === 'back' || w.wall === 'front';
      const inner = w.wall === 'back' ? room.depthM : w.wall === 'right' ? room.widthM : 0;
      const outer = inner + (alongX ? n[1] : n[0]) * w.revealM;
      const closed = blinds.find((b) => b.windowId === w.id)?.closedShare ?? 0;
      const head = openHeadM(w, closed);
      if (head - w.sillM < 0.01) continue;
      const lux = sun.directNormalLx * w.transmittance * glazingRatio(facing) * w.frameFactor * w.dirtFactor;
      u.uWinRect.value[count]!.set(w.fromM, w.fromM + w.widthM, w.sillM, head);
      u.uWinGlassHead.value[count] = w.headM;
      u.uWinPlane.value[count]!.set(alongX ? 1 : 0, inner, outer, lux);
      count++;
    }
  }
  u.uSunWindows.value = count;
}

/** Boxes that cast edges; glass lets the sun through. `numbers` maps a furniture id to its number on the mesh. */
export function placeSunBoxes(u: RoomUniforms, boxes: readonly Box[], numbers: ReadonlyMap<string, number>): void {
  const solid = boxes.filter((b) => !b.glass).slice(0, MAX_SUN_BOXES);
  solid.forEach((b, i) => {
    const number = numbers.get(b.furnitureId) ?? -9;
    u.uBoxMin.value[i]!.set(...b.minM, number);
    u.uBoxMax.value[i]!.set(...b.maxM, number);
  });
  u.uSunBoxes.value = solid.length;
}

/** Lux that the sun throws on level surfaces where it enters: one number for each kind of glass. */
export function sunOnLevelLx(u: RoomUniforms): number[] {
  const lux = u.uWinPlane.value.slice(0, u.uSunWindows.value).map((plane) => Math.round(plane.w * u.uSun.value.z));
  return [...new Set(lux)].filter((lx) => lx > 0);
}

/** Whether the sun's patch covers a point of the level surface numbered `own` (-1 the floor): the shader's test, hard edges. */
export function inSunPatch(u: RoomUniforms, [x, y, z]: Vector3, own: number): boolean {
  const sun = u.uSun.value;
  const ray = (t: number): Vector3 => [x + sun.x * t, y + sun.y * t, z + sun.z * t];
  const enters = u.uWinRect.value.slice(0, u.uSunWindows.value).some((rect, i) => {
    const plane = u.uWinPlane.value[i]!;
    const alongX = plane.x > 0.5;
    return [plane.y, plane.z].every((at, k) => {
      const t = (at - (alongX ? y : x)) / (alongX ? sun.y : sun.x);
      const hit = ray(t);
      const across = alongX ? hit[0] : hit[1];
      const headM = k === 0 ? rect.w : u.uWinGlassHead.value[i]!;
      return t > 0 && across > rect.x && across < rect.y && hit[2] > rect.z && hit[2] < headM;
    });
  });
  if (!enters) return false;
  return !u.uBoxMin.value.slice(0, u.uSunBoxes.value).some((min, i) => {
    const solid = {
      minM: min.toArray().slice(0, 3) as Vector3,
      maxM: u.uBoxMax.value[i]!.toArray().slice(0, 3) as Vector3,
    };
    return min.w !== own && meets(solid, [x, y, z], sun.toArray());
  });
}
