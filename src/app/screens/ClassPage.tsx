/** For lecturers and their class: a code that stands for a plan, its key, and the tray that marks attempts again. */
import { lazy, Suspense, useMemo, useState } from 'react';
import { benchSeed, type ClassPlan, classCode, readClassCode } from '../../exercise/classCode.ts';
import type { Exercise } from '../../exercise/types.ts';
import { authoringWords } from '../../report/text/authoring.ts';
import { classWords } from '../../report/text/class.ts';
import { jobWords } from '../../report/text/jobs.ts';
import { notebookWords } from '../../report/text/notebook.ts';
import { Sheet } from '../panels/Sheet.tsx';
import ui from '../panels/ui.module.css';
import { Check, Pick, Stepper } from '../panels/ui.tsx';
import { useSheets } from '../state/assessments.ts';
import { startRecording } from '../state/authoring.ts';
import { jobProgress, jobsOfCode, openClassJob, setClassBench, useClassBench } from '../state/classBench.ts';
import { exercisesByJob, useTray } from '../state/classTray.ts';
import { useDiagnosing } from '../state/diagnosing.ts';
import { useNotebook } from '../state/notebook.ts';
import { setApp } from '../state/store.ts';
import { MakeDiagnosis } from './author/MakeDiagnosis.tsx';
import { ClassKey } from './ClassKey.tsx';
import styles from './ClassPage.module.css';
import { ClassTray } from './ClassTray.tsx';
import { FaultDrawer } from './FaultDrawer.tsx';
import { Names } from './job/parts.tsx';
import { ShortCodeEntry } from './ShortCodeEntry.tsx';

const AssessorSheet = lazy(async () => ({ default: (await import('./assess/AssessorSheet.tsx')).AssessorSheet }));

const DiagnosisSheet = lazy(async () => ({ default: (await import('./author/DiagnosisSheet.tsx')).DiagnosisSheet }));

export function ClassPage() {
  const making = useDiagnosing((s) => s.open);
  if (!making) return <Class />;
  return (
    <Suspense fallback={null}>
      <DiagnosisSheet />
    </Suspense>
  );
}

function Class() {
  const exercises = useMemo(exercisesByJob, []);
  const all = useMemo(() => [...exercises.values()].flat(), [exercises]);
  return (
    <>
      <Sheet
        title={classWords.title}
        closeText={classWords.close}
        onClose={close}
        className={styles.page}
        acts={
          <button type="button" className={ui.word} onClick={toNotebook}>
            <span>{notebookWords.open}</span>
          </button>
        }
      >
        <p>{classWords.intro}</p>
        <WorkWithCode />
        <MakeCode exercises={exercises} />
        <FaultDrawer exercises={all} opened={close} />
        <ClassTray />
        <section aria-label={authoringWords.head}>
          <h3>{authoringWords.head}</h3>
          <p>{authoringWords.intro}</p>
          <button type="button" className={ui.plain} onClick={startRecording}>
            {authoringWords.record}
          </button>
        </section>
        <MakeDiagnosis exercises={all} />
      </Sheet>
      <OpenSheet />
    </>
  );
}

/** Beside the class page, not in it: closing one dialog must not be taken for closing the other. */
function OpenSheet() {
  const seal = useSheets((s) => s.open);
  const one = useTray((s) => s.graded.find((graded) => graded.seal === seal));
  if (!one) return null;
  return (
    <Suspense fallback={null}>
      <AssessorSheet key={one.seal} one={one} />
    </Suspense>
  );
}

function close(): void {
  setApp({ classOpen: false });
}

function toNotebook(): void {
  setApp({ classOpen: false, notebookOpen: true });
}

type ByJob = ReadonlyMap<number, Exercise[]>;

function WorkWithCode() {
  const mine = useClassBench();
  const { code, bench } = mine;
  const cases = useNotebook((s) => s.cases);
  const plan = readClassCode(code);
  const jobs = useMemo(() => jobsOfCode(code), [code]);
  const seed = plan ? benchSeed(plan, bench) : 0;
  const open =
    ({ id }: Exercise) =>
    (): void => {
      close();
      openClassJob(mine, id);
    };
  return (
    <section aria-label={classWords.workHead}>
      <h3>{classWords.workHead}</h3>
      <div className={ui.row}>
        <label className={ui.row}>
          {classWords.code}
          <input
            className={styles.code}
            type="text"
            autoComplete="off"
            spellCheck={false}
            maxLength={8}
            value={code}
            onChange={(e) => setClassBench({ code: e.target.value })}
          />
        </label>
        <Stepper
          label={classWords.bench}
          value={`${classWords.bench} ${bench}`}
          less={() => setClassBench({ bench: bench - 1 })}
          more={() => setClassBench({ bench: bench + 1 })}
          canLess={bench > 1}
          canMore={bench < 99}
        />
      </div>
      {code.trim().length >= 6 && !plan && <p role="status">{classWords.notACode}</p>}
      <ShortCodeEntry opened={close} />
      {plan && <Names />}
      {plan && jobs.length === 0 && <p role="status">{classWords.noJobs}</p>}
      <ul className={`${ui.row} ${styles.jobs}`}>
        {jobs.map((exercise) => (
          <li key={exercise.id}>
            <button type="button" className={ui.plain} onClick={open(exercise)}>
              {classWords.openJob(exercise.job, exercise.title, jobProgress(exercise.id, seed, cases))}
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}

const AIDS = (['guided', 'practice', 'test'] as const).map((value) => ({ value, text: jobWords.aids[value] }));

function MakeCode({ exercises }: { exercises: ByJob }) {
  const [plan, setPlan] = useState<ClassPlan>({
    jobs: [...exercises.keys()],
    aid: 'practice',
    separate: true,
    series: 1,
  });
  const toggle = (job: number, on: boolean): void => {
    const jobs = [...plan.jobs.filter((other) => other !== job), ...(on ? [job] : [])].sort((a, b) => a - b);
    setPlan({ ...plan, jobs });
  };
  const step = (by: number) => () => setPlan({ ...plan, series: plan.series + by });
  return (
    <section aria-label={classWords.makeHead}>
      <h3>{classWords.makeHead}</h3>
      <fieldset className={ui.row}>
        <legend className="visuallyHidden">{classWords.jobs}</legend>
        {[...exercises].map(([job, ofJob]) => (
          <Check
            key={job}
            label={`${job} ${ofJob.map(({ title }) => title).join(', ')}`}
            checked={plan.jobs.includes(job)}
            set={(on) => toggle(job, on)}
          />
        ))}
      </fieldset>
      <div className={ui.row}>
        <Pick label={classWords.aid} value={plan.aid} options={AIDS} pick={(aid) => setPlan({ ...plan, aid })} />
        <Check label={classWords.separate} checked={plan.separate} set={(separate) => setPlan({ ...plan, separate })} />
        <Stepper
          label={classWords.series}
          value={`${classWords.series} ${plan.series}`}
          less={step(-1)}
          more={step(1)}
          canLess={plan.series > 0}
          canMore={plan.series < 31}
        />
      </div>
      <p className={ui.note}>{classWords.seriesHint}</p>
      {plan.jobs.length > 0 && (
        <>
          <p className={styles.codeLine}>
            {classWords.codeIs}: <output>{classCode(plan)}</output>
          </p>
          <ClassKey plan={plan} exercises={exercises} />
        </>
      )}
    </section>
  );
}
