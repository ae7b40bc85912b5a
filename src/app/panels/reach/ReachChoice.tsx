/** Which outlines are drawn, what they were computed for, and how far the work is. Beside the Sight Map and in the words. */
import { reachWords } from '../../../report/text/reach.ts';
import { toggleKind, useReach, useReachOpen } from '../../state/reach.ts';
import { DASHES } from '../../state/reachShape.ts';
import ui from '../ui.module.css';
import styles from './Reach.module.css';

const KINDS = ['across', 'toward', 'seated'] as const;
/** Width of the sample line, px. */
const SAMPLE_PX = 3;

/** The bar under a chosen word is the line that it stands for. */
function Sample({ kind }: { kind: (typeof KINDS)[number] }) {
  return (
    <svg width={62} height={6} aria-hidden="true" className={styles.sample}>
      <path d="M0 3h62" strokeDasharray={DASHES[kind].map((n) => n * SAMPLE_PX).join(' ')} strokeWidth={SAMPLE_PX} />
    </svg>
  );
}

/** What the lines on screen hold for, or how far the work is. */
export function ReachStatus() {
  const outlines = useReach((s) => s.outlines);
  const progress = useReach((s) => s.progress);
  const some = useReach((s) => s.kinds.length > 0 || s.laid !== null);
  const open = useReachOpen();
  if (!open) return <p>{reachWords.shut}</p>;
  if (!some) return <p data-hint>{reachWords.choose}</p>;
  return (
    <>
      {outlines && (
        <p data-stale={progress !== null} className={styles.status}>
          {reachWords.computedFor(
            outlines.mount.heightM,
            outlines.roomTemperatureC,
            outlines.speedMps,
            outlines.reduced,
          )}
        </p>
      )}
      {progress !== null && (
        <p>
          {outlines ? reachWords.outOfDate(progress) : reachWords.working(progress)}{' '}
          <progress className={styles.progress} value={progress} max={1} aria-label={reachWords.words} />
        </p>
      )}
    </>
  );
}

export function ReachChoice() {
  const kinds = useReach((s) => s.kinds);
  return (
    <div className={styles.choice}>
      {/* biome-ignore lint/a11y/useSemanticElements: laid out in one line */}
      <div role="group" aria-label={reachWords.group} className={styles.kinds}>
        {KINDS.map((kind) => (
          <button
            key={kind}
            type="button"
            className={`${ui.word} ${styles.kind}`}
            aria-pressed={kinds.includes(kind)}
            title={`${reachWords.kindSays[kind]}: ${reachWords.kindLine[kind]}`}
            onClick={() => toggleKind(kind)}
          >
            {reachWords.kinds[kind]}
            <Sample kind={kind} />
          </button>
        ))}
      </div>
      <ReachStatus />
    </div>
  );
}
