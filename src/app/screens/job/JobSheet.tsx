/** The paper of an exercise. What stands on it between head and foot belongs to its kind. */
import { type ComponentType, lazy, Suspense } from 'react';
import type { ExerciseKind } from '../../../exercise/types.ts';
import { classWords } from '../../../report/text/class.ts';
import { drawerWords } from '../../../report/text/drawer.ts';
import { jobWords } from '../../../report/text/jobs.ts';
import { notebookWords } from '../../../report/text/notebook.ts';
import { platformText } from '../../../report/text/platform.ts';
import ui from '../../panels/ui.module.css';
import { saveAttempt } from '../../state/attempts.ts';
import { presentAttempt, useJob } from '../../state/job/job.ts';
import { openStory } from '../../state/start.ts';
import { setApp, useApp } from '../../state/store.ts';
import styles from './JobSheet.module.css';
import { usePlace } from './parts.tsx';

const CommissionPaper = lazy(async () => ({ default: (await import('./CommissionPaper.tsx')).CommissionPaper }));

const PAPERS: Record<ExerciseKind, ComponentType> = {
  diagnose: lazy(async () => ({ default: (await import('./DiagnosePaper.tsx')).DiagnosePaper })),
  predict: lazy(async () => ({ default: (await import('./PredictPaper.tsx')).PredictPaper })),
  commission: CommissionPaper,
  design: CommissionPaper,
  observe: lazy(async () => ({ default: (await import('./ObservePaper.tsx')).ObservePaper })),
};

export function JobSheet() {
  const exercise = useJob((s) => s.exercise);
  const seed = useJob((s) => s.seed);
  const drawn = useJob((s) => s.drawn);
  const ready = useApp((s) => s.scenario !== null && s.job !== null);
  if (!exercise || !ready) return null;
  const Paper = PAPERS[exercise.kind];
  return (
    <aside className={styles.sheet} aria-label={jobWords.cards[exercise.kind]}>
      <div className={styles.head}>
        <p>{jobWords.head(exercise.job, jobWords.aids[exercise.aid])}</p>
        <p>{jobWords.bench(seed)}</p>
      </div>
      {drawn !== null && (
        <p className={styles.drawn}>{drawn === '' ? drawerWords.line(1) : drawerWords.shown(drawn)}</p>
      )}
      <ClassLine />
      <PlatformLine exercise={exercise.id} seed={seed} />
      <Suspense fallback={null}>
        <Paper />
      </Suspense>
      <div className={ui.row}>
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

/** Which class and bench the job belongs to, if the pair came by a code. */
function ClassLine() {
  const place = usePlace();
  if (!place) return null;
  return (
    <p className={ui.row}>
      <span>{classWords.myBench(place.code, place.bench)}</span>
      <button type="button" className={ui.word} onClick={() => setApp({ classOpen: true })}>
        <span>{classWords.allJobs}</span>
      </button>
    </p>
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

function leave(): void {
  const { storyTitles } = useApp.getState();
  const first = storyTitles[0];
  if (first) openStory(first.id);
}
