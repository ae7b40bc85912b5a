/** Where the detector hangs and which way it is turned, by buttons. */
import { editWords } from '../../../report/text/edit.ts';
import { moveDetector, TURN_DEG, turnDetector } from '../../state/editActs.ts';
import { useApp } from '../../state/store.ts';
import { Stepper } from '../ui.tsx';
import styles from './EditPanel.module.css';
import { Moves } from './Moves.tsx';

export function DetectorMoves() {
  const mount = useApp((s) => s.setup?.mount ?? null);
  if (!mount) return null;
  return (
    <>
      <h3>{editWords.detector}</h3>
      <Moves name={editWords.detector} atM={mount.atM} move={(by) => moveDetector(mount, by)} />
      <div className={styles.line}>
        <span>{editWords.turned}</span>
        <Stepper
          label={editWords.turned}
          value={editWords.degrees(Math.round(mount.turnDeg))}
          less={() => turnDetector(mount, -TURN_DEG)}
          more={() => turnDetector(mount, TURN_DEG)}
        />
      </div>
    </>
  );
}
