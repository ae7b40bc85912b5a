/** A verdict as a shape: full, half or empty square; a dotted one where only a person can tell. */
import type { Verdict } from '../../../exercise/commission/types.ts';
import styles from './Assess.module.css';

export function VerdictShape({ verdict }: { verdict: Verdict }) {
  return (
    <svg className={styles.shape} viewBox="0 0 20 20" aria-hidden="true">
      <rect
        x="2"
        y="2"
        width="16"
        height="16"
        fill={verdict === 'met' ? 'currentColor' : 'none'}
        stroke="currentColor"
        strokeWidth="2"
        strokeDasharray={verdict === 'lecturer' ? '2.5 2.5' : undefined}
      />
      {verdict === 'half' && <path d="M2 18V2h8v16z" fill="currentColor" />}
    </svg>
  );
}
