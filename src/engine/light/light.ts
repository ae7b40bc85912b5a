import type { DetectorModel, RoomSpec, Setup, Site, SkyCondition, Tick } from '../types.ts';
import type { LightField, LightState, LightTables, RoomLight, SkySample } from './types.ts';

/** Where and when, for sun and sky. `utcMs` is the sun's own instant. */
export interface SkyMoment {
  tick: Tick;
  utcMs: number;
  sky: SkyCondition;
  seed: number;
}

/** Pure function of its arguments; cached by the caller. */
export function buildLightTables(_room: RoomSpec, _site: Site, setup: Setup, _model: DetectorModel): LightTables {
  return { rowLx: { inner: setup.furniture.map(() => 0), window: [] } };
}

/** Sun, sky and the daylight of every sensor at one instant. */
export function sampleSky(_tables: LightTables, moment: SkyMoment, _setup: Setup): SkySample {
  return {
    tick: moment.tick,
    altitudeDeg: -10,
    azimuthDeg: 0,
    directNormalLx: 0,
    outsideHorizontalLx: 0,
    daylightLx: [],
  };
}

/** Readings and desk lux now: interpolated daylight plus lamps at their levels plus open doors. */
export function lightRoom(
  _tables: LightTables,
  _state: LightState,
  _tick: Tick,
  _lamps: { inner: number; window: number },
  _setup: Setup,
): RoomLight {
  return { readings: { innerLx: 0, windowLx: 0 }, deskLx: [] };
}

/** The whole field for the picture, at one instant. */
export function lightField(_tables: LightTables, _moment: SkyMoment, _setup: Setup): LightField {
  const none = new Float32Array(0);
  return { faces: [], daylightLx: none, innerRowLx: none, windowRowLx: none, doorLx: none };
}

/** Samples at two moments ten seconds of room time apart. */
export function createLightState(tables: LightTables, before: SkyMoment, after: SkyMoment, setup: Setup): LightState {
  return { before: sampleSky(tables, before, setup), after: sampleSky(tables, after, setup) };
}
