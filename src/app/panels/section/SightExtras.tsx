/** On the plan beside the cells: floor that furniture hides, borders and names of masked sectors, the section's plane. */
import type { DetectorMount } from '../../../engine/types.ts';
import type { PlanScale } from '../../../report/planGeometry.ts';
import { live } from '../../state/live.ts';
import { maskedRuns, sightLabels } from '../../state/sightLabels.ts';
import { useApp, useShown } from '../../state/store.ts';
import plan from '../plan/Plan.module.css';
import styles from './Sight.module.css';

/** Borders of masks and the plane are drawn this far, m; the floor's edge cuts them. */
const FAR_M = 30;

/** From the detector's place on the plan towards a bearing of the room. */
function ray(scale: PlanScale, [x, y]: readonly [number, number], bearingDeg: number, farM = FAR_M): string {
  const rad = (bearingDeg * Math.PI) / 180;
  return `M${scale.x(x)} ${scale.y(y)}L${scale.x(x + Math.sin(rad) * farM)} ${scale.y(y + Math.cos(rad) * farM)}`;
}

/** Half the width of a word, px. Assumed: 14 px type. */
const HALF_CHARACTER_PX = 3.9;

/** `under`: dots, borders and the plane, on which furniture stands; `over`: the words. */
export function SightExtras({ scale, part }: { scale: PlanScale; part: 'under' | 'over' }) {
  useShown(() => live.sightVersion, 0);
  const scenario = useApp((s) => s.scenario);
  const setup = useApp((s) => s.setup);
  const masked = useApp((s) => s.settings?.maskedSectors);
  if (!scenario || !setup) return null;
  const { mount, furniture } = setup;
  if (part === 'under') return <Under scale={scale} mount={mount} masked={masked ?? []} />;
  const labels = sightLabels(scenario.room, mount, masked ?? [], live.shadows, furniture);
  return labels.map(({ text, atM }) => {
    const half = text.length * HALF_CHARACTER_PX;
    const [left, right] = [scale.x(0) + half, scale.x(scenario.room.widthM) - half];
    return (
      <text
        key={`${text} ${atM[0]}`}
        x={Math.max(left, Math.min(right, scale.x(atM[0])))}
        y={scale.y(atM[1]) + 5}
        textAnchor="middle"
        className={`${plan.letter} ${styles.label}`}
      >
        {text}
      </text>
    );
  });
}

function Under({ scale, mount, masked }: { scale: PlanScale; mount: DetectorMount; masked: readonly number[] }) {
  const sectionDeg = useApp((s) => s.sectionDeg);
  const borders = maskedRuns(masked).flatMap(([first, count]) => [first * 30, (first + count) * 30]);
  return (
    <g clipPath="url(#plan-floor)">
      <defs>
        <pattern id="plan-dots" width="7" height="7" patternUnits="userSpaceOnUse">
          <circle cx="1.5" cy="1.5" r="0.9" fill="var(--ink)" />
          <circle cx="5" cy="5" r="0.9" fill="var(--ink)" />
        </pattern>
      </defs>
      {live.shadows.map(({ furnitureId, outlineM }) => (
        <polygon
          key={`${furnitureId} ${outlineM[0]}`}
          points={outlineM.map(([x, y]) => `${scale.x(x).toFixed(1)},${scale.y(y).toFixed(1)}`).join(' ')}
          fill="url(#plan-dots)"
          className={styles.shadow}
        />
      ))}
      <path d={borders.map((deg) => ray(scale, mount.atM, deg + mount.turnDeg)).join('')} className={styles.border} />
      {sectionDeg !== null && (
        <path
          d={ray(scale, mount.atM, sectionDeg) + ray(scale, mount.atM, sectionDeg + 180)}
          className={styles.plane}
          data-plane={sectionDeg}
        />
      )}
    </g>
  );
}
