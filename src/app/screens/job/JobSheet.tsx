/** The paper of an exercise. What stands on it between head and foot belongs to its kind. */
import { type ComponentType, lazy, Suspense, useEffect, useRef } from 'react';
import type { OutputId } from '../../../engine/types.ts';
import { OUTPUTS } from '../../../engine/view.ts';
import type { ExerciseKind } from '../../../exercise/types.ts';
import { classWords } from '../../../report/text/class.ts';
import { drawerWords } from '../../../report/text/drawer.ts';
import { en } from '../../../report/text/en.ts';
import { jobWords } from '../../../report/text/jobs.ts';
import { outputName } from '../../../report/text/names.ts';
import { notebookWords } from '../../../report/text/notebook.ts';
import { platformText } from '../../../report/text/platform.ts';
import { EDGES_ID } from '../../panels/job/edgesId.ts';
import { OutputBadge, useOutputRest, useOutputWord } from '../../panels/OutputLine.tsx';
import ui from '../../panels/ui.module.css';
import { attemptFileName, saveAttempt } from '../../state/attempts.ts';
import { presentAttempt, useJob } from '../../state/job/job.ts';
import { openStory } from '../../state/start.ts';
import { setApp, useApp } from '../../state/store.ts';
import { ExampleOffer } from './ExampleOffer.tsx';
import styles from './JobSheet.module.css';
import { usePlace } from './parts.tsx';
import { SHEET_ID } from './sheetId.ts';

const TryPaper = lazy(async () => ({ default: (await import('./TryPaper.tsx')).TryPaper }));
const ExampleSheet = lazy(async () => ({ default: (await import('./ExampleSheet.tsx')).ExampleSheet }));
const RecordBand = lazy(async () => ({ default: (await import('../author/RecordBand.tsx')).RecordBand }));
const CommissionPaper = lazy(async () => ({ default: (await import('./CommissionPaper.tsx')).CommissionPaper }));

const PAPERS: Record<ExerciseKind, ComponentType> = {
  diagnose: lazy(async () => ({ default: (await import('./DiagnosePaper.tsx')).DiagnosePaper })),
  predict: lazy(async () => ({ default: (await import('./PredictPaper.tsx')).PredictPaper })),
  commission: CommissionPaper,
  design: CommissionPaper,
  observe: lazy(async () => ({ default: (await import('./ObservePaper.tsx')).ObservePaper })),
};

const focusOn = (id: string) => (): void => document.getElementById(id)?.focus();

/** First in the order of Tab, shown while it has the keyboard: past all that lies round the stage, straight to the work. */
export function ToJob() {
  const foretelling = useApp((s) => s.job?.stage === 'predicting');
  return (
    <nav className={styles.toJob} aria-label={jobWords.shortcuts}>
      <button type="button" className={ui.plain} onClick={focusOn(SHEET_ID)}>
        {jobWords.toJob}
      </button>
      {foretelling && (
        <button type="button" className={ui.plain} onClick={focusOn(EDGES_ID)}>
          {jobWords.toEdges}
        </button>
      )}
    </nav>
  );
}

export function JobSheet() {
  const exercise = useJob((s) => s.exercise);
  const seed = useJob((s) => s.seed);
  const drawn = useJob((s) => s.drawn);
  const authored = useJob((s) => s.authored);
  const trying = useApp((s) => s.job?.stage === 'trying');
  const ready = useApp((s) => s.scenario !== null && s.job !== null);
  const stage = useApp((s) => s.job?.stage);
  const showsOutputs = useApp((s) => !s.job?.sealed && s.job?.stage !== 'preparing' && s.job?.stage !== 'predicting');
  const place = usePlace();
  const sheet = useRef<HTMLElement>(null);
  const marked = stage === 'result';
  const seen = stage === 'seen';
  // A new paper is read from its head; whoever pressed a button that is gone goes on from there.
  // biome-ignore lint/correctness/useExhaustiveDependencies: acts when another paper lies here
  useEffect(() => {
    sheet.current?.scrollTo({ top: 0 });
    // Gone, or hidden while the next paper is fetched; the page itself is nobody's child either.
    const at = document.activeElement;
    if (!(at instanceof HTMLElement) || at.offsetParent === null) sheet.current?.focus({ preventScroll: true });
  }, [exercise, seed, ready, seen, marked]);
  if (!exercise || !ready) return null;
  if (stage === 'example') {
    return (
      <Suspense fallback={null}>
        <ExampleSheet exercise={exercise} />
      </Suspense>
    );
  }
  const Paper = trying ? TryPaper : PAPERS[exercise.kind];
  return (
    <aside ref={sheet} id={SHEET_ID} tabIndex={-1} className={styles.sheet} aria-label={jobWords.cards[exercise.kind]}>
      {authored && (
        <Suspense fallback={null}>
          <RecordBand />
        </Suspense>
      )}
      <div className={styles.head}>
        <p>{jobWords.head(exercise.job, jobWords.aids[exercise.aid])}</p>
        <p>{place ? jobWords.bench(place.bench) : jobWords.room(seed)}</p>
      </div>
      {drawn !== null && (
        <p className={styles.drawn}>{drawn === '' ? drawerWords.line(1) : drawerWords.shown(drawn)}</p>
      )}
      {place && <p className={styles.class}>{classWords.room(place.code, seed)}</p>}
      {showsOutputs && <Outputs />}
      {exercise.example && <ExampleOffer />}
      <PlatformLine exercise={exercise.id} seed={seed} />
      <Suspense fallback={null}>
        <Paper key={`${exercise.id}/${seed}`} />
      </Suspense>
      <div className={styles.last}>
        {!marked && (
          <button type="button" className={ui.word} onClick={stop}>
            <span>{jobWords.stop}</span>
          </button>
        )}
        {place && (
          <button type="button" className={ui.word} onClick={() => setApp({ classOpen: true })}>
            <span>{classWords.allJobs}</span>
          </button>
        )}
        <button type="button" className={ui.word} onClick={leave}>
          <span>{jobWords.leave}</span>
        </button>
        <button type="button" className={ui.word} onClick={() => setApp({ notebookOpen: true })}>
          <span>{notebookWords.open}</span>
        </button>
      </div>
    </aside>
  );
}

/** The states of the outputs, where the stage is too small to name them. */
function Outputs() {
  return (
    <ul className={styles.outputStates} aria-label={en.outputs.region}>
      {OUTPUTS.map((output) => (
        <OutputState key={output} output={output} />
      ))}
    </ul>
  );
}

function OutputState({ output }: { output: OutputId }) {
  const word = useOutputWord(output);
  const rest = useOutputRest(output);
  return (
    <li data-channel={output}>
      <OutputBadge output={output} size={24} />
      <span>
        <i>{outputName[output]}</i> <b>{word}</b>
        {rest && ` · ${rest}`}
      </span>
    </li>
  );
}

/** What the learning platform around the page is told, or did not take. */
function PlatformLine({ exercise, seed }: { exercise: string; seed: number }) {
  const platform = useJob((s) => s.platform);
  if (!platform) return null;
  const save = (): void => {
    const attempt = presentAttempt();
    if (attempt) saveAttempt(attempt);
  };
  const trouble = platform.refusal !== null || platform.ended || platform.elsewhere || !platform.whole;
  return (
    <div className={trouble ? styles.drawn : undefined}>
      <p className={ui.note} role="status">
        {platformText(platform, exercise, seed)}
      </p>
      {trouble && !platform.elsewhere && (
        <button type="button" className={ui.word} onClick={save}>
          <span>{jobWords.save}</span>
        </button>
      )}
    </div>
  );
}

/** The work goes along as a file; this browser keeps it as well. */
function stop(): void {
  const attempt = presentAttempt();
  if (!attempt) return;
  saveAttempt(attempt);
  setApp({ notice: jobWords.stopped(attemptFileName(attempt)) });
}

function leave(): void {
  const { storyTitles } = useApp.getState();
  const first = storyTitles[0];
  if (first) openStory(first.id);
}
