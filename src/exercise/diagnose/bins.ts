/** Outcome bins: readings of one bin tell nothing apart. Source of the widths: the product's own marking rule. */
import { log } from '../../engine/math.ts';

/** Lengths of time that dials and menus offer, s. Assumed: our own ladder; neighbours lie more than a tenth apart. */
const LADDER_S = [
  2, 5, 10, 25, 30, 60, 90, 120, 180, 240, 300, 360, 420, 480, 600, 720, 900, 1200, 1500, 1800, 2700, 3600,
];
/** A time within this share of a setting reads as that setting. Source: the product's own marking rule, 5 %. */
const TIME_SHARE = 0.05;
/** Lux within this factor are alike. Source: the product's own marking rule, 1.25. */
const LUX_FACTOR = 1.25;
/** Below this, lx, a meter shows darkness. Assumed: 1 lx, the last digit of a plain meter. */
const DARK_LX = 1;
/** Temperatures within this are alike, K. Assumed: 3 K, what a hand-held thermometer and a draughty room allow. */
const TEMPERATURE_STEP_K = 3;
/** Up to so many is a few. Assumed: more than five in some minutes is no accident. */
const A_FEW = 5;

export function timeBin(s: number): string {
  const near = LADDER_S.find((rung) => Math.abs(s - rung) <= TIME_SHARE * rung);
  if (near !== undefined) return `${near} s`;
  const below = LADDER_S.filter((rung) => rung < s).at(-1) ?? 0;
  const above = LADDER_S.find((rung) => rung > s);
  return `${below} to ${above ?? 'more'} s`;
}

export function luxBin(lx: number): string {
  return lx < DARK_LX ? 'dark' : `lux ${Math.round(log(lx) / log(LUX_FACTOR))}`;
}

export function temperatureBin(c: number): string {
  return `${Math.round(c / TEMPERATURE_STEP_K)}`;
}

export function countBin(n: number): string {
  if (n === 0) return 'none';
  return n <= A_FEW ? 'a few' : 'many';
}
