/** The page: stage, paper at the right, time below. Where things lie is CSS; what they show is the store's. */
import { lazy, Suspense, useEffect } from 'react';
import { en } from '../report/text/en.ts';
import styles from './App.module.css';
import { ClockBar } from './panels/ClockBar.tsx';
import { Recorder } from './panels/recorder/Recorder.tsx';
import { Narration } from './screens/Narration.tsx';
import { RightSheet } from './screens/RightSheet.tsx';
import { Stage } from './screens/Stage.tsx';
import { setSightWanted, undoLast } from './state/session.ts';
import { getApp, setApp, useApp } from './state/store.ts';

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
  const theme = useApp((s) => s.theme);
  const title = useApp((s) => s.scenario?.title ?? '');
  const sight = useApp((s) => s.overlay === 'sight');
  const about = useApp((s) => s.aboutOpen);
  useEffect(() => {
    document.title = title ? `${title} · ${en.product}` : en.product;
  }, [title]);
  useEffect(() => setSightWanted(sight), [sight]);
  return (
    <div className={opening ? styles.opening : styles.main}>
      <main className={styles.stage} data-theme={theme}>
        <Stage opening={opening} />
      </main>
      {!opening && (
        <>
          <div className={styles.sheet}>
            <RightSheet />
          </div>
          <footer className={styles.band}>
            <ClockBar />
            <div className={styles.strip}>
              <Recorder />
            </div>
          </footer>
        </>
      )}
      {about && (
        <Suspense fallback={null}>
          <About />
        </Suspense>
      )}
      <Narration />
    </div>
  );
}
