/** The page: stage, paper at the right, time below. Where things lie is CSS; what they show is the store's. */
import { lazy, Suspense, useEffect } from 'react';
import { en } from '../report/text/en.ts';
import styles from './App.module.css';
import { ClockBar } from './panels/ClockBar.tsx';
import { Narration } from './screens/Narration.tsx';
import { Stage } from './screens/Stage.tsx';
import { undoLast, wish } from './state/session.ts';
import { getApp, setApp, useApp } from './state/store.ts';

/** Not needed for the first picture; fetched while it is looked at. */
const readSheet = () => import('./screens/RightSheet.tsx');
const readRecorder = () => import('./panels/recorder/Recorder.tsx');
const RightSheet = lazy(async () => ({ default: (await readSheet()).RightSheet }));
const Recorder = lazy(async () => ({ default: (await readRecorder()).Recorder }));
const JobSheet = lazy(async () => ({ default: (await import('./screens/job/JobSheet.tsx')).JobSheet }));
const ToJob = lazy(async () => ({ default: (await import('./screens/job/JobSheet.tsx')).ToJob }));
const JobBand = lazy(async () => ({ default: (await import('./panels/job/JobBand.tsx')).JobBand }));
const Lecture = lazy(async () => ({ default: (await import('./screens/lecture/Lecture.tsx')).Lecture }));
const Clips = lazy(async () => ({ default: (await import('./screens/job/diagnose/Clips.tsx')).Clips }));
const ClassPage = lazy(async () => ({ default: (await import('./screens/ClassPage.tsx')).ClassPage }));
const Notebook = lazy(async () => ({ default: (await import('./screens/notebook/Notebook.tsx')).Notebook }));
const SplitBench = lazy(async () => ({ default: (await import('./screens/split/SplitBench.tsx')).SplitBench }));
const About = lazy(async () => ({ default: (await import('./screens/About.tsx')).About }));

/** Keys that act everywhere. No single letters: they belong to screen readers. */
function useKeys(): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      const typing = event.target instanceof HTMLElement && /^(INPUT|SELECT|TEXTAREA)$/.test(event.target.tagName);
      if (event.key === 'Escape' && getApp().floorTool.kind !== 'none') setApp({ floorTool: { kind: 'none' } });
      if ((event.ctrlKey || event.metaKey) && event.key === 'z' && !typing) {
        event.preventDefault();
        undoLast();
      }
    };
    addEventListener('keydown', onKey);
    return () => removeEventListener('keydown', onKey);
  }, []);
}

export function App() {
  useKeys();
  const opening = useApp((s) => s.screen === 'opening');
  const lecture = useApp((s) => s.lecture !== null);
  const theme = useApp((s) => s.theme);
  const title = useApp((s) => s.scenario?.title ?? '');
  const sight = useApp((s) => s.overlay === 'sight');
  const warmth = useApp((s) => s.overlay === 'warmth' || s.view === 'words');
  const sectionDeg = useApp((s) => (s.overlay === 'sight' || s.view === 'words' ? s.sectionDeg : null));
  const running = useApp((s) => s.status.running);
  const about = useApp((s) => s.aboutOpen);
  const classOpen = useApp((s) => s.classOpen);
  const notebook = useApp((s) => s.notebookOpen);
  const split = useApp((s) => s.splitOpen);
  const stage = useApp((s) => s.job?.stage ?? null);
  const sealed = useApp((s) => s.job?.sealed ?? false);
  const foretelling = stage === 'preparing' || stage === 'predicting';
  useEffect(() => {
    document.title = title ? `${title} · ${en.product}` : en.product;
  }, [title]);
  useEffect(() => wish({ type: 'wantSightMap', wanted: sight }), [sight]);
  useEffect(() => wish({ type: 'wantWarmth', wanted: warmth }), [warmth]);
  useEffect(() => wish({ type: 'wantSection', bearingDeg: sectionDeg }), [sectionDeg]);
  useEffect(() => {
    void readSheet();
    void readRecorder();
  }, []);
  return (
    <div
      className={lecture ? styles.lecture : opening ? styles.opening : foretelling ? styles.foretelling : styles.main}
    >
      <Suspense fallback={null}>{stage && <ToJob />}</Suspense>
      <main className={running ? styles.stageRunning : styles.stage} data-theme={theme}>
        <Stage opening={opening} />
      </main>
      {lecture && (
        <Suspense fallback={null}>
          <Lecture />
        </Suspense>
      )}
      {!opening && !lecture && (
        <>
          <div className={styles.sheet}>
            <Suspense fallback={null}>{stage ? <JobSheet /> : <RightSheet />}</Suspense>
          </div>
          {foretelling ? (
            <Suspense fallback={null}>
              <JobBand />
            </Suspense>
          ) : (
            <footer className={styles.band}>
              <ClockBar />
              <div className={styles.strip}>
                <Suspense fallback={null}>{sealed ? <Clips /> : <Recorder />}</Suspense>
              </div>
            </footer>
          )}
        </>
      )}
      {about && (
        <Suspense fallback={null}>
          <About />
        </Suspense>
      )}
      {classOpen && (
        <Suspense fallback={null}>
          <ClassPage />
        </Suspense>
      )}
      {split && (
        <Suspense fallback={null}>
          <SplitBench />
        </Suspense>
      )}
      {notebook && (
        <Suspense fallback={null}>
          <Notebook />
        </Suspense>
      )}
      <Narration />
    </div>
  );
}
