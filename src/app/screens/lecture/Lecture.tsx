/** The lecture: the stage in front of a class, with its question, its hands, the outputs, and the covered reason. */
import { lazy, Suspense, useEffect } from 'react';
import type { OutputId } from '../../../engine/types.ts';
import { OUTPUTS } from '../../../engine/view.ts';
import { lectureWords } from '../../../report/text/lecture.ts';
import { outputName } from '../../../report/text/names.ts';
import { ClockBar } from '../../panels/ClockBar.tsx';
import { OutputBadge, useOutputRest, useOutputWord } from '../../panels/OutputLine.tsx';
import { Recorder } from '../../panels/recorder/Recorder.tsx';
import { leaveLecture, roomId, stepNow, useLecture } from '../../state/lecture/lecture.ts';
import { selectOutput, useApp } from '../../state/store.ts';
import styles from './Lecture.module.css';
import { LectureRail } from './LectureRail.tsx';
import { StepPanel } from './StepPanel.tsx';
import { StepStrip } from './StepStrip.tsx';
import { Tools } from './Tools.tsx';
import { useBigScreen } from './useBigScreen.ts';
import { useClicker } from './useClicker.ts';

const Recap = lazy(async () => ({ default: (await import('./Recap.tsx')).Recap }));
const MorePanel = lazy(async () => ({ default: (await import('./MorePanel.tsx')).MorePanel }));
const CasePanel = lazy(async () => ({ default: (await import('./CasePanel.tsx')).CasePanel }));
const CaseTrail = lazy(async () => ({ default: (await import('./CaseTrail.tsx')).CaseTrail }));

export function Lecture() {
  useBigScreen();
  useClicker();
  const kind = useApp((s) => s.job?.kind ?? null);
  const recap = useLecture((s) => s.recap);
  const onCase = kind === 'diagnose';
  // The other papers are for one's own screen.
  useEffect(() => {
    if (kind !== null && !onCase) leaveLecture();
  }, [kind, onCase]);
  return (
    <>
      <Tools />
      <Question />
      <StepStrip />
      <LectureRail />
      <aside className={styles.side} aria-label={lectureWords.name}>
        <Outputs />
        <Side onCase={onCase} />
      </aside>
      <footer className={styles.band}>
        <ClockBar />
        <div className={styles.strip}>
          {onCase ? (
            <Suspense fallback={null}>
              <CaseTrail />
            </Suspense>
          ) : (
            <Recorder />
          )}
        </div>
      </footer>
      {recap && (
        <Suspense fallback={null}>
          <Recap />
        </Suspense>
      )}
    </>
  );
}

function Side({ onCase }: { onCase: boolean }) {
  const panel = useLecture((s) => s.panel);
  if (panel === 'more') {
    return (
      <Suspense fallback={null}>
        <MorePanel />
      </Suspense>
    );
  }
  if (onCase) {
    return (
      <Suspense fallback={null}>
        <CasePanel />
      </Suspense>
    );
  }
  return <StepPanel />;
}

/** What the class is asked; the story's own question until something else is. */
function Question() {
  const own = useApp((s) => s.scenario?.question ?? '');
  // The room is part of the answer: another story has other questions.
  useApp(roomId);
  const asked = useLecture((s) => stepNow(s)?.question ?? null);
  return <h1 className={styles.question}>{asked ?? own}</h1>;
}

/** ON and OFF for the last row. Why, and how long, is part of the reason; of the chosen one the card tells it. */
function Outputs() {
  return (
    <ul className={styles.outputs}>
      {OUTPUTS.map((output) => (
        <Output key={output} output={output} />
      ))}
    </ul>
  );
}

function Output({ output }: { output: OutputId }) {
  const word = useOutputWord(output);
  const rest = useOutputRest(output);
  const covered = useApp((s) => s.lecture?.covered ?? true);
  const size = useApp((s) => Math.round(56 * (s.lecture?.scale ?? 1)));
  const chosen = useApp((s) => s.lastOutput === output);
  return (
    <li>
      <button
        type="button"
        className={styles.output}
        data-channel={output}
        aria-pressed={chosen}
        onClick={() => selectOutput(output)}
      >
        <span className={styles.badge}>
          <OutputBadge output={output} size={size} />
        </span>
        <span className={styles.outputText}>
          <span className={styles.outputName}>{outputName[output]}</span>
          <b className={word.length > 6 ? styles.longWord : styles.word}>{word}</b>
          {!covered && !chosen && rest && <span className={styles.rest}>{rest}</span>}
        </span>
      </button>
    </li>
  );
}
