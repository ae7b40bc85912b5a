/** Four counters: hands as countable marks in fives, one more by tap or by the key of its number. */
import { clockAt } from '../../../report/text/format.ts';
import { lectureWords } from '../../../report/text/lecture.ts';
import { addHands, type LectureStep, lock, withdraw } from '../../state/lecture/lecture.ts';
import { useApp } from '../../state/store.ts';
import styles from './Lecture.module.css';

interface TallyProps {
  step: LectureStep;
  /** The option that it was; null: not told. */
  right: number | null;
  /** One line for each option, no marks: what happened needs the place. */
  short: boolean;
  /** What is marked was chosen by hands, not found right. */
  chosen?: boolean;
}

export function Tally({ step, right, short, chosen = false }: TallyProps) {
  const asking = step.stage === 'asking';
  const start = useApp((s) => s.scenario?.start ?? null);
  const clockOf = (tick: number | null): string | null =>
    tick === null || !start ? null : clockAt(tick, start).slice(0, 5);
  const onKeyDown = (event: React.KeyboardEvent): void => {
    const option = Number(/^(?:Digit|Numpad)([1-9])$/.exec(event.code)?.[1] ?? 0) - 1;
    if (!asking || option < 0 || option >= step.options.length || event.ctrlKey || event.altKey || event.metaKey)
      return;
    event.preventDefault();
    addHands(option, event.shiftKey ? -1 : 1);
  };
  return (
    // biome-ignore lint/a11y/useSemanticElements: counters are no form
    <div
      role="group"
      className={styles.tally}
      aria-label={lectureWords.tally}
      aria-description={asking ? lectureWords.tallyKeys : undefined}
      onKeyDown={onKeyDown}
    >
      {step.options.map((option, i) => (
        <Counter
          key={option}
          option={option}
          place={i}
          count={step.hands[i] ?? 0}
          asking={asking}
          marks={!short}
          guess={clockOf(step.guesses[i] ?? null)}
          said={
            right === i
              ? chosen
                ? lectureWords.chosen
                : step.guesses[i] === null
                  ? lectureWords.itWas
                  : lectureWords.nearest
              : null
          }
        />
      ))}
    </div>
  );
}

interface CounterProps {
  option: string;
  place: number;
  count: number;
  asking: boolean;
  marks: boolean;
  /** What it turned out to be; null: nothing to say. */
  said: string | null;
  /** Clock that was named; null: none. */
  guess: string | null;
}

function Counter({ option, place, count, asking, marks, said, guess }: CounterProps) {
  return (
    <div className={styles.counter} data-right={said !== null}>
      <span className={styles.option}>
        {said && '▸ '}
        {option}
        {guess && ` ${guess}`}
        {said && <em> {said}</em>}
        {marks && <Marks count={count} />}
      </span>
      <output className={styles.count} aria-label={`${option}: ${lectureWords.hands(count)}`}>
        {count}
      </output>
      {asking && (
        <>
          <button
            type="button"
            className={styles.hand}
            aria-label={lectureWords.fewer(option)}
            disabled={count === 0}
            onClick={() => addHands(place, -1)}
          >
            −
          </button>
          <button
            type="button"
            className={styles.hand}
            aria-label={lectureWords.more(option)}
            onClick={() => addHands(place, 1)}
          >
            +
          </button>
        </>
      )}
    </div>
  );
}

/** Marks in a row. Assumed: more would not fit the column; the number beside them goes on. */
const MOST_MARKS = 40;

function Marks({ count }: { count: number }) {
  const shown = Math.min(count, MOST_MARKS);
  const x = (i: number): number => i * 10 + Math.floor(i / 5) * 7;
  return (
    <svg
      className={styles.marks}
      viewBox={`0 0 ${x(MOST_MARKS)} 22`}
      preserveAspectRatio="xMinYMid meet"
      aria-hidden="true"
    >
      {Array.from({ length: shown }, (_, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a mark is its place
        <rect key={i} x={x(i)} y={1} width={7} height={20} />
      ))}
    </svg>
  );
}

/** The hands in one line, where the place is needed for what they led to. */
export function Verdict({ step, right }: { step: LectureStep; right: number | null }) {
  const all = step.hands.reduce((sum, n) => sum + n, 0);
  const option = right === null ? null : step.options[right];
  return (
    <p>
      {option && <b>{option}: </b>}
      {option ? lectureWords.ofAll(step.hands[right!] ?? 0, all) : lectureWords.total(all)}
    </p>
  );
}

/** What ends the counting: answers are locked, or the question is taken back. */
export function LockRow() {
  return (
    <div className={styles.row}>
      <button type="button" className={styles.primary} onClick={lock}>
        {lectureWords.lock}
      </button>
      <button type="button" className={styles.quiet} onClick={withdraw}>
        {lectureWords.withdraw}
      </button>
    </div>
  );
}
