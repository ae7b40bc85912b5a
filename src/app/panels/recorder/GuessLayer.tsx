/** Instants that a class named, as flags over the strip of a lecture; while one is being placed a tap sets it. */
import { clockAt } from '../../../report/text/format.ts';
import { lectureWords } from '../../../report/text/lecture.ts';
import { placeGuess, stepNow, useLecture } from '../../state/lecture/lecture.ts';
import styles from './GuessLayer.module.css';
import type { StripView } from './view.ts';

/** `zoom`: screen px for a px of the drawing. */
export function GuessLayer({ view, zoom }: { view: StripView; zoom: number }) {
  const guesses = useLecture((s) => stepNow(s)?.guesses ?? null);
  const placing = useLecture((s) => s.placing);
  const tap = (event: React.PointerEvent): void => {
    event.stopPropagation();
    const box = event.currentTarget.getBoundingClientRect();
    const share = (event.clientX - box.left) / box.width;
    if (placing !== null) placeGuess(placing, view.fromTick + share * (view.toTick - view.fromTick));
  };
  const { axisPx, bottomPx, heightPx } = view.layout;
  return (
    <>
      <svg
        width={view.widthPx * zoom}
        height={heightPx * zoom}
        viewBox={`0 0 ${view.widthPx} ${heightPx}`}
        aria-hidden="true"
        className={styles.marks}
      >
        {guesses?.map((tick, i) => {
          const x = tick === null ? -1 : view.xOf(tick);
          if (tick === null || x < 0 || x > view.widthPx) return null;
          return (
            // biome-ignore lint/suspicious/noArrayIndexKey: guesses do not change places
            <g key={i} data-guess={clockAt(tick, view.scenario.start)}>
              <path d={`M${x} ${axisPx}V${bottomPx}`} className={styles.line} />
              <circle cx={x} cy={axisPx + 12 + i * 3} r={11} className={styles.disc} />
              <text x={x} y={axisPx + 17 + i * 3} textAnchor="middle" className={styles.number}>
                {i + 1}
              </text>
            </g>
          );
        })}
      </svg>
      {placing !== null && (
        <div
          className={styles.tap}
          title={lectureWords.tapStrip(placing)}
          onPointerDown={(event) => event.stopPropagation()}
          onPointerUp={tap}
        />
      )}
    </>
  );
}
