/** The questions asked so far, as numbers; each goes back to its instant and its hands. */
import { lectureWords } from '../../../report/text/lecture.ts';
import { goToStep, setPanel, useLecture } from '../../state/lecture/lecture.ts';
import styles from './Lecture.module.css';

export function StepStrip() {
  const steps = useLecture((s) => s.steps);
  const now = useLecture((s) => s.now);
  const panel = useLecture((s) => s.panel);
  return (
    <nav className={styles.steps} aria-label={lectureWords.strip}>
      {steps.map(({ question }, i) => (
        <button
          // biome-ignore lint/suspicious/noArrayIndexKey: a question is its place in the lecture
          key={i}
          type="button"
          aria-current={i === now && panel === 'step' ? 'step' : undefined}
          aria-label={`${lectureWords.stepOf(i + 1)}: ${question}`}
          title={question}
          onClick={() => goToStep(i)}
        >
          {i + 1}
        </button>
      ))}
      <button
        type="button"
        aria-current={panel === 'ask' ? 'step' : undefined}
        aria-label={lectureWords.askAnother}
        title={lectureWords.askAnother}
        onClick={() => setPanel('ask')}
      >
        +
      </button>
    </nav>
  );
}
