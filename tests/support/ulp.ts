/** Distance of a double from a decimal reference, in units in the last place, by whole-number arithmetic. */

/** A double as m x 2^e, exactly; e is the exponent of its last place. */
function parts(x: number): { m: bigint; e: number } {
  const view = new DataView(new ArrayBuffer(8));
  view.setFloat64(0, x);
  const bits = view.getBigUint64(0);
  const exponent = Number((bits >> 52n) & 0x7ffn);
  const fraction = bits & 0xfffffffffffffn;
  const m = exponent === 0 ? fraction : fraction | 0x10000000000000n;
  return { m: x < 0 ? -m : m, e: (exponent === 0 ? 1 : exponent) - 1075 };
}

/** Thousandths of an ulp are resolved. */
const RESOLUTION = 1000n;

/** |got - reference| in ulps of `got`; `reference` is written d.ddd…e±x. Infinity when `got` is not finite. */
export function ulpError(got: number, reference: string): number {
  if (!Number.isFinite(got)) return Number.POSITIVE_INFINITY;
  const match = /^(-?)(\d)\.(\d+)e(-?\d+)$/.exec(reference);
  if (!match) throw new Error(`not a reference value: ${reference}`);
  const digits = BigInt(match[2]! + match[3]!) * (match[1] === '-' ? -1n : 1n);
  const power = Number(match[4]) - match[3]!.length;
  const { m, e } = parts(got);
  // reference / 2^e = digits x 10^power / 2^e, brought to one fraction.
  let top = digits * RESOLUTION;
  let bottom = 1n;
  if (power >= 0) top *= 10n ** BigInt(power);
  else bottom *= 10n ** BigInt(-power);
  if (e >= 0) bottom <<= BigInt(e);
  else top <<= BigInt(-e);
  return Math.abs(Number((m * RESOLUTION * bottom - top) / bottom)) / Number(RESOLUTION);
}
