/** Lamps of both rows: hollow while off, solid with rays while they give light. */
import type { LuminaireSpec, RowId, Scenario } from '../../../engine/types.ts';
import type { PlanScale } from '../../../report/planGeometry.ts';
import { useApp, useShown } from '../../state/store.ts';
import styles from './Plan.module.css';

/** A bar is at least this wide on paper, px. Assumed: the true 7 cm would vanish. */
const BAR_PX = 10;

function Lamp({ lamp, scale, lit }: { lamp: LuminaireSpec; scale: PlanScale; lit: boolean }) {
  const length = lamp.lengthM * scale.pxPerM;
  const rays = Array.from({ length: 7 }, (_, i) => -length / 2 + ((i + 0.5) * length) / 7);
  const half = BAR_PX / 2;
  return (
    <g transform={`translate(${scale.x(lamp.atM[0])} ${scale.y(lamp.atM[1])}) rotate(${lamp.turnDeg})`}>
      {lit && <path d={rays.map((x) => `M${x} ${-half - 3}v-6M${x} ${half + 3}v6`).join('')} className={styles.rays} />}
      <rect
        x={-length / 2}
        y={-half}
        width={length}
        height={BAR_PX}
        rx={half}
        className={lit ? styles.lampOn : styles.lampOff}
      />
    </g>
  );
}

function Row({ row, scenario, scale }: { row: RowId; scenario: Scenario; scale: PlanScale }) {
  const luminaires = useApp((s) => s.setup?.luminaires ?? scenario.room.luminaires);
  const lit = useShown((f) => f.lamps[row] > 0.02, false);
  return (
    <g data-channel={row === 'inner' ? 'innerRow' : 'windowRow'}>
      {luminaires
        .filter((lamp) => lamp.row === row)
        .map((lamp) => (
          <Lamp key={lamp.id} lamp={lamp} scale={scale} lit={lit} />
        ))}
    </g>
  );
}

export function PlanLamps({ scenario, scale }: { scenario: Scenario; scale: PlanScale }) {
  return (
    <>
      <Row row="inner" scenario={scenario} scale={scale} />
      <Row row="window" scenario={scenario} scale={scale} />
    </>
  );
}
