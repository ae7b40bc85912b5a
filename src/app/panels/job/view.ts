/** Where things lie in the strip of the Prediction Card. */
import type { OutputId, Scenario } from '../../../engine/types.ts';
import type { PredictExercise } from '../../../exercise/types.ts';

export interface JobStripView {
  exercise: PredictExercise;
  scenario: Scenario;
  widthPx: number;
  fromS: number;
  toS: number;
  /** Left of this is the past. */
  nowS: number;
  axisPx: number;
  bottomPx: number;
  seen: { topPx: number; bottomPx: number };
  estimate: { topPx: number; bottomPx: number };
  bands: { output: OutputId; topPx: number; heightPx: number }[];
  xOf: (s: number) => number;
  sOf: (x: number) => number;
}

/** Share of the strip that shows the past. Assumed: enough to see how each output begins. */
const PAST_SHARE = 0.05;

/** Under this height bands stand closer. Assumed: else the estimates have no room. */
const LOW_PX = 260;

export function jobStripView(
  exercise: PredictExercise,
  scenario: Scenario,
  widthPx: number,
  heightPx: number,
): JobStripView {
  const { fromS: nowS, toS, outputs } = exercise.predict;
  const fromS = Math.max(0, nowS - (toS - nowS) * PAST_SHARE);
  const bottomPx = heightPx - 4;
  const bandPx = heightPx < LOW_PX ? 15 : 18;
  const pitchPx = heightPx < LOW_PX ? 31 : 36;
  const bandsTop = bottomPx - outputs.length * pitchPx + pitchPx - bandPx;
  const axisPx = 34;
  const seen = { topPx: axisPx + 6, bottomPx: axisPx + 24 };
  return {
    exercise,
    scenario,
    widthPx,
    fromS,
    toS,
    nowS,
    axisPx,
    bottomPx,
    seen,
    estimate: { topPx: seen.bottomPx + (heightPx < LOW_PX ? 12 : 26), bottomPx: bandsTop - 26 },
    bands: outputs.map((output, i) => ({ output, topPx: bandsTop + i * pitchPx, heightPx: bandPx })),
    xOf: (s) => ((s - fromS) / (toS - fromS)) * widthPx,
    sOf: (x) => fromS + (x / widthPx) * (toS - fromS),
  };
}
