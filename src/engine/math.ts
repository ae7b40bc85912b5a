/**
 * Every transcendental function of the engine comes from here. Host `Math.sin` and friends differ between engines and
 * versions; these are pure-JavaScript ports of the FreeBSD msun routines whose every step is an IEEE-754 add,
 * multiply, divide or square root, so one run gives one log everywhere.
 * Accuracy (under 1 ulp, pow under 2 ulp) is checked in tests/reference/math.test.ts against 60-digit values.
 */
import stdAcos from '@stdlib/math-base-special-acos';
import stdAsin from '@stdlib/math-base-special-asin';
import stdAtan from '@stdlib/math-base-special-atan';
import stdAtan2 from '@stdlib/math-base-special-atan2';
import stdCbrt from '@stdlib/math-base-special-cbrt';
import stdCos from '@stdlib/math-base-special-cos';
import stdExp from '@stdlib/math-base-special-exp';
import stdLn from '@stdlib/math-base-special-ln';
import stdPow from '@stdlib/math-base-special-pow';
import stdSin from '@stdlib/math-base-special-sin';
import stdTan from '@stdlib/math-base-special-tan';

/** Half a turn, rad. Source: IEEE-754 nearest to pi; a constant, so the host's own is the same everywhere. */
export const PI = Math.PI;

export const sin: (x: number) => number = stdSin;
export const cos: (x: number) => number = stdCos;
export const tan: (x: number) => number = stdTan;
export const asin: (x: number) => number = stdAsin;
export const acos: (x: number) => number = stdAcos;
export const atan: (x: number) => number = stdAtan;
export const atan2: (y: number, x: number) => number = stdAtan2;
export const exp: (x: number) => number = stdExp;
export const log: (x: number) => number = stdLn;
export const pow: (x: number, y: number) => number = stdPow;
export const cbrt: (x: number) => number = stdCbrt;

/** Correctly rounded by IEEE-754, so the host's own is the same everywhere. */
export const sqrt = Math.sqrt;

export function hypot2(x: number, y: number): number {
  return sqrt(x * x + y * y);
}

export function hypot3(x: number, y: number, z: number): number {
  return sqrt(x * x + y * y + z * z);
}

export function clamp(x: number, low: number, high: number): number {
  return Math.max(low, Math.min(high, x));
}

export function lerp(from: number, to: number, share: number): number {
  return from + (to - from) * share;
}
