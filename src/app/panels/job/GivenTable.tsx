/** What is given, as tables: for whoever cannot see the strip. */
import type { Scenario } from '../../../engine/types.ts';
import type { Given } from '../../../exercise/predict/given.ts';
import type { PredictExercise } from '../../../exercise/types.ts';
import { en } from '../../../report/text/en.ts';
import { clockAt, luxText } from '../../../report/text/format.ts';
import { jobWords } from '../../../report/text/jobs.ts';

/** Pulses nearer than this belong to one stretch, s. Assumed: the shortest off-delay that matters is far longer. */
const GAP_S = 20;
/** Rows of the estimates. Assumed: a dozen instants tell a curve. */
const ROWS = 13;

export function stretchesOf(seenS: readonly number[]): { fromS: number; toS: number; pulses: number }[] {
  const out: { fromS: number; toS: number; pulses: number }[] = [];
  for (const s of seenS) {
    const last = out.at(-1);
    if (last && s - last.toS <= GAP_S) {
      last.toS = s;
      last.pulses++;
    } else out.push({ fromS: s, toS: s, pulses: 1 });
  }
  return out;
}

interface GivenTableProps {
  exercise: PredictExercise;
  given: Given;
  scenario: Scenario;
}

export function GivenTable({ exercise, given, scenario }: GivenTableProps) {
  const clock = (s: number): string => clockAt(Math.round(s * 10), scenario.start);
  const { fromS, toS } = exercise.predict;
  const samples = Array.from({ length: ROWS }, (_, i) => Math.floor(fromS + ((toS - fromS) * i) / (ROWS - 1)));
  return (
    <div className="visuallyHidden">
      <table aria-label={jobWords.givenPulses}>
        <thead>
          <tr>
            <th scope="col">{jobWords.firstPulse}</th>
            <th scope="col">{jobWords.lastPulse}</th>
            <th scope="col">{jobWords.pulses}</th>
          </tr>
        </thead>
        <tbody>
          {stretchesOf(given.seenS).map((stretch) => (
            <tr key={stretch.fromS}>
              <td>{clock(stretch.fromS)}</td>
              <td>{clock(stretch.toS)}</td>
              <td>{stretch.pulses}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <table aria-label={jobWords.givenEstimates}>
        <thead>
          <tr>
            <th scope="col">{en.recorder.tableTime}</th>
            <th scope="col">{en.words.inner}</th>
            <th scope="col">{en.words.window}</th>
          </tr>
        </thead>
        <tbody>
          {samples.map((s) => (
            <tr key={s}>
              <td>{clock(s)}</td>
              <td>{luxText(given.innerLx[s] ?? 0)}</td>
              <td>{luxText(given.windowLx[s] ?? 0)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
