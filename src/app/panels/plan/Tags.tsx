/** Readings at their places: round = light at a place, diamond = what the detector works with, always named. */

import type { RowId, Scenario } from '../../../engine/types.ts';
import { en } from '../../../report/text/en.ts';
import { luxNumber } from '../../../report/text/format.ts';
import { useApp, useShown } from '../../state/store.ts';
import type { PlanScale } from './geometry.ts';
import styles from './Plan.module.css';

const TAG_R = 21;
const DIAMOND_R = 27;

export function PlanTags({ scenario, scale }: { scenario: Scenario; scale: PlanScale }) {
  return (
    <g>
      {scenario.room.deskPoints.map((point, i) => (
        <DeskTag key={point.id} index={i} xM={point.atM[0]} yM={point.atM[1]} scenario={scenario} scale={scale} />
      ))}
      <Detector scenario={scenario} scale={scale} />
    </g>
  );
}

interface DeskTagProps {
  index: number;
  xM: number;
  yM: number;
  scenario: Scenario;
  scale: PlanScale;
}

/** Tags stand towards the nearer side wall, so that they cover no lamp and no head in the middle. */
function DeskTag({ index, xM, yM, scenario, scale }: DeskTagProps) {
  const lux = useShown((f) => luxNumber(f.deskLx[index] ?? 0), '');
  const { widthM, depthM } = scenario.room;
  const side = xM < widthM / 2 ? -1 : 1;
  const up = yM < depthM / 2 ? 1 : 1;
  const x = scale.x(xM);
  const y = scale.y(yM);
  const tagX = Math.min(Math.max(x + side * 34, scale.x(0) + TAG_R + 4), scale.x(widthM) - TAG_R - 4);
  const tagY = Math.min(Math.max(y + up * 44, scale.y(depthM) + TAG_R + 4), scale.y(0) - TAG_R - 4);
  return (
    <g>
      <path d={`M${x} ${y}L${tagX} ${tagY}`} className={styles.leader} />
      <circle cx={x} cy={y} r={4} className={styles.spot} />
      <circle cx={tagX} cy={tagY} r={TAG_R} className={styles.tag} />
      <text x={tagX} y={tagY + 2} textAnchor="middle" className={styles.tagNumber}>
        {lux}
      </text>
      <text x={tagX} y={tagY + 15} textAnchor="middle" className={styles.tagUnit}>
        lx
      </text>
    </g>
  );
}

function Detector({ scenario, scale }: { scenario: Scenario; scale: PlanScale }) {
  const mount = useApp((s) => s.setup?.mount ?? s.scenario?.mount ?? scenario.mount);
  const movement = useShown((f) => f.pips.movement, false);
  const light = useShown((f) => f.pips.light, false);
  const air = useShown((f) => f.pips.air, false);
  const x = scale.x(mount.atM[0]);
  const y = scale.y(mount.atM[1]);
  return (
    <g>
      <DiamondTag row="window" x={x} y={y} dx={-58} dy={-44} />
      <DiamondTag row="inner" x={x} y={y} dx={62} dy={48} />
      <g transform={`translate(${x} ${y}) rotate(${mount.turnDeg})`}>
        <circle r={14} className={styles.detector} />
        <path d="M0 -14v-5M-4 -17l4 -5l4 5" className={styles.arrow} />
      </g>
      <g transform={`translate(${x} ${y})`}>
        {[movement, light, air].map((filled, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: three pips in a fixed order
          <circle key={i} cx={-6.5 + i * 6.5} r={2.7} className={filled ? styles.pipOn : styles.pip} />
        ))}
      </g>
    </g>
  );
}

interface DiamondTagProps {
  row: RowId;
  x: number;
  y: number;
  dx: number;
  dy: number;
}

function DiamondTag({ row, x, y, dx, dy }: DiamondTagProps) {
  const lux = useShown((f) => luxNumber(f.light[row].daylightEstimateLx), '');
  const at = { x: x + dx, y: y + dy };
  const labelW = 122;
  const right = dx > 0;
  const labelX = right ? at.x + DIAMOND_R - 2 : at.x - DIAMOND_R + 2 - labelW;
  return (
    <g data-channel={row === 'inner' ? 'innerRow' : 'windowRow'}>
      <path d={`M${x} ${y}L${at.x} ${at.y}`} className={styles.channelLeader} />
      <rect x={labelX} y={at.y - 12} width={labelW} height={24} rx={3} className={styles.quantity} />
      <text x={labelX + labelW / 2} y={at.y + 5} textAnchor="middle" className={styles.quantityText}>
        {en.reason.daylightEstimate}
      </text>
      <path
        d={`M${at.x} ${at.y - DIAMOND_R}l${DIAMOND_R} ${DIAMOND_R}l${-DIAMOND_R} ${DIAMOND_R}l${-DIAMOND_R} ${-DIAMOND_R}z`}
        className={styles.diamond}
      />
      <text x={at.x} y={at.y + 2} textAnchor="middle" className={styles.diamondNumber}>
        {lux}
      </text>
      <text x={at.x} y={at.y + 14} textAnchor="middle" className={styles.tagUnit}>
        lx
      </text>
    </g>
  );
}
