/** What the learner is told will happen, made from what was done; every line can be changed or taken out. */
import type { Draft } from '../../../exercise/authoring/draft.ts';
import { authoringWords } from '../../../report/text/authoring.ts';
import ui from '../../panels/ui.module.css';
import { Stepper } from '../../panels/ui.tsx';
import { changeDraft, MOST_TOLD } from '../../state/authoring.ts';
import styles from './Author.module.css';

/** One press moves the time of a line by this, s. Assumed: as the ends of the strip move. */
const STEP_S = 10;

export function ToldLines({ draft, clock }: { draft: Draft; clock: (s: number) => string }) {
  const { told } = draft;
  const put = (i: number, change: Partial<Draft['told'][number]>): void =>
    changeDraft({ told: told.map((line, j) => (j === i ? { ...line, ...change } : line)) });
  return (
    <section aria-label={authoringWords.told}>
      <h3>{authoringWords.told}</h3>
      <p className={ui.note}>{authoringWords.toldNote}</p>
      <ol>
        {told.map((line, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: lines have no name but their place
          <li key={i} className={styles.told}>
            <Stepper
              label={`${authoringWords.toldLine(i + 1)}, ${authoringWords.toldTime}`}
              value={clock(line.atS)}
              less={() => put(i, { atS: Math.max(0, line.atS - STEP_S) })}
              more={() => put(i, { atS: line.atS + STEP_S })}
              canLess={line.atS > 0}
            />
            <input
              type="text"
              aria-label={authoringWords.toldLine(i + 1)}
              maxLength={80}
              value={line.say}
              onChange={(e) => put(i, { say: e.target.value })}
            />
            <button
              type="button"
              className={ui.word}
              aria-label={`${authoringWords.remove} ${authoringWords.toldLine(i + 1)}`}
              onClick={() => changeDraft({ told: told.filter((_, j) => j !== i) })}
            >
              <span>{authoringWords.remove}</span>
            </button>
          </li>
        ))}
      </ol>
      {told.length < MOST_TOLD && (
        <button
          type="button"
          className={ui.word}
          onClick={() => changeDraft({ told: [...told, { atS: draft.fromS, say: '' }] })}
        >
          <span>{authoringWords.addLine}</span>
        </button>
      )}
    </section>
  );
}
