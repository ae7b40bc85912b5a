/** The player of a worked example: what is done and why, stops that wait for an answer, and the controls. */
import { useEffect, useMemo, useRef } from 'react';
import type { ExampleStop, WorkedStep } from '../../../exercise/example/types.ts';
import type { Exercise } from '../../../exercise/types.ts';
import { pathNames } from '../../../report/path.ts';
import { filledText, exampleWords as words } from '../../../report/text/example.ts';
import ui from '../../panels/ui.module.css';
import {
  answerStop,
  leaveExample,
  mayGoOn,
  pauseExample,
  playExample,
  stepOnward,
  useExample,
} from '../../state/job/example.ts';
import styles from './Example.module.css';
import sheet from './JobSheet.module.css';
import { SHEET_ID } from './sheetId.ts';

export function ExampleSheet({ exercise }: { exercise: Exercise }) {
  const example = useExample((s) => s.example);
  const at = useExample((s) => s.at);
  const paper = useRef<HTMLElement>(null);
  const step = example?.steps[at];
  const names = useMemo(() => pathNames(exercise), [exercise]);
  // The button that led here is gone with the learner's own paper.
  useEffect(() => {
    paper.current?.focus({ preventScroll: true });
  }, []);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new step is read from its head
  useEffect(() => {
    paper.current?.scrollTo({ top: 0 });
  }, [at]);
  if (!example || !step) return null;
  const fill = (text: string): string => filledText(text, step.facts, names);
  const last = at === example.steps.length - 1;
  return (
    <aside
      ref={paper}
      id={SHEET_ID}
      tabIndex={-1}
      className={`${sheet.sheet} ${styles.sheet}`}
      aria-label={words.region}
    >
      <div className={sheet.head}>
        <p>{words.head}</p>
        <p>{words.step(at + 1, example.steps.length)}</p>
      </div>
      <Controls last={last} />
      <div className={styles.where}>
        <Progress steps={example.steps} at={at} />
        {!last && (
          <button type="button" className={ui.word} onClick={leaveExample}>
            <span>{words.leave}</span>
          </button>
        )}
      </div>
      <div role="status" className={styles.say}>
        <p className={sheet.brief}>{fill(step.say)}</p>
        {last && <p>{words.over}</p>}
      </div>
      {step.stop && <Stop key={at} at={at} stop={step.stop} fill={fill} />}
      {last && (
        <button type="button" className={sheet.handIn} onClick={leaveExample}>
          {words.toWork}
        </button>
      )}
    </aside>
  );
}

function Controls({ last }: { last: boolean }) {
  const playing = useExample((s) => s.playing);
  const first = useExample((s) => s.at === 0);
  const onward = useExample(mayGoOn);
  return (
    // biome-ignore lint/a11y/useSemanticElements: laid out in one line
    <div role="group" aria-label={words.steps} className={styles.controls}>
      <button
        type="button"
        className={ui.plain}
        aria-label={words.backStep}
        disabled={first}
        onClick={() => stepOnward(-1)}
      >
        {words.back}
      </button>
      <button
        type="button"
        className={last ? ui.plain : sheet.handIn}
        disabled={!playing && !onward}
        onClick={playing ? pauseExample : playExample}
      >
        {playing ? words.pause : words.play}
      </button>
      <button
        type="button"
        className={ui.plain}
        aria-label={words.nextStep}
        disabled={!onward}
        onClick={() => stepOnward(1)}
      >
        {words.next}
      </button>
    </div>
  );
}

interface StopProps {
  at: number;
  stop: ExampleStop;
  fill: (text: string) => string;
}

function Stop({ at, stop, fill }: StopProps) {
  const chosen = useExample((s) => s.answers[at] ?? null);
  const option = chosen === null ? null : stop.options[chosen];
  const told = useRef<HTMLDivElement>(null);
  // On a low window the answer stands at the lower edge.
  useEffect(() => {
    if (chosen !== null) told.current?.scrollIntoView({ block: 'nearest' });
  }, [chosen]);
  return (
    <section aria-label={words.stop} className={styles.stop}>
      <h3>{fill(stop.question)}</h3>
      <ul>
        {stop.options.map(({ say }, i) => (
          <li key={say}>
            <button type="button" className={ui.plain} aria-pressed={i === chosen} onClick={() => answerStop(i)}>
              {fill(say)}
            </button>
          </li>
        ))}
      </ul>
      <div ref={told} role="status">
        {option ? (
          <>
            <dl className={styles.feedback}>
              {(['did', 'room', 'because', 'next'] as const).map((part) => (
                <div key={part}>
                  <dt>{words.parts[part]}</dt>
                  <dd>{fill(option[part])}</dd>
                </div>
              ))}
            </dl>
            {option.leads && <p className={styles.leads}>{words.expert}</p>}
          </>
        ) : (
          <p className={ui.note}>{words.waits}</p>
        )}
      </div>
    </section>
  );
}

/** Where the example stands: filled as far as it has come; a stop is a ring. The words beside the head say it too. */
function Progress({ steps, at }: { steps: readonly WorkedStep[]; at: number }) {
  return (
    <svg viewBox={`0 0 ${steps.length * 20} 20`} className={styles.progress} aria-hidden="true">
      {steps.map(({ stop }, i) => (
        <circle
          // biome-ignore lint/suspicious/noArrayIndexKey: steps never change their order
          key={i}
          cx={i * 20 + 10}
          cy={10}
          r={stop ? 6 : 4}
          fill={i <= at ? 'currentColor' : 'none'}
          stroke="currentColor"
          strokeWidth={i === at ? 3.5 : 1.5}
        />
      ))}
    </svg>
  );
}
