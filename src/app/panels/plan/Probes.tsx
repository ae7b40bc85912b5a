/** Lux meters on the plan: a round tag with the meter's number on its rim; an eye has a notch where it looks. */
import type { Scenario } from '../../../engine/types.ts';
import { type Box, boxAround, LABEL_WEIGHT, placeRound, type Spot } from '../../../report/places.ts';
import type { PlanScale } from '../../../report/planGeometry.ts';
import { type Probe, useProbes } from '../../state/probes.ts';
import { useProbeTag } from '../../state/probeText.ts';
import styles from './Plan.module.css';

const TAG_R = 22;

export default function PlanProbes({ scenario, scale }: { scenario: Scenario; scale: PlanScale }) {
  const probes = useProbes((s) => s.probes);
  const points = probes.map(({ atM }) => ({ x: scale.x(atM[0]), y: scale.y(atM[1]), radiusPx: TAG_R }));
  const { widthM, depthM, deskPoints } = scenario.room;
  const inside: Box = { left: scale.x(0), right: scale.x(widthM), top: scale.y(depthM), bottom: scale.y(0) };
  // Tags of desk points mostly stand below to the left of their points.
  const taken = deskPoints.map(({ atM }) => ({
    box: boxAround(scale.x(atM[0]) - TAG_R, scale.y(atM[1]) + TAG_R, TAG_R),
    weight: LABEL_WEIGHT,
  }));
  const spots = placeRound(points, taken, inside);
  return (
    <g>
      {probes.map((probe, i) => (
        <ProbeTag key={probe.id} probe={probe} at={points[i]!} tag={spots[i]!} />
      ))}
    </g>
  );
}

function ProbeTag({ probe, at, tag }: { probe: Probe; at: Spot; tag: Spot }) {
  const { number, unit, stale } = useProbeTag(probe.id);
  const chosen = useProbes((s) => s.chosen === probe.id);
  return (
    <g data-probe={probe.id} opacity={stale ? 0.55 : 1}>
      <path d={`M${at.x} ${at.y}L${tag.x} ${tag.y}`} className={styles.leader} />
      <circle cx={at.x} cy={at.y} r={5} className={styles.spot} />
      {probe.tiltDeg > 0 && probe.tiltDeg < 180 && (
        <path
          d="M-6 -6L0 -15L6 -6z"
          transform={`translate(${at.x} ${at.y}) rotate(${probe.headingDeg})`}
          className={styles.pipOn}
        />
      )}
      <circle cx={tag.x} cy={tag.y} r={TAG_R} className={styles.tag} style={chosen ? { strokeWidth: 3 } : undefined} />
      <text x={tag.x} y={tag.y + 2} textAnchor="middle" className={styles.tagNumberLong}>
        {number}
      </text>
      <text x={tag.x} y={tag.y + 15} textAnchor="middle" className={styles.tagUnit}>
        {unit}
      </text>
      <circle cx={tag.x + 17} cy={tag.y - 17} r={9} className={styles.letterDisc} />
      <text x={tag.x + 17} y={tag.y - 12} textAnchor="middle" className={styles.letter}>
        {probe.id}
      </text>
    </g>
  );
}
