/** A hidden cause before a class: the complaint, the vote on the next measurement, its reading. */
import { useState } from 'react';
import { complaintLine, placesOf } from '../../../exercise/diagnose/cards.ts';
import { testKey } from '../../../exercise/diagnose/tests.ts';
import type { DiagnoseExercise, Test } from '../../../exercise/diagnose/types.ts';
import { readingText, refusalText, testLine } from '../../../report/text/evidence.ts';
import { lectureWords } from '../../../report/text/lecture.ts';
import { takeTest, useDiagnosis } from '../../state/job/diagnose.ts';
import { useJob } from '../../state/job/job.ts';
import {
  ask,
  type LectureStep,
  roomId,
  setPanel,
  showTruth,
  stepNow,
  useLecture,
} from '../../state/lecture/lecture.ts';
import { useApp } from '../../state/store.ts';
import styles from './Lecture.module.css';
import { LockRow, Tally, Verdict } from './Tally.tsx';

export function CasePanel() {
  useApp(roomId);
  const exercise = useDiagnosis((s) => s.exercise);
  const panel = useLecture((s) => s.panel);
  const step = useLecture((s) => stepNow(s));
  if (!exercise) return null;
  return step && panel === 'step' ? <Vote step={step} exercise={exercise} /> : <Propose exercise={exercise} />;
}

/** Measurements that a vote is about. Source: as many as the class has counters. */
const PROPOSED = 4;

/** Each test once, those already read last: no answer is offered twice before the others. */
function testsOf(exercise: DiagnoseExercise, read: readonly Test[]): Test[] {
  const known = new Set(read.map(testKey));
  const isRead = (test: Test): boolean => known.has(testKey(test));
  return [...exercise.diagnose.tests.filter((test) => !isRead(test)), ...exercise.diagnose.tests.filter(isRead)];
}

function Propose({ exercise }: { exercise: DiagnoseExercise }) {
  const seed = useJob((s) => s.seed);
  const clips = useDiagnosis((s) => s.answers.clips);
  const ready = useApp((s) => s.readiness === 'ready');
  const places = placesOf(exercise);
  const tests = testsOf(
    exercise,
    clips.map(({ test }) => test),
  );
  const spread = Math.max(1, Math.floor(tests.length / PROPOSED));
  const [chosen, setChosen] = useState<string[]>(() =>
    Array.from({ length: Math.min(PROPOSED, tests.length) }, (_, i) => testLine(tests[i * spread]!, places)),
  );
  const pick = (place: number, line: string): void => setChosen(chosen.map((old, i) => (i === place ? line : old)));
  const different = new Set(chosen).size === chosen.length;
  return (
    <section className={styles.panel} aria-label={lectureWords.questions.measure}>
      <p className={styles.complaint}>“{complaintLine(exercise, seed)}”</p>
      {chosen.map((line, i) => (
        <select
          // biome-ignore lint/suspicious/noArrayIndexKey: a proposal is its place
          key={i}
          className={styles.test}
          aria-label={lectureWords.proposed(i)}
          value={line}
          onChange={(e) => pick(i, e.target.value)}
        >
          {tests.map((test) => (
            <option key={testKey(test)}>{testLine(test, places)}</option>
          ))}
        </select>
      ))}
      <button
        type="button"
        className={styles.primary}
        disabled={!ready || !different}
        onClick={() => ask('measure', lectureWords.questions.measure, chosen)}
      >
        {lectureWords.ask}
      </button>
    </section>
  );
}

/** The option with most hands; the first of equals. */
function chosenBy(hands: readonly number[]): number {
  return hands.indexOf(Math.max(...hands));
}

function Vote({ step, exercise }: { step: LectureStep; exercise: DiagnoseExercise }) {
  const asking = step.stage === 'asking';
  const place = chosenBy(step.hands);
  return (
    <section className={styles.panel} aria-label={step.question}>
      {step.stage === 'shown' ? (
        <Verdict step={step} right={place} />
      ) : (
        <Tally step={step} right={asking ? null : place} short chosen />
      )}
      {asking && <LockRow />}
      {step.stage === 'locked' && <Take line={step.options[place] ?? ''} exercise={exercise} />}
      {step.stage === 'shown' && (
        <>
          <Reading line={step.options[place] ?? ''} exercise={exercise} />
          <button type="button" className={styles.primary} onClick={() => setPanel('ask')}>
            {lectureWords.questions.measure}
          </button>
        </>
      )}
    </section>
  );
}

function Take({ line, exercise }: { line: string; exercise: DiagnoseExercise }) {
  const busy = useDiagnosis((s) => s.busy);
  const refused = useDiagnosis((s) => s.refused);
  const test = exercise.diagnose.tests.find((one) => testLine(one, placesOf(exercise)) === line);
  const take = async (): Promise<void> => {
    if (!test) return;
    const before = useDiagnosis.getState().answers.clips.length;
    await takeTest(test);
    if (useDiagnosis.getState().answers.clips.length > before) showTruth();
  };
  return (
    <>
      <button type="button" className={styles.primary} disabled={busy || !test} onClick={() => void take()}>
        {busy ? lectureWords.measuring : lectureWords.measure}
      </button>
      {refused && <p role="status">{refusalText[refused]}</p>}
    </>
  );
}

function Reading({ line, exercise }: { line: string; exercise: DiagnoseExercise }) {
  const clips = useDiagnosis((s) => s.answers.clips);
  const clip = [...clips].reverse().find(({ test }) => testLine(test, placesOf(exercise)) === line);
  if (!clip) return null;
  return (
    <p className={styles.complaint} role="status">
      {readingText(clip.test, clip.values)}
    </p>
  );
}
