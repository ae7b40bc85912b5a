/**
 * Two hand formulas of daylight design as bands of sanity. They know a room by a few means only, so they can notice a
 * factor of two and never prove a per cent; whole rooms are proved in lightRooms.test.ts.
 */
import { type LitScene, lightUp } from '../../src/engine/light/balance.ts';
import { glazingDiffuseRatio } from '../../src/engine/light/glass.ts';
import { closedBox, daylightLx, trialOutside } from '../../src/engine/light/invariants.ts';
import { buildSensorPart, interreflection } from '../../src/engine/light/parts.ts';
import type { LightScene } from '../../src/engine/light/scene.ts';
import { checkTable } from './lightTable.ts';

/** An office under a free horizon, its three windows of clear single glass in the front wall; m. Assumed. */
const [WIDTH_M, DEPTH_M, HEIGHT_M] = [9, 6, 3];
const [SILL_M, HEAD_M] = [0.9, 2.4];
const WINDOWS_FROM_M = [0.6, 3.5, 6.4];
const WINDOW_M = 2;
const PLANE_M = 0.75;
/** For diffuse light. Source: clear single glass, as built into the split-flux formula, from memory. */
const DIFFUSE_TRANSMITTANCE = 0.85;
const GLASS_REFLECTANCE = 0.1;
/** Ground outside. Source: the split-flux formula has a tenth built in, from memory. */
const GROUND = 0.1;

interface Paint {
  ceiling: number;
  walls: number;
  floor: number;
}

/** The office with a grid of points on its working plane, the middles of cells of 2 x 1 m, half a metre off the walls. */
function office(paint: Paint): LightScene {
  const { ceiling, walls, floor } = paint;
  return {
    ...closedBox([WIDTH_M, DEPTH_M, HEIGHT_M], 0, 0),
    reflectance: { front: walls, back: walls, left: walls, right: walls, ceiling, floor },
    groundReflectance: GROUND,
    openings: WINDOWS_FROM_M.map((x) => ({
      id: `${x}`,
      face: 'front',
      minM: [x, 0, SILL_M],
      maxM: [x + WINDOW_M, 0, HEAD_M],
      kind: 'window',
      transmittance: DIFFUSE_TRANSMITTANCE / glazingDiffuseRatio(),
      glazed: true,
      insideReflectance: walls === 0 ? 0 : GLASS_REFLECTANCE,
      revealM: 0,
      exitanceLx: 0,
    })),
    sensors: Array.from({ length: 4 * 5 }, (_, k) => ({
      id: `${k}`,
      positionM: [1.5 + 2 * (k % 4), 1 + Math.floor(k / 4), PLANE_M],
      normal: [0, 0, 1],
      halfAngleDeg: null,
    })),
  };
}

const BLACK: Paint = { ceiling: 0, walls: 0, floor: 0 };
const black = lightUp(office(BLACK));

/** Reflectance is no part of the geometry, so all paints share one. */
function painted(paint: Paint): LitScene {
  const { geometry } = black;
  const scene = office(paint);
  const inter = interreflection(geometry, scene);
  return { geometry, scene, inter, sensors: scene.sensors.map((s) => buildSensorPart(geometry, scene, inter, s)) };
}

/** Mean over the working plane, per cent of the light of an overcast sky (type 1) outside. */
function meanPct(lit: LitScene): number {
  const lx = daylightLx(lit, trialOutside(1, 100, 0));
  return lx.reduce((sum, v) => sum + v, 0) / lx.length;
}

const daylightFactor = (paint: Paint) => meanPct(painted(paint));
/** Without what comes straight from the sky. */
const reflectedPct = (paint: Paint) => meanPct(painted(paint)) - meanPct(black);

const GLASS_M2 = WINDOWS_FROM_M.length * WINDOW_M * (HEAD_M - SILL_M);
const WALLS_M2 = 2 * (WIDTH_M + DEPTH_M) * HEIGHT_M;
const FLOOR_M2 = WIDTH_M * DEPTH_M;
const AREA_M2 = WALLS_M2 + 2 * FLOOR_M2;

function meanReflectance({ ceiling, walls, floor }: Paint): number {
  const wallPart = (WALLS_M2 - GLASS_M2) * walls + GLASS_M2 * GLASS_REFLECTANCE;
  return (wallPart + FLOOR_M2 * (ceiling + floor)) / AREA_M2;
}

/** Mean daylight factor, per cent: T W theta / (A (1 - R^2)), theta 90 degrees under a free horizon. */
function longmore(paint: Paint): number {
  const r = meanReflectance(paint);
  return (DIFFUSE_TRANSMITTANCE * GLASS_M2 * 90) / (AREA_M2 * (1 - r * r));
}

/** Internally reflected component, per cent: 0.85 W (39 Rfw + 5 Rcw) / (A (1 - R)); halves of the room at window middle,
 *  without the window's own wall. */
function splitFlux(paint: Paint): number {
  const middleM = (SILL_M + HEAD_M) / 2;
  const otherWallsM = WIDTH_M + 2 * DEPTH_M;
  const half = (plane: number, heightM: number) =>
    (FLOOR_M2 * plane + otherWallsM * heightM * paint.walls) / (FLOOR_M2 + otherWallsM * heightM);
  const lower = half(paint.floor, middleM);
  const upper = half(paint.ceiling, HEIGHT_M - middleM);
  return (DIFFUSE_TRANSMITTANCE * GLASS_M2 * (39 * lower + 5 * upper)) / (AREA_M2 * (1 - meanReflectance(paint)));
}

const ORDINARY: Paint = { ceiling: 0.7, walls: 0.5, floor: 0.2 };
const LIGHT: Paint = { ceiling: 0.85, walls: 0.7, floor: 0.3 };
const DARK: Paint = { ceiling: 0.5, walls: 0.3, floor: 0.1 };

/** Wide on purpose: the cause below is the formula's, not the engine's. */
const BAND = 0.25;
const BRE = 'Building Research Establishment, mean daylight factor, from memory';
const BRS = 'Building Research Station, split flux, coefficient 39, from memory';
const MEANS =
  'a band of sanity: the formula knows mean reflectances only, and the plane here leaves out half a metre by the walls';

// biome-ignore format: a table
checkTable('hand formulas, per cent of the light outside', [
  ['daylight factor, 70/50/20', () => daylightFactor(ORDINARY), longmore(ORDINARY), BAND, BRE, MEANS],
  ['daylight factor, 85/70/30', () => daylightFactor(LIGHT), longmore(LIGHT), BAND, BRE, MEANS],
  ['daylight factor, 50/30/10', () => daylightFactor(DARK), longmore(DARK), BAND, BRE, MEANS],
  ['reflected component, 70/50/20', () => reflectedPct(ORDINARY), splitFlux(ORDINARY), BAND, BRS, MEANS],
  ['reflected component, 85/70/30', () => reflectedPct(LIGHT), splitFlux(LIGHT), BAND, BRS, MEANS],
  ['reflected component, 50/30/10', () => reflectedPct(DARK), splitFlux(DARK), BAND, BRS, MEANS],
]);
