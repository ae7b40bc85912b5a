/**
 * Makes tests/reference/math.json: values of the elementary functions to 60 digits, from their series in whole-number
 * arithmetic (1 500 binary places), so that nothing of the host's or the engine's maths takes part.
 * `npx tsx tests/support/makeMathReference.ts > tests/reference/math.json`
 * Its output was compared once with an independent program, see tests/reference/math.test.ts.
 */

const PLACES = 1500n;
const ONE = 1n << PLACES;
const DIGITS = 60;

/** A value n / 2^shift. */
interface Exact {
  n: bigint;
  shift: bigint;
}

/** A double as m x 2^e, exactly. */
function parts(x: number): { m: bigint; e: number } {
  const view = new DataView(new ArrayBuffer(8));
  view.setFloat64(0, x);
  const bits = view.getBigUint64(0);
  const exponent = Number((bits >> 52n) & 0x7ffn);
  const fraction = bits & 0xfffffffffffffn;
  const m = exponent === 0 ? fraction : fraction | 0x10000000000000n;
  return { m: x < 0 ? -m : m, e: (exponent === 0 ? 1 : exponent) - 1075 };
}

function fixed(x: number): bigint {
  const { m, e } = parts(x);
  const up = PLACES + BigInt(e);
  return up >= 0n ? m << up : m >> -up;
}

const multiply = (a: bigint, b: bigint) => (a * b) >> PLACES;
const divide = (a: bigint, b: bigint) => (a << PLACES) / b;
const magnitude = (a: bigint) => (a < 0n ? -a : a);

/** Whole-number root of degree 2 or 3, rounded down. */
function integerRoot(value: bigint, degree: 2n | 3n): bigint {
  if (value === 0n) return 0n;
  let guess = 1n << BigInt(Math.ceil(value.toString(2).length / Number(degree)) + 1);
  for (;;) {
    const next = ((degree - 1n) * guess + value / guess ** (degree - 1n)) / degree;
    if (next >= guess) return guess;
    guess = next;
  }
}
const root = (a: bigint) => integerRoot(a << PLACES, 2n);

/** t - t^3/3 + t^5/5 ... (sign -1) or with all signs plus (sign 1): atan and atanh of a small t. */
function oddSeries(t: bigint, sign: 1n | -1n): bigint {
  const t2 = multiply(t, t) * sign;
  let power = t;
  let sum = 0n;
  for (let k = 1n; power !== 0n && power !== -1n; k += 2n) {
    sum += power / k;
    power = multiply(power, t2);
  }
  return sum;
}

const PI = 16n * oddSeries(ONE / 5n, -1n) - 4n * oddSeries(ONE / 239n, -1n);
const LN2 = 2n * oddSeries(ONE / 3n, 1n);

function atanFixed(t: bigint): bigint {
  if (t < 0n) return -atanFixed(-t);
  if (t > ONE) return PI / 2n - atanFixed(divide(ONE, t));
  let small = t;
  for (let i = 0; i < 4; i++) small = divide(small, ONE + root(ONE + multiply(small, small)));
  return oddSeries(small, -1n) * 16n;
}

/** Sine and cosine of any double. */
function sineCosine(x: number): { s: bigint; c: bigint } {
  const value = fixed(x);
  const quarter = PI / 2n;
  const turns = (value + (value < 0n ? -quarter : quarter) / 2n) / quarter;
  const r = value - turns * quarter;
  let s = 0n;
  let c = 0n;
  let term = ONE;
  for (let k = 1n; term !== 0n && term !== -1n; k += 1n) {
    const even = k % 2n === 1n;
    const negative = ((k - 1n) / 2n) % 2n === 1n;
    if (even) c += negative ? -term : term;
    else s += negative ? -term : term;
    term = multiply(term, r) / k;
  }
  const phase = ((turns % 4n) + 4n) % 4n;
  if (phase === 0n) return { s, c };
  if (phase === 1n) return { s: c, c: -s };
  if (phase === 2n) return { s: -s, c: -c };
  return { s: -c, c: s };
}

function expExact(value: bigint): Exact {
  const k = value / LN2;
  const r = value - k * LN2;
  let sum = 0n;
  let term = ONE;
  for (let i = 1n; term !== 0n && term !== -1n; i += 1n) {
    sum += term;
    term = multiply(term, r) / i;
  }
  return { n: sum, shift: PLACES - k };
}

function lnFixed(x: number): bigint {
  const { m, e } = parts(x);
  const length = BigInt(m.toString(2).length);
  let mantissa = (m << PLACES) >> length;
  let exponent = BigInt(e) + length;
  if (mantissa < (ONE * 3n) / 4n) {
    mantissa *= 2n;
    exponent -= 1n;
  }
  return exponent * LN2 + 2n * oddSeries(divide(mantissa - ONE, mantissa + ONE), 1n);
}

function atan2Fixed(y: number, x: number): bigint {
  if (x === 0) return y > 0 ? PI / 2n : -PI / 2n;
  const slope = atanFixed(divide(fixed(y), fixed(x)));
  if (x > 0) return slope;
  return y >= 0 ? slope + PI : slope - PI;
}

const plain = (n: bigint): Exact => ({ n, shift: PLACES });

const FUNCTIONS: Record<string, (x: number, y: number) => Exact> = {
  sin: (x) => plain(sineCosine(x).s),
  cos: (x) => plain(sineCosine(x).c),
  tan: (x) => {
    const { s, c } = sineCosine(x);
    return plain(divide(s, c));
  },
  asin: (x) => plain(magnitude(fixed(x)) === ONE ? (x > 0 ? PI : -PI) / 2n : asinFixed(fixed(x))),
  acos: (x) => plain(x === -1 ? PI : 2n * atanFixed(root(divide(ONE - fixed(x), ONE + fixed(x))))),
  atan: (x) => plain(atanFixed(fixed(x))),
  atan2: (y, x) => plain(atan2Fixed(y, x)),
  exp: (x) => expExact(fixed(x)),
  log: (x) => plain(lnFixed(x)),
  pow: (x, y) => expExact(multiply(lnFixed(x), fixed(y))),
  cbrt: (x) => plain(x < 0 ? -integerRoot(fixed(-x) << (2n * PLACES), 3n) : integerRoot(fixed(x) << (2n * PLACES), 3n)),
};

function asinFixed(t: bigint): bigint {
  return atanFixed(divide(t, root(ONE - multiply(t, t))));
}

/** 60 significant digits, rounded, as d.ddd…e±x. */
function decimal({ n, shift }: Exact): string {
  if (n === 0n) return '0';
  const sign = n < 0n ? '-' : '';
  const top = magnitude(n) << (shift < 0n ? -shift : 0n);
  const bottom = shift > 0n ? shift : 0n;
  // First guess of the decimal exponent from the binary one, then corrected by looking at the digits.
  let exponent = Math.floor((top.toString(2).length - 1 - Number(bottom)) * 0.30103);
  for (;;) {
    const scale = DIGITS - 1 - exponent;
    const numerator = scale >= 0 ? top * 10n ** BigInt(scale) : top / 10n ** BigInt(-scale);
    const digits = ((numerator + (bottom > 0n ? 1n << (bottom - 1n) : 0n)) >> bottom).toString();
    if (digits.length === DIGITS) return `${sign}${digits[0]}.${digits.slice(1)}e${exponent}`;
    exponent += digits.length - DIGITS;
  }
}

/** Numbers spread over a range of magnitudes or a plain range; a fixed sequence (golden ratio), no dice. */
function spread(count: number, from: number, to: number): number[] {
  return Array.from({ length: count }, (_, i) => from + (to - from) * (((i + 1) * 0.6180339887498949) % 1));
}
const powersOfTen = (count: number, from: number, to: number) => spread(count, from, to).map((e) => 10 ** e);
const bothSigns = (values: number[]) => values.map((v, i) => (i % 2 === 0 ? v : -v));

const ANGLES = [
  ...[1e-300, 1e-20, 1e-9, 0.5, 1, 3, 22, 1e5, 355, 1e15, 1e22, 6381956970095103 * 2 ** 797, 1.7e308],
  ...[0.7853981633974483, 1.5707963267948966, Math.PI, 6.283185307179586],
  ...bothSigns(spread(24, 0, 7)),
  ...bothSigns(powersOfTen(8, 1, 300)),
];
const UNIT = [1e-300, 1e-8, 0.5, -0.5, 0.9999999999999999, -0.9999999999999999, 1, -1, ...spread(28, -1, 1)];
const PAIRS = [
  ...[
    [1, 1],
    [1, -1],
    [-1, -1],
    [-1, 1],
    [1e-300, 1],
    [1, 1e-300],
    [0.1, -1e300],
  ],
  ...spread(28, -5, 5).map((y, i) => [y, spread(28, 3, -4)[(i * 5) % 28]!]),
];
const POWERS = [
  ...[
    [2, 0.5],
    [10, -3],
    [10, 308],
    [1.0000000000000002, 1e15],
    [0.9999999999999999, 1e16],
    [0.1, 300],
    [9.6, -1.6364],
  ],
  ...spread(33, 0.01, 100).map((x, i) => [x, spread(33, -12, 12)[(i * 7) % 33]!]),
];

const ARGUMENTS: Record<string, number[][]> = {
  sin: ANGLES.map((x) => [x]),
  cos: ANGLES.map((x) => [x]),
  tan: ANGLES.map((x) => [x]),
  asin: UNIT.map((x) => [x]),
  acos: UNIT.filter((x) => x !== 1).map((x) => [x]),
  atan: [1e-300, 1e-8, 1, -1, 1e16, -1e300, ...bothSigns(powersOfTen(30, -3, 3))].map((x) => [x]),
  atan2: PAIRS,
  exp: [709.7, -700, 1e-300, 1e-17, 1, -1, ...spread(30, -40, 40), ...spread(8, -700, 700)].map((x) => [x]),
  log: [5e-324, 1e-300, 0.9999999999999999, 1.0000000000000002, 2, 1.7e308, ...powersOfTen(34, -5, 5)].map((x) => [x]),
  pow: POWERS,
  cbrt: [1e-300, 8, -27, 1e300, ...bothSigns(powersOfTen(32, -9, 9))].map((x) => [x]),
};

const rows = Object.entries(ARGUMENTS).flatMap(([name, list]) =>
  list.map((args) => ({ function: name, arguments: args, value: decimal(FUNCTIONS[name]!(args[0]!, args[1] ?? 0)) })),
);
console.log(`[\n${rows.map((row) => `  ${JSON.stringify(row)}`).join(',\n')}\n]`);
