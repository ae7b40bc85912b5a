/** Reasons drawn as quantities: a time against its delay, an estimate against its limit. Numbers come from the engine. */
import type { ReactNode } from 'react';
import { en } from '../../report/text/en.ts';
import { luxBeside, luxText } from '../../report/text/format.ts';
import { logScale } from './logScale.ts';
import styles from './Quantities.module.css';

interface TimeBarProps {
  /** Share of the whole that has passed, 0-1. */
  share: number;
  left: ReactNode;
  right: string;
}

export function TimeBar({ share, left, right }: TimeBarProps) {
  const percent = `${Math.min(1, Math.max(0, share)) * 100}%`;
  return (
    <div className={styles.bar}>
      <div className={styles.track}>
        <div className={styles.fill} style={{ width: percent }} />
      </div>
      <div className={styles.ends}>
        <span>{left}</span>
        <span>{right}</span>
      </div>
    </div>
  );
}

interface LuxScaleProps {
  valueLx: number;
  limitLx: number;
  /** "set" or "release". */
  limitWord: string;
}

/** Whole decades around both figures: 100-1 000, 10-1 000, 100-10 000 …; less than 10 lx stands at the left end. */
export function decades(valueLx: number, limitLx: number): [number, number] {
  const low = Math.min(valueLx, limitLx);
  const high = Math.max(valueLx, limitLx);
  return [low >= 100 ? 100 : 10, high > 1000 ? 10_000 : 1000];
}

function minorTicks([low, high]: [number, number]): number[] {
  const out: number[] = [];
  for (let decade = low; decade < high; decade *= 10) {
    for (let n = 1; n < 10; n++) out.push(decade * n);
  }
  return [...out, high];
}

/** Diamond of the daylight estimate on a log scale, with the limit it meets. */
export function LuxScale({ valueLx, limitLx, limitWord }: LuxScaleProps) {
  const ends = decades(valueLx, limitLx);
  const x = logScale(ends, [0, 100]);
  const valueX = x(valueLx);
  const limitX = x(limitLx);
  const text = luxBeside(valueLx, limitLx);
  return (
    <div className={styles.scale}>
      <div
        className={styles.label}
        style={valueX > 50 ? { right: `${100 - valueX - 6}%` } : { left: `${Math.max(0, valueX - 6)}%` }}
      >
        {en.reason.daylightEstimate} <b>{text}</b>
      </div>
      <div className={styles.track}>
        <div className={styles.upTo} style={{ width: `${limitX}%` }} />
        <div className={styles.limit} style={{ left: `${limitX}%` }} />
        <svg className={styles.diamond} style={{ left: `${valueX}%` }} width="20" height="20" aria-hidden="true">
          <path d="M10 2l8 8-8 8-8-8z" />
        </svg>
      </div>
      <div className={styles.axis} aria-hidden="true">
        {minorTicks(ends).map((lx) => (
          <i key={lx} style={{ left: `${x(lx)}%` }} />
        ))}
      </div>
      <div className={styles.ends} aria-hidden="true">
        <span>{luxText(ends[0]).replace(' lx', '')}</span>
        <b className={styles.limitText} style={{ left: `${limitX}%` }}>
          {limitWord} {luxText(limitLx).replace(' lx', '')}
        </b>
        {limitX < 72 && <span>{luxText(ends[1]).replace(' lx', '')}</span>}
      </div>
    </div>
  );
}
