/** Closed rooms whose light is known without tracing: a furnace lit evenly, and a lamp in the middle of a cube. */
import { type LitScene, lampsElementLx, lightUp, meanLx, reflectedElementLx } from '../../src/engine/light/balance.ts';
import { closedBox } from '../../src/engine/light/invariants.ts';
import { interreflection } from '../../src/engine/light/parts.ts';
import { checkTable } from './lightTable.ts';

const DIRECT_LX = 100;
const SIDE_M = 4;
const FLUX_LM = 10_000;

const furnaceRoom = lightUp(closedBox([5, 4, 2.8], 0, 0));
const cubeRoom = lightUp(closedBox([SIDE_M, SIDE_M, SIDE_M], 0, FLUX_LM));

/** The same room in another paint: reflectance is no part of the geometry. */
function painted(lit: LitScene, reflectance: number): LitScene {
  const scene = closedBox(lit.scene.sizeM, reflectance, 0);
  return { ...lit, scene, inter: interreflection(lit.geometry, scene) };
}

/** Reflected lux of the element that is furthest off when every surface gets DIRECT_LX. */
function furnaceLx(reflectance: number): number {
  const lit = painted(furnaceRoom, reflectance);
  const reflected = reflectedElementLx(lit, new Float64Array(lit.geometry.mesh.count).fill(DIRECT_LX));
  const expected = (DIRECT_LX * reflectance) / (1 - reflectance);
  return reflected.reduce((far, lx) => (Math.abs(lx - expected) > Math.abs(far - expected) ? lx : far), expected);
}

/** Lux of a point lamp, even in all directions, in the middle of the cube. */
function middleLampLx(): Float64Array {
  const { mesh } = cubeRoom.geometry;
  const half = SIDE_M / 2;
  const candela = FLUX_LM / (4 * Math.PI);
  return Float64Array.from({ length: mesh.count }, (_, e) => {
    const [x, y, z] = [0, 1, 2].map((k) => mesh.centre[3 * e + k]! - half) as [number, number, number];
    // Each wall stands half a side away, so the cosine is half a side over the distance.
    return (candela * half) / Math.hypot(x, y, z) ** 3;
  });
}

/** Mean reflected lux of the cube's walls. */
function cubeReflectedLx(reflectance: number): number {
  const lit = painted(cubeRoom, reflectance);
  return meanLx(lit, reflectedElementLx(lit, middleLampLx()));
}

/** Mean lux of everything when the lamp hangs at the ceiling instead. */
function ceilingLampLx(reflectance: number): number {
  const lit = painted(cubeRoom, reflectance);
  const direct = lampsElementLx(lit);
  return meanLx(lit, direct) + meanLx(lit, reflectedElementLx(lit, direct));
}

const SERIES = 'sum of the bounces, E rho / (1 - rho)';
const SPHERE = 'integrating sphere, flux / area x rho / (1 - rho)';
const BALANCE = 'energy balance, flux / (area (1 - rho))';
const ROUNDING = 'rounding; shares of a patch are made to add up to one';
const MIDPOINT = 'one point stands for an element';

// biome-ignore format: a table
checkTable('closed cavities', [
  ['furnace, rho .2', () => furnaceLx(0.2), 25, 1e-6, SERIES, ROUNDING],
  ['furnace, rho .5', () => furnaceLx(0.5), 100, 1e-6, SERIES, ROUNDING],
  ['furnace, rho .8', () => furnaceLx(0.8), 400, 1e-6, SERIES, ROUNDING],
  ['furnace, rho .9', () => furnaceLx(0.9), 900, 1e-6, SERIES, ROUNDING],
  ['cube, lamp in the middle, rho .05', () => cubeReflectedLx(0.05), 5.48246, 1e-3, SPHERE, MIDPOINT],
  ['cube, lamp in the middle, rho .2', () => cubeReflectedLx(0.2), 26.0417, 1e-3, SPHERE, MIDPOINT],
  ['cube, lamp in the middle, rho .5', () => cubeReflectedLx(0.5), 104.167, 1e-3, SPHERE, MIDPOINT],
  ['cube, lamp in the middle, rho .8', () => cubeReflectedLx(0.8), 416.667, 1e-3, SPHERE, MIDPOINT],
  ['cube, lamp in the middle, rho .95', () => cubeReflectedLx(0.95), 1979.17, 1e-3, SPHERE, MIDPOINT],
  ['cube, lamp at the ceiling, rho .05', () => ceilingLampLx(0.05), 109.649, 2e-3, BALANCE, MIDPOINT],
  ['cube, lamp at the ceiling, rho .5', () => ceilingLampLx(0.5), 208.333, 2e-3, BALANCE, MIDPOINT],
  ['cube, lamp at the ceiling, rho .95', () => ceilingLampLx(0.95), 2083.33, 2e-3, BALANCE, MIDPOINT],
]);
