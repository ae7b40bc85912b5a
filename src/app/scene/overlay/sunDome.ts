/** The sun's ways on a dome over the room: true directions, a made-up distance. */
import type { SunPoint } from '../../../engine/light/sky/sunPath.ts';
import type { RoomSpec } from '../../../engine/types.ts';
import { shortestTurnDeg } from '../../../engine/units.ts';

/** Room left between the room's corners and the dome, m. Assumed: the ways then stand clear of the walls. */
const CLEAR_M = 0.6;

export interface Dome {
  centreM: [number, number, number];
  radiusM: number;
  /** True bearing of the room's +y axis, degrees. */
  turnDeg: number;
}

export function domeOf(room: RoomSpec): Dome {
  return {
    centreM: [room.widthM / 2, room.depthM / 2, 0],
    radiusM: Math.hypot(room.widthM, room.depthM) / 2 + CLEAR_M,
    turnDeg: room.backWallFacesDeg,
  };
}

/** A direction of the sky as a point of the dome, room axes. Bearings run clockwise from north. */
export function onDome(dome: Dome, altitudeDeg: number, azimuthDeg: number): [number, number, number] {
  const altitude = (altitudeDeg * Math.PI) / 180;
  const bearing = ((azimuthDeg - dome.turnDeg) * Math.PI) / 180;
  const [x, y, z] = dome.centreM;
  const flat = dome.radiusM * Math.cos(altitude);
  return [x + flat * Math.sin(bearing), y + flat * Math.cos(bearing), z + dome.radiusM * Math.sin(altitude)];
}

/** Stretches of a way above the horizon, as points of the dome; ends lie on the horizon. */
export function waysAbove(dome: Dome, points: readonly SunPoint[]): [number, number, number][][] {
  const ways: [number, number, number][][] = [];
  let way: [number, number, number][] | null = null;
  points.forEach((point, i) => {
    const before = points[i - 1];
    const up = point.altitudeDeg >= 0;
    if (before && up !== before.altitudeDeg >= 0) {
      const share = before.altitudeDeg / (before.altitudeDeg - point.altitudeDeg);
      const turn = shortestTurnDeg(before.azimuthDeg, point.azimuthDeg);
      const crossing = onDome(dome, 0, before.azimuthDeg + turn * share);
      if (up) way = [crossing];
      else way?.push(crossing);
    }
    if (up) {
      way ??= [];
      way.push(onDome(dome, point.altitudeDeg, point.azimuthDeg));
    } else if (way) {
      ways.push(way);
      way = null;
    }
  });
  if (way) ways.push(way);
  return ways.filter((points) => points.length > 1);
}
