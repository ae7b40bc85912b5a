/** What a lecture needs more seldom: a hidden cause by its number, two attempts beside each other. */
import { useMemo, useState } from 'react';
import { drawerOf } from '../../../exercise/diagnose/drawer.ts';
import { en } from '../../../report/text/en.ts';
import { lectureWords } from '../../../report/text/lecture.ts';
import { exercisesByJob } from '../../state/classTray.ts';
import { setPanel } from '../../state/lecture/lecture.ts';
import { openJobById } from '../../state/start.ts';
import { setApp } from '../../state/store.ts';
import styles from './Lecture.module.css';

export function MorePanel() {
  return (
    <>
      <HiddenPick />
      <section className={styles.panel} aria-label={lectureWords.splitBench}>
        <button type="button" className={styles.choice} onClick={() => setApp({ splitOpen: true })}>
          {lectureWords.splitBench}
        </button>
        <button type="button" className={styles.choice} onClick={() => setApp({ classOpen: true })}>
          {en.actions.class}
        </button>
      </section>
    </>
  );
}

/** Nothing here tells the class which cause it is: the lecturer knows the number from the Class page. */
function HiddenPick() {
  const drawer = useMemo(
    () => drawerOf([...exercisesByJob().values()].flat().filter((exercise) => exercise.kind === 'diagnose')),
    [],
  );
  const [pick, setPick] = useState(1);
  const one = drawer[pick - 1];
  if (!one) return null;
  const step = (by: number) => (): void => setPick(Math.min(drawer.length, Math.max(1, pick + by)));
  const open = async (): Promise<void> => {
    setPanel('ask');
    // Guided: the class sees how many causes still fit after each reading.
    await openJobById(one.exercise, one.seed, 'guided', '');
  };
  return (
    <section className={styles.panel} aria-label={lectureWords.drawer}>
      <h2>{lectureWords.drawer}</h2>
      <p>{lectureWords.drawerIntro}</p>
      <div className={styles.row}>
        {[-10, -1, 1, 10].map((by) => (
          <button
            key={by}
            type="button"
            className={styles.hand}
            aria-label={lectureWords.pickBy(by)}
            onClick={step(by)}
          >
            {by > 0 ? `+${by === 1 ? '' : by}` : by === -1 ? '−' : `−${-by}`}
          </button>
        ))}
        <output>
          <b>{lectureWords.pick(pick, drawer.length)}</b>
        </output>
      </div>
      <button type="button" className={styles.primary} onClick={() => void open()}>
        {lectureWords.openPick}
      </button>
    </section>
  );
}
