/** Timing for the benchmarks: every figure is also given as a ratio to one calibration loop measured in the same run. */

export interface Figure {
  name: string;
  value: number;
  unit: string;
  /** value / the same figure's calibration; machine-independent to about a third. Null: no time. */
  ratio: number | null;
}

const now = () => performance.now();

/** Median of `runs` timings of `work`, ms, after one run that is not counted. */
export function medianMs(work: () => void, runs = 5): number {
  work();
  const times = Array.from({ length: runs }, () => {
    const start = now();
    work();
    return now() - start;
  });
  times.sort((a, b) => a - b);
  return times[Math.floor(runs / 2)]!;
}

/** A fixed amount of plain arithmetic (multiply, add, divide, root over a small array); its time is the yardstick, ms. */
export function calibrationMs(): number {
  const values = new Float64Array(1024).fill(1.5);
  return medianMs(() => {
    for (let round = 0; round < 2000; round++) {
      for (let i = 0; i < 1024; i++) values[i] = Math.sqrt(values[i]! * 1.0001 + 1 / (1 + i));
    }
    if (values[0] === 0) throw new Error('unreachable, keeps the loop');
  });
}

/** How many of `perRun` things are done in a second, with its ratio: things done in one calibration time. */
export function rate(name: string, unit: string, perRun: number, ms: number, yardstickMs: number): Figure {
  return { name, value: (perRun / ms) * 1000, unit, ratio: (perRun / ms) * yardstickMs };
}

/** A duration, with its ratio in calibration times. */
export function duration(name: string, ms: number, yardstickMs: number): Figure {
  return { name, value: ms, unit: 'ms', ratio: ms / yardstickMs };
}

/** How many times as long the plain way takes as ours. */
export function times(name: string, plainMs: number, oursMs: number): Figure {
  return { name, value: plainMs / oursMs, unit: 'times', ratio: plainMs / oursMs };
}

export function table(figures: Figure[]): string {
  const rows = figures.map(
    (f) => `| ${f.name} | ${round(f.value)} ${f.unit} | ${f.ratio === null ? '' : round(f.ratio)} |`,
  );
  return ['| Figure | Measured | Ratio to calibration |', '| --- | ---: | ---: |', ...rows].join('\n');
}

function round(value: number): string {
  if (value >= 1000) return Math.round(value).toLocaleString('en');
  return value >= 10 ? value.toFixed(1) : value.toPrecision(2);
}
