/** Guesses as marks on the strip: by a tap there, or here by minutes. */
import { TICKS_PER_S } from '../../../engine/units.ts';
import { clockAt } from '../../../report/text/format.ts';
import { lectureWords } from '../../../report/text/lecture.ts';
import { type LectureStep, moveGuess, setPlacing, useLecture } from '../../state/lecture/lecture.ts';
import { useApp } from '../../state/store.ts';
import styles from './Lecture.module.css';

const MINUTE = 60 * TICKS_PER_S;

export function GuessTools({ step }: { step: LectureStep }) {
  const placing = useLecture((s) => s.placing);
  const start = useApp((s) => s.scenario?.start ?? null);
  const chosen = placing ?? 0;
  const tick = step.guesses[chosen] ?? null;
  if (!start) return null;
  return (
    <div className={styles.guesses}>
      {step.options.map((option, i) => (
        <button
          key={option}
          type="button"
          className={styles.plain}
          aria-pressed={placing === i}
          aria-label={lectureWords.placeGuess(i)}
          title={lectureWords.tapStrip(i)}
          onClick={() => setPlacing(placing === i ? null : i)}
        >
          {i + 1}
        </button>
      ))}
      <output aria-label={lectureWords.guess(chosen)}>
        {placing !== null && tick === null ? lectureWords.tap : tick === null ? '–' : clockAt(tick, start).slice(0, 5)}
      </output>
      <button
        type="button"
        className={styles.hand}
        aria-label={lectureWords.earlier(chosen)}
        onClick={() => moveGuess(chosen, -MINUTE)}
      >
        −
      </button>
      <button
        type="button"
        className={styles.hand}
        aria-label={lectureWords.later(chosen)}
        onClick={() => moveGuess(chosen, MINUTE)}
      >
        +
      </button>
    </div>
  );
}
