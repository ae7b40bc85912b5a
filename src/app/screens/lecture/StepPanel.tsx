/** One question to the class: hands counted, locked, shown beside what happened; then the reason. */
import { useEffect } from 'react';
import { truthOf } from '../../../report/tally.ts';
import { lectureWords, type QuestionKind } from '../../../report/text/lecture.ts';
import { pause } from '../../state/acts.ts';
import {
  askOfRun,
  type LectureStep,
  roomId,
  setCovered,
  showTruth,
  stepNow,
  useLecture,
} from '../../state/lecture/lecture.ts';
import { record } from '../../state/record.ts';
import { getApp, useApp } from '../../state/store.ts';
import { GuessTools } from './GuessTools.tsx';
import { Happened } from './Happened.tsx';
import styles from './Lecture.module.css';
import { LectureReason } from './LectureReason.tsx';
import { LockRow, Tally } from './Tally.tsx';

const KINDS: readonly Exclude<QuestionKind, 'measure'>[] = ['own', 'first', 'firstOff', 'lastOff', 'dark'];

export function StepPanel() {
  useApp(roomId);
  const panel = useLecture((s) => s.panel);
  const step = useLecture((s) => stepNow(s));
  const covered = useApp((s) => s.lecture?.covered ?? true);
  const asking = step?.stage === 'asking';
  return (
    <>
      {!step || panel === 'ask' ? <AskList /> : <Step step={step} />}
      {!covered && panel !== 'ask' && <LectureReason />}
      {covered && !asking && (
        <div className={styles.row}>
          <button type="button" className={styles.plain} onClick={() => setCovered(false)}>
            {lectureWords.reveal}
          </button>
        </div>
      )}
    </>
  );
}

function AskList() {
  return (
    <section className={styles.panel} aria-label={lectureWords.ask}>
      <h2>{lectureWords.ask}</h2>
      <ul className={styles.list}>
        {KINDS.map((kind) => (
          <li key={kind}>
            <button type="button" className={styles.choice} onClick={() => askOfRun(kind)}>
              {lectureWords.questions[kind]}
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** The truth of a step, at the instant shown; nothing before it is asked for. */
function useTruth(step: LectureStep) {
  useApp((s) => s.recordVersion);
  const shown = useApp((s) => Math.max(s.shownTick, s.status.headTick - 1));
  const { kind, fromTick, guesses } = step;
  return truthOf({ kind, fromTick, guesses }, record.events, shown);
}

function Step({ step }: { step: LectureStep }) {
  const truth = useTruth(step);
  const covered = useApp((s) => s.lecture?.covered ?? true);
  const settled = step.stage === 'locked' && truth.settled;
  // Where nothing can change the answer any more the room stops, and the class says what it saw.
  useEffect(() => {
    if (settled && getApp().status.running) pause();
  }, [settled]);
  const right = step.stage === 'shown' ? truth.option : null;
  return (
    <section className={styles.panel} aria-label={step.question}>
      {covered && <Tally step={step} right={right} short={step.stage === 'shown'} />}
      {step.kind === 'dark' && step.stage === 'asking' && <GuessTools step={step} />}
      {step.stage === 'asking' && <LockRow />}
      {step.stage === 'locked' && <Locked settled={settled} />}
      {step.stage === 'shown' && covered && <Happened truth={truth} />}
    </section>
  );
}

function Locked({ settled }: { settled: boolean }) {
  const ran = useLecture((s) => stepNow(s)?.fromTick ?? 0);
  const moved = useApp((s) => s.status.headTick - 1 > ran);
  return (
    <>
      <p className={styles.say} role="status">
        {moved ? lectureWords.whatSeen : lectureWords.locked}
      </p>
      {moved && (
        <button type="button" className={settled ? styles.primary : styles.plain} onClick={showTruth}>
          {lectureWords.show}
        </button>
      )}
    </>
  );
}
