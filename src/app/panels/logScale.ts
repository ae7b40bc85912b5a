/** A logarithmic scale, held at its ends: a positive value in `domain` to a place in `range`. */
export function logScale(
  domain: readonly [number, number],
  range: readonly [number, number],
): (value: number) => number {
  const [low, high] = domain;
  const [from, to] = range;
  const whole = Math.log(high / low);
  return (value) => {
    const share = Math.log(Math.min(high, Math.max(low, value)) / low) / whole;
    return from + (to - from) * share;
  };
}
