/** Parts of the strip that are there whatever its rows show: axis, now-flag, what is still to come, names of the rows. */
import type { OutputId } from '../../../engine/types.ts';
import { axisStepS, SIGNAL_WORD_PX } from '../../../report/stripLayout.ts';
import { en } from '../../../report/text/en.ts';
import { clockAt } from '../../../report/text/format.ts';
import { outputName } from '../../../report/text/names.ts';
import { useApp } from '../../state/store.ts';
import styles from './Recorder.module.css';
import type { StripView } from './view.ts';

export const OUTPUTS: readonly OutputId[] = ['innerRow', 'windowRow', 'airContact'];

export function Axis({ view }: { view: StripView }) {
  const { start } = view.scenario;
  const stepS = axisStepS((view.toTick - view.fromTick) / 10, view.widthPx, view.widthPx < 900 ? 80 : 130);
  const [h = 0, m = 0] = start.localTime.split(':').map(Number);
  const startS = h * 3600 + m * 60;
  const firstS = Math.ceil((startS + view.fromTick / 10) / (stepS / 2)) * (stepS / 2) - startS;
  const lines = [];
  for (let s = firstS; s * 10 <= view.toTick; s += stepS / 2) {
    const x = view.xOf(s * 10);
    const full = (s + startS) % stepS === 0;
    lines.push(
      <g key={s}>
        <path d={`M${x.toFixed(1)} ${view.layout.axisPx}V${view.layout.bottomPx}`} className={styles.grid} />
        {full && x > 18 && x < view.widthPx - 18 && (
          <text x={x} y={20} textAnchor="middle" className={styles.axisText}>
            {stepS < 60 ? clockAt(s * 10, start) : clockAt(s * 10, start).slice(0, 5)}
          </text>
        )}
      </g>,
    );
  }
  return <g>{lines}</g>;
}

export function NowFlag({ view }: { view: StripView }) {
  const x = view.xOf(view.shownTick);
  const past = view.shownTick < view.headTick && !view.running;
  const { axisPx, bottomPx } = view.layout;
  const flagX = Math.min(Math.max(x, 34), view.widthPx - 34);
  return (
    <g>
      {view.headTick > view.shownTick && (
        <path d={`M${view.xOf(view.headTick)} ${axisPx}V${bottomPx}`} className={styles.headLine} />
      )}
      <path d={`M${x} ${axisPx - 8}V${bottomPx}`} className={styles.nowLine} />
      <path
        d={`M${flagX - 34} 4h68v22H${Math.min(x + 8, flagX + 34)}L${x} 34L${Math.max(x - 8, flagX - 34)} 26H${flagX - 34}z`}
        className={past ? styles.pastFlag : styles.nowFlag}
      />
      <text x={flagX} y={20} textAnchor="middle" className={styles.flagText}>
        {past ? en.recorder.past : en.recorder.now}
      </text>
    </g>
  );
}

/** What has not happened yet lies on grey. */
export function Future({ view }: { view: StripView }) {
  const x = Math.max(0, view.xOf(view.headTick));
  if (x >= view.widthPx) return null;
  const { axisPx, bottomPx } = view.layout;
  return <rect x={x} y={axisPx} width={view.widthPx - x} height={bottomPx - axisPx} className={styles.future} />;
}

/** Middle of two lines of names below the middle of a word that acts, px. Assumed: half of each and the bar under the word. */
const TWO_LINES_BELOW_PX = 31;

/** Names of the rows while the strip shows what was decided; the heat signal's name is a button, see Recorder. */
export function RowLabels({ view }: { view: StripView }) {
  const { seen, signal, estimate, bands } = view.layout;
  const lecture = useApp((s) => s.lecture !== null);
  // Where the strip is low the heat signal's word stands above these two lines.
  const clearPx = signal || lecture ? 0 : seen.bottomPx + SIGNAL_WORD_PX + TWO_LINES_BELOW_PX;
  return (
    <>
      <span style={{ top: Math.max(clearPx, (estimate.topPx + estimate.bottomPx) / 2) }}>
        {en.recorder.estimate[0]}
        <br />
        {en.recorder.estimate[1]}
      </span>
      {OUTPUTS.map((output, i) => (
        <span
          key={output}
          data-channel={output}
          style={{ top: bands[i]!.topPx + bands[i]!.heightPx / 2 }}
          className={styles.bandLabel}
        >
          {outputName[output]}
        </span>
      ))}
    </>
  );
}
