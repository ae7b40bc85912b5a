/** The arc of the sun on the Big Screen: laid out small and drawn larger, as everything there. */
import { SunRail } from '../../panels/SunRail.tsx';
import { useApp } from '../../state/store.ts';
import styles from './Lecture.module.css';

/** Size before it is drawn larger, px. Source: the column beside the model, screens/Stage.tsx, and three lines of words under it. */
const WIDTH_PX = 212;
const HEIGHT_PX = 56;

export function LectureRail() {
  // Of a hidden cause the sun is part of what was found; words and the side section stand where the arc would.
  const shown = useApp((s) => s.job === null && s.view !== 'words');
  const section = useApp((s) => s.overlay === 'sight' && s.sectionDeg !== null);
  const light = useApp((s) => s.overlay === 'light');
  if (!shown || section) return null;
  return (
    <div className={styles.sunRail} data-light={light}>
      <SunRail width={WIDTH_PX} height={HEIGHT_PX} flat big />
    </div>
  );
}
