/** What the hatching of the Warmth Map means. */
import { en } from '../../../report/text/en.ts';
import { warmthWords } from '../../../report/text/warmth.ts';
import { live } from '../../state/live.ts';
import { useShown } from '../../state/store.ts';
import { HATCH_LINE_PX, HATCH_STEPS } from '../../theme/hatch.ts';
import styles from './Warmth.module.css';

const BOX = { width: 42, height: 20 };

/** Drawn out rather than filled with a pattern: patterns belong to the plan and are not there in Room View. */
function Swatch({ gapPx, lean }: { gapPx: number; lean: 1 | -1 }) {
  const lines: string[] = [];
  const step = gapPx * Math.SQRT2;
  for (let x = -BOX.height; x < BOX.width + BOX.height; x += step) {
    lines.push(lean === 1 ? `M${x} ${BOX.height}l${BOX.height} ${-BOX.height}` : `M${x} 0l${BOX.height} ${BOX.height}`);
  }
  return <path d={lines.join('')} stroke="var(--ink)" strokeWidth={HATCH_LINE_PX} />;
}

export function WarmthLegend({ flat }: { flat: boolean }) {
  const roomC = useShown(() => live.warmth?.backgroundC ?? null, null);
  const outside = useShown(() => live.warmth?.outsideAirC ?? null, null);
  return (
    <div className={flat ? styles.legendFlat : styles.legend}>
      <p>
        <b>{en.stage.overlays.warmth}</b> {roomC !== null && warmthWords.legend(warmthWords.background(roomC))}
      </p>
      {/* biome-ignore lint/a11y/useSemanticElements: a row of figures */}
      <div className={styles.scale} role="group" aria-label={warmthWords.scale}>
        {HATCH_STEPS.map(({ fromK, gapPx }) => (
          <figure key={fromK}>
            <svg {...BOX} aria-hidden="true">
              <rect {...BOX} fill="#fff" />
              <Swatch gapPx={gapPx} lean={1} />
            </svg>
            <figcaption>{warmthWords.step(fromK)}</figcaption>
          </figure>
        ))}
      </div>
      <p>
        {warmthWords.leans}. {warmthWords.glass} {outside === null && warmthWords.noOutside}
      </p>
    </div>
  );
}
