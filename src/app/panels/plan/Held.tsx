/** Cover cloth and torch at the detector, from above, for as long as they are held there. */
import type { DetectorMount, RowId } from '../../../engine/types.ts';
import { clothPath, torchPaths } from '../../../report/heldShape.ts';
import type { PlanScale } from '../../../report/planGeometry.ts';
import { useApp, useShown } from '../../state/store.ts';
import styles from './Held.module.css';

export default function PlanHeld({ mount, scale }: { mount: DetectorMount; scale: PlanScale }) {
  const covered = useShown((f) => f.held.cloth !== null, false);
  const side = useShown<RowId | null>((f) => f.held.torch?.side ?? null, null);
  const light = useApp((s) => s.overlay === 'light');
  return (
    <g transform={`translate(${scale.x(mount.atM[0])} ${scale.y(mount.atM[1])})`}>
      {covered && <path d={clothPath()} className={styles.cloth} />}
      {side && <path d={torchPaths(side).beam} className={light ? styles.beamOnLight : styles.beam} />}
      {side && <path d={torchPaths(side).lamp} className={styles.lamp} />}
    </g>
  );
}
