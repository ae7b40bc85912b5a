/** Twelve months as bars: hours on (solid) and hours that daylight was enough (hatched) of each row, and of the air contact. */

import { yearWords } from '../../../report/text/year.ts';
import type { YearLine } from '../../../report/year.ts';
import styles from './insight.module.css';

const HEIGHT = 300;
const TOP = 16;
const BOTTOM = 252;
const LEFT = 44;
/** Under this width the letters under the bars would run together, px. */
const LETTERS_FROM_PX = 640;

interface Bar {
  letter: string;
  channel: string;
  solidH: number;
  hatchedH: number;
}

function barsOf(line: YearLine): Bar[] {
  return [
    { letter: 'I', channel: 'innerRow', solidH: line.inner.litH, hatchedH: line.inner.daylightH },
    { letter: 'W', channel: 'windowRow', solidH: line.window.litH, hatchedH: line.window.daylightH },
    { letter: 'A', channel: 'airContact', solidH: line.airH, hatchedH: 0 },
  ];
}

/** Hours at the top of the axis: a round number of fifties. */
function topHours(lines: readonly YearLine[]): number {
  const most = Math.max(1, ...lines.flatMap((line) => barsOf(line).map((bar) => bar.solidH + bar.hatchedH)));
  return Math.ceil(most / 50) * 50;
}

function Hatches() {
  return (
    <defs>
      {['innerRow', 'windowRow'].map((channel, i) => (
        <pattern
          key={channel}
          id={`year-${channel}`}
          width="6"
          height="6"
          patternUnits="userSpaceOnUse"
          patternTransform={`rotate(${i === 0 ? 45 : -45})`}
          data-channel={channel}
        >
          <path d="M0 0V6" className={styles.hatched} />
        </pattern>
      ))}
    </defs>
  );
}

/** `lines`: months only. */
export function YearPlot({ lines, width }: { lines: readonly YearLine[]; width: number }) {
  if (width < 100 || lines.length === 0) return null;
  const top = topHours(lines);
  const y = (hours: number): number => BOTTOM - (hours / top) * (BOTTOM - TOP);
  const slot = (width - LEFT - 8) / 12;
  const bar = Math.min(26, slot / 3.8);
  return (
    <svg width={width} height={HEIGHT} className={styles.plot} aria-hidden="true">
      <Hatches />
      {Array.from({ length: top / 50 + 1 }, (_, i) => i * 50).map((hours) => (
        <g key={hours}>
          <path d={`M${LEFT} ${y(hours)}H${width}`} className={styles.grid} />
          <text x={LEFT - 8} y={y(hours) + 5} textAnchor="end" className={styles.axisText}>
            {hours}
          </text>
        </g>
      ))}
      {lines.map((line, m) => {
        const from = LEFT + 8 + m * slot + (slot - 3.4 * bar) / 2;
        return (
          <g key={line.label}>
            {barsOf(line).map(({ letter, channel, solidH, hatchedH }, i) => {
              const x = from + i * 1.2 * bar;
              return (
                <g key={letter} data-channel={channel}>
                  <rect x={x} y={y(solidH)} width={bar} height={BOTTOM - y(solidH)} className={styles.solid} />
                  {hatchedH > 0 && (
                    <rect
                      x={x + 0.75}
                      y={y(solidH + hatchedH)}
                      width={bar - 1.5}
                      height={y(solidH) - y(solidH + hatchedH)}
                      fill={`url(#year-${channel})`}
                      className={styles.hatched}
                    />
                  )}
                  {width >= LETTERS_FROM_PX && (
                    <text x={x + bar / 2} y={BOTTOM + 18} textAnchor="middle" className={styles.axisText}>
                      {letter}
                    </text>
                  )}
                </g>
              );
            })}
            <text x={from + 1.7 * bar} y={BOTTOM + 40} textAnchor="middle" className={styles.title}>
              {width >= LETTERS_FROM_PX ? line.label : line.label.slice(0, 1)}
            </text>
          </g>
        );
      })}
      <path d={`M${LEFT} ${BOTTOM}H${width}`} className={styles.axis} />
      <text x={LEFT + 6} y={TOP - 2} className={styles.axisText}>
        {yearWords.hours}
      </text>
    </svg>
  );
}
