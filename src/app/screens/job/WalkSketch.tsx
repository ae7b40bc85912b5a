/** The lines on offer in the outline of the room. The table beside it says the same. */
import type { PointM, Scenario } from '../../../engine/types.ts';
import type { WalkOffer } from '../../../exercise/observe/walks.ts';
import { walksWords } from '../../../report/text/walks.ts';
import styles from './WalkSketch.module.css';

/** Units of the drawing for each metre. Assumed: on a sheet of 360 px they come near to a pixel each. */
const PER_M = 40;
/** Numbers stand so far beyond the end of a line, m. */
const BEYOND_M = 0.35;

export function WalkSketch({ scenario, offers }: { scenario: Scenario; offers: readonly WalkOffer[] }) {
  const { widthM, depthM } = scenario.room;
  const x = (p: PointM): number => p[0] * PER_M;
  const y = (p: PointM): number => (depthM - p[1]) * PER_M;
  const detector = scenario.mount.atM;
  return (
    <svg
      className={styles.sketch}
      viewBox={`-2 -2 ${widthM * PER_M + 4} ${depthM * PER_M + 4}`}
      role="img"
      aria-label={walksWords.sketch}
    >
      <rect width={widthM * PER_M} height={depthM * PER_M} className={styles.room} />
      <path d={`M${x(detector)} ${y(detector)}m0 -9l9 9l-9 9l-9 -9z`} className={styles.detector} />
      <text x={x(detector) + 14} y={y(detector) + 6}>
        {walksWords.detector}
      </text>
      {offers.map(({ id, fromM, toM }) => {
        const length = Math.hypot(toM[0] - fromM[0], toM[1] - fromM[1]);
        const beyond = (i: 0 | 1): number => toM[i] + ((toM[i] - fromM[i]) / length) * BEYOND_M;
        const end: PointM = [beyond(0), beyond(1)];
        return (
          <g key={id}>
            <line x1={x(fromM)} y1={y(fromM)} x2={x(toM)} y2={y(toM)} className={styles.line} />
            <text x={x(end)} y={y(end) + 6} textAnchor="middle" className={styles.number}>
              {id}
            </text>
          </g>
        );
      })}
      {offers[0] && <circle cx={x(offers[0].fromM)} cy={y(offers[0].fromM)} r={7} className={styles.begin} />}
    </svg>
  );
}
