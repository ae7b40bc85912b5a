/** Foretelling, in the place of the Recorder: what is given above, the edges expected in the bands, the editor below. */
import { useMemo, useRef } from 'react';
import type { OutputId, Scenario } from '../../../engine/types.ts';
import type { Given } from '../../../exercise/predict/given.ts';
import type { PredictExercise } from '../../../exercise/types.ts';
import { en } from '../../../report/text/en.ts';
import { clockAt } from '../../../report/text/format.ts';
import { jobWords } from '../../../report/text/jobs.ts';
import { outputName } from '../../../report/text/names.ts';
import { addEdge, chooseEdge, lockAndRun, usePrediction } from '../../state/job/predict.ts';
import { useApp } from '../../state/store.ts';
import clockStyles from '../ClockBar.module.css';
import recorder from '../recorder/Recorder.module.css';
import { useSize } from '../useSize.ts';
import { EdgeEditor } from './EdgeEditor.tsx';
import { GivenTable } from './GivenTable.tsx';
import styles from './JobBand.module.css';
import { ForetoldBands, GivenRows } from './JobStrip.tsx';
import { type JobStripView, jobStripView } from './view.ts';

/** An edge this near to a tap is meant, px. Assumed: half a finger's width. */
const NEAR_PX = 14;

export function JobBand() {
  const exercise = usePrediction((s) => s.exercise);
  const given = usePrediction((s) => s.given);
  const scenario = useApp((s) => s.scenario);
  if (!exercise || !scenario) return null;
  return (
    <footer className={styles.band}>
      <LockBar exercise={exercise} scenario={scenario} ready={given !== null} />
      {given ? (
        <div className={styles.right}>
          <Strip exercise={exercise} given={given} scenario={scenario} />
          <EdgeEditor exercise={exercise} scenario={scenario} />
          <GivenTable exercise={exercise} given={given} scenario={scenario} />
        </div>
      ) : (
        <p className={styles.preparing} role="status">
          {jobWords.preparing}
        </p>
      )}
    </footer>
  );
}

function LockBar({ exercise, scenario, ready }: { exercise: PredictExercise; scenario: Scenario; ready: boolean }) {
  const roomReady = useApp((s) => s.readiness === 'ready');
  const speed = useApp((s) => s.speed);
  const count = usePrediction((s) => Object.values(s.edges).reduce((sum, list) => sum + list.length, 0));
  const clock = clockAt(exercise.predict.fromS * 10, scenario.start);
  return (
    <section className={clockStyles.bar} aria-label={jobWords.lockAndRun}>
      <p className={clockStyles.clock}>
        {clock.slice(0, 5)}
        <span className={clockStyles.seconds}>{clock.slice(5)}</span>
      </p>
      <p className={clockStyles.status}>{jobWords.pausedAt(speed)}</p>
      <button type="button" className={clockStyles.run} disabled={!ready || !roomReady} onClick={lockAndRun}>
        <svg width="22" height="22" viewBox="0 0 22 22" aria-hidden="true">
          <path d="M4 2 20 11 4 20z" />
        </svg>
        {jobWords.lockAndRun}
      </button>
      <p className={styles.lockNote}>
        <b>{jobWords.edgesSet(count)}</b> {jobWords.lockNote}
      </p>
    </section>
  );
}

interface StripProps {
  exercise: PredictExercise;
  given: Given;
  scenario: Scenario;
}

function Strip({ exercise, given, scenario }: StripProps) {
  const box = useRef<HTMLDivElement>(null);
  const { width, height } = useSize(box);
  const view = useMemo(
    () => (width < 50 ? null : jobStripView(exercise, scenario, width, height)),
    [exercise, scenario, width, height],
  );
  const tap = (event: React.PointerEvent): void => {
    if (!view || event.button !== 0) return;
    const frame = event.currentTarget.getBoundingClientRect();
    const x = event.clientX - frame.left;
    const y = event.clientY - frame.top;
    const band = view.bands.find(({ topPx, heightPx }) => y >= topPx - 18 && y <= topPx + heightPx + 6);
    if (band) tapBand(view, band.output, x);
  };
  return (
    <div className={styles.strip}>
      <div className={recorder.labels} aria-hidden="true">
        {view && <Labels view={view} />}
      </div>
      <div ref={box} className={styles.plot} onPointerUp={tap}>
        {view && (
          <svg width={width} height={height} role="img" aria-label={jobWords.strip} className={recorder.svg}>
            <GivenRows view={view} given={given} />
            <ForetoldBands view={view} given={given} />
          </svg>
        )}
      </div>
    </div>
  );
}

function tapBand(view: JobStripView, output: OutputId, x: number): void {
  const edges = usePrediction.getState().edges[output] ?? [];
  const near = edges.findIndex(({ atS }) => Math.abs(view.xOf(atS) - x) <= NEAR_PX);
  if (near >= 0) chooseEdge(output, near);
  else addEdge(output, view.sOf(x));
}

function Labels({ view }: { view: JobStripView }) {
  const { seen, estimate } = view;
  return (
    <>
      <span style={{ top: (seen.topPx + seen.bottomPx) / 2 }}>{en.recorder.seen}</span>
      <span style={{ top: (estimate.topPx + estimate.bottomPx) / 2 }}>
        {en.recorder.estimate[0]}
        <br />
        {en.recorder.estimate[1]}
        <br />
        <small className={styles.small}>{jobWords.given}</small>
      </span>
      {view.bands.map(({ output, topPx, heightPx }) => (
        <span key={output} data-channel={output} style={{ top: topPx + heightPx / 2 }} className={recorder.bandLabel}>
          {outputName[output]}
        </span>
      ))}
    </>
  );
}
