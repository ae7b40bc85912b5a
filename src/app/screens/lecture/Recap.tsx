/** The end of a lecture: what happened, each with its reason and a way back to its instant; and the same room to take home. */
import { lazy, Suspense, useEffect, useRef } from 'react';
import { recapOf } from '../../../report/recap.ts';
import { clockAt } from '../../../report/text/format.ts';
import { lectureWords } from '../../../report/text/lecture.ts';
import { setRecap } from '../../state/lecture/lecture.ts';
import { record } from '../../state/record.ts';
import { useApp } from '../../state/store.ts';
import { send } from '../../state/wire.ts';
import { addressOf, shortCode, takesHome } from './address.ts';
import styles from './Lecture.module.css';

const QrCode = lazy(async () => ({ default: (await import('./QrCode.tsx')).QrCode }));

export function Recap() {
  const box = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    if (!box.current?.open) box.current?.showModal();
  }, []);
  const scenario = useApp((s) => s.scenario);
  const headTick = useApp((s) => Math.max(s.shownTick, s.status.headTick - 1));
  // A sealed room has not said why yet.
  const sealed = useApp((s) => s.job?.sealed ?? false);
  if (!scenario) return null;
  const markers = sealed ? [] : recapOf(record.events, headTick);
  const go = (tick: number) => (): void => {
    setRecap(false);
    send({ type: 'seek', tick });
  };
  return (
    <dialog ref={box} className={styles.page} aria-label={lectureWords.recap} onClose={() => setRecap(false)}>
      <div className={styles.pageHead}>
        <h1>{lectureWords.recapNote}</h1>
        <button type="button" className={styles.plain} onClick={() => setRecap(false)}>
          {lectureWords.recapClose}
        </button>
      </div>
      {markers.length === 0 && <p>{lectureWords.recapEmpty}</p>}
      <ol className={styles.markers}>
        {markers.map(({ tick, text }) => (
          <li key={`${tick} ${text}`}>
            <button type="button" className={styles.moment} onClick={go(tick)}>
              {clockAt(tick, scenario.start)}
            </button>
            <span>{text}</span>
          </li>
        ))}
      </ol>
      <TakeHome />
    </dialog>
  );
}

function TakeHome() {
  // The address follows the job or story that is open.
  const title = useApp((s) => s.scenario?.title ?? '');
  const address = addressOf();
  const reachable = takesHome(location);
  return (
    <section className={styles.takeHome} aria-label={lectureWords.toWorkshop}>
      {reachable && (
        <Suspense fallback={null}>
          <QrCode text={address} />
        </Suspense>
      )}
      <div>
        <h2>
          {lectureWords.toWorkshop}: {title}
        </h2>
        <p>
          {lectureWords.code} <b className={styles.code}>{shortCode()}</b>
        </p>
        <p>{reachable ? address : lectureWords.localOnly}</p>
      </div>
    </section>
  );
}
