/** Where a daylight estimate passed its release level or setpoint: the latest of each row in the window, in words. */

import type { TraceEvent } from '../../../engine/trace.ts';
import { en } from '../../../report/text/en.ts';
import { clockAt, luxNumber } from '../../../report/text/format.ts';
import { firstIndexAtOrAfter, record } from '../../state/record.ts';
import styles from './Recorder.module.css';
import type { StripView } from './view.ts';

type Crossing = Extract<TraceEvent, { kind: 'crossing' }>;

/** Room that the words need beside the circle, px. */
const LABEL_PX = 120;

/** Newest crossing of each row between the window's edge and the instant shown. */
function latest(view: StripView): Crossing[] {
  const found = new Map<string, Crossing>();
  const { events } = record;
  for (let i = firstIndexAtOrAfter(view.shownTick + 1) - 1; i >= 0; i--) {
    const event = events[i]!;
    if (event.tick < view.fromTick || found.size === 2) break;
    if (event.kind === 'crossing' && !found.has(event.row)) found.set(event.row, event);
  }
  return [...found.values()];
}

export function Crossings({ view, y }: { view: StripView; y: (lx: number) => number }) {
  const crossings = latest(view);
  return (
    <>
      {crossings.map((crossing) => {
        const x = view.xOf(crossing.tick);
        const cy = y(crossing.limitLx);
        const free = view.xOf(view.shownTick) - x > LABEL_PX && x > LABEL_PX / 2;
        const alone = crossings.every((c) => c === crossing || Math.abs(view.xOf(c.tick) - x) > LABEL_PX);
        return (
          <g
            key={crossing.row}
            data-channel={crossing.row === 'inner' ? 'innerRow' : 'windowRow'}
            className={styles.channelText}
          >
            <circle cx={x} cy={cy} r={4.5} className={styles.diamond} />
            {free && alone && (
              <text x={x + 2} y={cy + (crossing.level === 'release' ? -9 : 18)} className={styles.edgeText}>
                {en.recorder.passed(
                  luxNumber(crossing.limitLx),
                  clockAt(crossing.tick, view.scenario.start).slice(0, 5),
                )}
              </text>
            )}
          </g>
        );
      })}
    </>
  );
}
