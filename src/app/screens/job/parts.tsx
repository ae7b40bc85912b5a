/** Pieces that the papers of all kinds of exercise share. */
import { type ReactNode, useMemo, useState } from 'react';
import type { Scenario } from '../../../engine/types.ts';
import { PASS_POINTS } from '../../../exercise/predict/mark.ts';
import type { Exercise, Mark } from '../../../exercise/types.ts';
import { classWords } from '../../../report/text/class.ts';
import { jobWords } from '../../../report/text/jobs.ts';
import { notebookWords } from '../../../report/text/notebook.ts';
import { tryWords } from '../../../report/text/tryAgain.ts';
import { ReasonCard } from '../../panels/ReasonCard.tsx';
import ui from '../../panels/ui.module.css';
import { copyAttempt, saveAttempt } from '../../state/attempts.ts';
import { type ClassPlace, openClassJob, placeInClass, useClassBench } from '../../state/classBench.ts';
import { beginAgain, handIn, nextBench, presentAttempt, setName, showHint, useJob } from '../../state/job/job.ts';
import { tryFrom } from '../../state/job/tryAgain.ts';
import { setApp, useApp } from '../../state/store.ts';
import { send } from '../../state/wire.ts';
import styles from './parts.module.css';

/**
 * Rungs of help, one after the other; in a test only where they are earned. `gate`: what the button says beside its
 * number, and whether the next rung is open.
 */
export function Hints({ exercise, gate }: { exercise: Exercise; gate?: { say: string; open: boolean } }) {
  const shown = useJob((s) => s.hintsShown);
  if (exercise.aid === 'test' && !gate) return null;
  return (
    <div className={styles.hints}>
      {exercise.hints.slice(0, shown).map((hint) => (
        <p key={hint}>{hint}</p>
      ))}
      {shown < exercise.hints.length && (
        <button type="button" className={ui.word} disabled={gate?.open === false} onClick={showHint}>
          <span>
            {jobWords.hint(shown + 1)}
            {gate && ` · ${gate.say}`}
          </span>
        </button>
      )}
    </div>
  );
}

export function Names() {
  const names = useJob((s) => s.names);
  return (
    <fieldset className={styles.names}>
      <legend>{jobWords.names}</legend>
      {([0, 1] as const).map((place) => (
        <input
          key={place}
          type="text"
          aria-label={jobWords.name(place)}
          placeholder={jobWords.name(place)}
          value={names[place] ?? ''}
          onChange={(e) => setName(place, e.target.value)}
        />
      ))}
    </fieldset>
  );
}

/** The total in large, and whether it is enough. */
export function Total({ mark }: { mark: Mark }) {
  return (
    <>
      <p className={styles.total}>
        <b>{mark.total}</b> {jobWords.of100}
      </p>
      <p className={styles.brief}>{mark.pass ? jobWords.passed : jobWords.notYet(PASS_POINTS)}</p>
    </>
  );
}

/** Foot of a paper: the next act stays in reach, however long the paper is. The last of what stands on it. */
export function Foot({ children }: { children: ReactNode }) {
  return <div className={styles.foot}>{children}</div>;
}

interface HandInProps {
  /** Whether handing in is what comes next; till then something else is. */
  next: boolean;
  disabled?: boolean;
  text?: string;
}

export function HandIn({ next, disabled = false, text = jobWords.handIn }: HandInProps) {
  const marking = useApp((s) => s.job?.stage === 'marking');
  if (marking) return <p role="status">{jobWords.marking}</p>;
  return (
    <button
      type="button"
      className={next ? styles.primary : ui.plain}
      disabled={disabled}
      onClick={() => void handIn()}
    >
      {text}
    </button>
  );
}

/** Why, for the instant shown: open again once the work is marked. */
export function Reasons() {
  const output = useApp((s) => s.lastOutput);
  return <ReasonCard output={output} />;
}

/** The instant that a reason of a result speaks of: to be looked at, or to try something else from. */
export function Moment({ atS }: { atS: number }) {
  return (
    <span className={styles.moment}>
      <Show atS={atS} />
      <Try atS={atS} />
    </span>
  );
}

/** `shown`: the run that the instant belongs to, if it is not the one on the stage. */
export function Try({ atS, shown }: { atS: number; shown?: () => Scenario }) {
  return (
    <button type="button" className={ui.link} onClick={() => tryFrom(atS, shown?.() ?? null)}>
      <span>{tryWords.from}</span>
    </button>
  );
}

/** Leads to the instant that a reason speaks of. */
export function Show({ atS }: { atS: number }) {
  return (
    <button type="button" className={ui.link} onClick={() => send({ type: 'seek', tick: Math.round(atS * 10) })}>
      <span>{jobWords.show}</span>
    </button>
  );
}

/** In a class the next of its jobs on the pair's own bench; otherwise the same job on another one. */
function Onward() {
  const place = usePlace();
  const next = place?.next;
  if (next) {
    return (
      <button type="button" className={styles.primary} onClick={() => openClassJob(place, next.id)}>
        {classWords.nextJob(next.job, next.title)}
      </button>
    );
  }
  return (
    <button type="button" className={styles.primary} onClick={place ? () => setApp({ classOpen: true }) : nextBench}>
      {place ? classWords.allJobs : jobWords.next}
    </button>
  );
}

/** Where the open job stands in the class that this browser works in. */
export function usePlace(): ClassPlace | null {
  const mine = useClassBench();
  const id = useJob((s) => s.exercise?.id ?? '');
  const seed = useJob((s) => s.seed);
  return useMemo(() => placeInClass(mine, id, seed), [mine, id, seed]);
}

/** After the result: the next bench, the same again, the attempt as a file or text. */
export function Actions() {
  const [copied, setCopied] = useState(false);
  const copy = async (): Promise<void> => {
    const attempt = presentAttempt();
    const done = attempt !== null && (await copyAttempt(attempt));
    setCopied(done);
    if (!done) setApp({ notice: jobWords.copyFailed });
  };
  const save = (): void => {
    const attempt = presentAttempt();
    if (attempt) saveAttempt(attempt);
  };
  const passed = useJob((s) => s.mark?.pass === true);
  return (
    <div className={styles.actions}>
      {passed && <p className={ui.note}>{notebookWords.kept}</p>}
      <Onward />
      <button type="button" className={ui.word} onClick={beginAgain}>
        <span>{jobWords.again}</span>
      </button>
      <button type="button" className={ui.word} onClick={save}>
        <span>{jobWords.save}</span>
      </button>
      <button type="button" className={ui.word} onClick={() => void copy()}>
        <span>{copied ? jobWords.copied : jobWords.copy}</span>
      </button>
    </div>
  );
}
