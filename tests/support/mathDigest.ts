/** One number for all functions of engine/math.ts over a fixed set of arguments: the same in every host, or not. */
import { acos, asin, atan, atan2, cbrt, cos, exp, log, pow, sin, tan } from '../../src/engine/math.ts';

/** What every host must give: Node in tests/reference/math.test.ts, the page in the browser tests. */
export const MATH_DIGEST = '16ccc4e1b9750edd';

const ARGUMENTS = 2000;

/** FNV-1a, 64 bit, over the bytes of doubles, big end first. */
function digestOf(values: readonly number[]): string {
  const view = new DataView(new ArrayBuffer(8));
  let hash = 0xcbf29ce484222325n;
  for (const value of values) {
    view.setFloat64(0, value);
    for (let i = 0; i < 8; i++) {
      hash = BigInt.asUintN(64, (hash ^ BigInt(view.getUint8(i))) * 0x100000001b3n);
    }
  }
  return hash.toString(16).padStart(16, '0');
}

/** Arguments made by add, multiply and divide alone; no text is parsed and no host function asked. */
function* argumentsOf(): Generator<[share: number, other: number]> {
  let seed = 12345;
  const next = () => {
    seed = (Math.imul(seed, 1664525) + 1013904223) | 0;
    return (seed >>> 0) / 4294967296;
  };
  for (let i = 0; i < ARGUMENTS; i++) yield [next() * 2 - 1, next() * 2 - 1];
}

/** Digest of 11 functions at 2 000 arguments each (22 000 doubles), 16 hexadecimal digits. */
export function mathDigest(): string {
  const values: number[] = [];
  for (const [x, y] of argumentsOf()) {
    const positive = 1000 * (x + 1) + 1e-9;
    values.push(sin(100 * x), cos(100 * x), tan(100 * x), asin(x), acos(x), atan(50 * x), atan2(x, y));
    values.push(exp(80 * x), log(positive), pow(positive, 20 * y), cbrt(1e6 * x));
  }
  return digestOf(values);
}
