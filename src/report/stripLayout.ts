/** Heights of the Recorder's rows for the room there is, px from the top of the drawing. */
export interface RecorderLayout {
  axisPx: number;
  seen: { topPx: number; bottomPx: number };
  /** Left out where the strip is low. */
  signal: { topPx: number; bottomPx: number } | null;
  estimate: { topPx: number; bottomPx: number };
  bands: { topPx: number; heightPx: number }[];
  bottomPx: number;
  /** Of the whole drawing. */
  heightPx: number;
}

/** Under this height the heat signal gives way. Assumed: rows lower than this cannot be told apart. */
const SIGNAL_FROM_PX = 262;

/** Under this height rows stand close: what is projected is drawn low and large. Assumed: never so low on one's own screen. */
const CLOSE_PX = 190;

function closeLayout(heightPx: number): RecorderLayout {
  const bottomPx = heightPx - 4;
  const [bandPx, gapPx] = [13, 6];
  const bandsTop = bottomPx - 3 * (bandPx + gapPx) + 4;
  const bands = [0, 1, 2].map((i) => ({ topPx: bandsTop + i * (bandPx + gapPx), heightPx: bandPx }));
  const seen = { topPx: 36, bottomPx: 50 };
  const estimate = { topPx: seen.bottomPx + 6, bottomPx: bandsTop - 8 };
  return { axisPx: 34, seen, signal: null, estimate, bands, bottomPx, heightPx };
}

export function recorderLayout(heightPx: number): RecorderLayout {
  if (heightPx < CLOSE_PX) return closeLayout(heightPx);
  const bottomPx = heightPx - 6;
  const bandPx = heightPx < SIGNAL_FROM_PX ? 13 : 16;
  const gapPx = heightPx < SIGNAL_FROM_PX ? 10 : 12;
  const bandsTop = bottomPx - 3 * (bandPx + gapPx) + 4;
  const bands = [0, 1, 2].map((i) => ({ topPx: bandsTop + i * (bandPx + gapPx), heightPx: bandPx }));
  const axisPx = 34;
  const seen = { topPx: axisPx + 8, bottomPx: axisPx + 28 };
  const signal = heightPx < SIGNAL_FROM_PX ? null : { topPx: seen.bottomPx + 10, bottomPx: seen.bottomPx + 44 };
  const estimate = { topPx: (signal ?? seen).bottomPx + 12, bottomPx: bandsTop - 14 };
  return { axisPx, seen, signal, estimate, bands, bottomPx, heightPx };
}

/** Rows of the signal close up: what was seen, a line of words, the four quadrants. */
export interface SignalLayout {
  seen: { topPx: number; bottomPx: number };
  /** Middle of the line of words. */
  wordsPx: number;
  traces: { topPx: number; bottomPx: number }[];
}

/** From the Seen row down to the middle of the word that opens the close up, px. Assumed: clear of both neighbours. */
export const SIGNAL_WORD_PX = 15;

export function signalLayout(heightPx: number): SignalLayout {
  const { seen, bottomPx } = recorderLayout(heightPx);
  const topPx = seen.bottomPx + 34;
  const pitchPx = (bottomPx - topPx) / 4;
  const traces = [0, 1, 2, 3].map((i) => ({ topPx: topPx + i * pitchPx, bottomPx: topPx + (i + 1) * pitchPx }));
  return { seen, wordsPx: seen.bottomPx + SIGNAL_WORD_PX, traces };
}

/** Distances between labels of the time axis, s. */
const AXIS_STEPS_S = [1, 2, 5, 10, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 10_800, 14_400] as const;

/** Label distance so that labels stand at least `leastPx` apart, s. */
export function axisStepS(spanS: number, widthPx: number, leastPx = 130): number {
  const wanted = (spanS * leastPx) / Math.max(1, widthPx);
  return AXIS_STEPS_S.find((step) => step >= wanted) ?? 21_600;
}

/** Where the now-line stands while the strip follows the run, share of the width. */
export const FOLLOW_SHARE = 0.77;

/** Left edge of the window, s: follows while running, stays while someone looks around, never loses the instant shown. */
export function windowFromS(lastFromS: number, spanS: number, shownS: number, running: boolean): number {
  const follow = Math.max(0, shownS - spanS * FOLLOW_SHARE);
  if (running) return follow;
  const outside = shownS < lastFromS || shownS > lastFromS + spanS * 0.99;
  return outside ? Math.max(0, shownS - spanS * 0.5) : lastFromS;
}
