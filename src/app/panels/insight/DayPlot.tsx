/** Light from midnight to midnight: desks, ceiling readings, daylight estimates, lamps; one clock under all of them. */
import type { DayLight, RowCourse } from '../../../engine/dayLight.ts';
import type { RowId } from '../../../engine/types.ts';
import { dayWords } from '../../../report/text/day.ts';
import { grouped, luxText } from '../../../report/text/format.ts';
import { rowName } from '../../../report/text/names.ts';
import { logScale } from '../logScale.ts';
import styles from './insight.module.css';

/** Ends of the lux axes, lx. Assumed: below 10 a desk is dark for work, 100,000 is full sun; estimates matter near the setpoints. */
const ENDS_LX = { desks: [10, 100_000], readings: [10, 10_000], estimates: [50, 10_000] } as const;
/** Lines with a number, lx; the first is the lower end and what lies under it. */
const LINES_LX = {
  desks: [10, 100, 1000, 10_000, 100_000],
  readings: [10, 100, 1000, 10_000],
  estimates: [50, 200, 1000, 5000],
};
const LEFT = 100;
const RIGHT = 12;
const GAP = 30;
/** Under this width the panes' titles stand a line higher, clear of the traces' names, px. */
const NARROW_PX = 560;
const TITLE_PX = 20;
const TOP = 36;
const BAND = 20;
/** Least and most height of a pane, px, and what the sheet needs beside the three of them. */
const PANE_PX = { least: 84, most: 150, besides: 468 };

const ROWS: readonly RowId[] = ['window', 'inner'];
const CHANNEL = { inner: 'innerRow', window: 'windowRow' } as const;

interface View {
  day: DayLight;
  rows: Record<RowId, RowCourse>;
  width: number;
  /** Height of each of the three panes, px. */
  panePx: number;
  xOf: (s: number) => number;
}

interface PaneProps {
  view: View;
  top: number;
  title: string;
  values: (row: RowCourse) => readonly number[] | null;
  labels: Record<RowId, string>;
  ends: keyof typeof ENDS_LX;
}

function trace(values: readonly number[], view: View, y: (lx: number) => number): string {
  return values
    .map((lx, i) => `${i ? 'L' : 'M'}${view.xOf(i * view.day.everyS).toFixed(1)} ${y(lx).toFixed(1)}`)
    .join('');
}

/** Hour at which a trace's name is written. Assumed: apart from each other, by day. */
const LABEL_H = { window: 10.5, inner: 14.5 };
/** A name is about this wide: it stands clear of its trace over so many samples to both sides. */
const LABEL_SAMPLES = 9;

interface LabelProps {
  view: View;
  row: RowId;
  own: readonly number[];
  other: readonly number[] | null;
  y: (lx: number) => number;
  text: string;
}

/** A trace's name, above it where it is the brighter one, else below. */
function TraceLabel({ view, row, own, other, y, text }: LabelProps) {
  const i = Math.round((LABEL_H[row] * 3600) / view.day.everyS);
  const near = own.slice(i - LABEL_SAMPLES, i + LABEL_SAMPLES + 1);
  const above = !other || own[i]! >= other[i]!;
  return (
    <text
      x={view.xOf(i * view.day.everyS)}
      y={above ? y(Math.max(...near)) - 7 : y(Math.min(...near)) + 18}
      textAnchor="middle"
      data-channel={CHANNEL[row]}
      className={styles.label}
    >
      {text}
    </text>
  );
}

function Pane({ view, top, title, values, labels, ends }: PaneProps) {
  const [low, high] = ENDS_LX[ends];
  const bottom = top + view.panePx;
  const y = logScale([low, high], [bottom, top]);
  return (
    <g>
      <text x={LEFT + 6} y={top - (view.width < NARROW_PX ? 6 + TITLE_PX : 6)} className={styles.title}>
        {title}
      </text>
      {LINES_LX[ends].map((lx) => (
        <g key={lx}>
          <path d={`M${LEFT} ${y(lx)}H${view.width - RIGHT}`} className={styles.grid} />
          <text x={LEFT - 8} y={y(lx) + 5} textAnchor="end" className={styles.axisText}>
            {lx === low ? `≤ ${lx}` : grouped(lx)}
          </text>
        </g>
      ))}
      {ends === 'estimates' && <Limits view={view} y={y} />}
      {ROWS.map((row) => {
        const lx = values(view.rows[row]);
        return lx && <path key={row} d={trace(lx, view, y)} className={styles[row]} />;
      })}
      {ROWS.map((row) => {
        const own = values(view.rows[row]);
        const other = values(view.rows[row === 'inner' ? 'window' : 'inner']);
        return own && <TraceLabel key={row} view={view} row={row} own={own} other={other} y={y} text={labels[row]} />;
      })}
    </g>
  );
}

/** Setpoint and release lines; one of each where both rows have the same. */
function Limits({ view, y }: { view: View; y: (lx: number) => number }) {
  const { inner, window } = view.day.limits;
  const same = inner.setpointLx === window.setpointLx && inner.releaseLx === window.releaseLx;
  return (
    <g>
      {(same ? [inner] : [inner, window]).map(({ setpointLx, releaseLx }, i) =>
        setpointLx === null || releaseLx === null ? null : (
          // biome-ignore lint/suspicious/noArrayIndexKey: the rows' own order
          <g key={i}>
            <path d={`M${LEFT} ${y(setpointLx)}H${view.width - RIGHT}`} className={styles.set} />
            <path d={`M${LEFT} ${y(releaseLx)}H${view.width - RIGHT}`} className={styles.release} />
            <text x={LEFT + 6 + i * 170} y={y(setpointLx) + 16} className={styles.limitText}>
              {same ? '' : `${rowName[i === 0 ? 'inner' : 'window']} · `}
              {dayWords.set(luxText(setpointLx))}
            </text>
            <text x={LEFT + 6 + i * 170} y={y(releaseLx) - 5} className={styles.limitText}>
              {dayWords.release(luxText(releaseLx))}
            </text>
          </g>
        ),
      )}
    </g>
  );
}

/** Stretches of samples for which `is` holds, as [from, to) in s. */
export function stretchesOf(count: number, everyS: number, is: (i: number) => boolean): [number, number][] {
  const out: [number, number][] = [];
  for (let i = 0; i < count; i++) {
    if (!is(i)) continue;
    const last = out.at(-1);
    if (last && last[1] === i * everyS) last[1] = (i + 1) * everyS;
    else out.push([i * everyS, (i + 1) * everyS]);
  }
  return out;
}

function LampBand({ view, row, top }: { view: View; row: RowId; top: number }) {
  const { level } = view.rows[row];
  const count = level.length - 1;
  return (
    <g data-channel={CHANNEL[row]}>
      <path d={`M${LEFT} ${top + BAND}H${view.width - RIGHT}`} className={styles.grid} />
      {stretchesOf(count, view.day.everyS, (i) => level[i]! > 0).map(([from, to]) => (
        <rect
          key={from}
          x={view.xOf(from)}
          y={top}
          width={view.xOf(to) - view.xOf(from)}
          height={BAND}
          className={styles.solid}
        />
      ))}
      <text x={LEFT - 10} y={top + 16} textAnchor="end" className={styles.label}>
        {rowName[row]}
      </text>
    </g>
  );
}

function Clock({ view, bottom, nowS }: { view: View; bottom: number; nowS: number | null }) {
  const stepH = view.width < 700 ? 6 : 2;
  const now = nowS === null ? null : view.xOf(nowS);
  return (
    <g>
      {Array.from({ length: 24 / stepH + 1 }, (_, i) => i * stepH).map((h) => (
        <g key={h}>
          <path d={`M${view.xOf(h * 3600)} ${TOP - 8}V${bottom}`} className={styles.grid} />
          <text x={view.xOf(h * 3600)} y={bottom + 20} textAnchor="middle" className={styles.axisText}>
            {String(h).padStart(2, '0')}
          </text>
        </g>
      ))}
      {now !== null && (
        <g>
          <path d={`M${now} 22V${bottom}`} className={styles.nowLine} />
          <path d={`M${now - 26} 0h52v20H${now + 7}L${now} 28L${now - 7} 20H${now - 26}z`} className={styles.nowFlag} />
          <text x={now} y={15} textAnchor="middle" className={styles.nowText}>
            {dayWords.now}
          </text>
        </g>
      )}
    </g>
  );
}

function Night({ view, bottom }: { view: View; bottom: number }) {
  const { sunUp, everyS } = view.day;
  return (
    <g>
      {stretchesOf(sunUp.length - 1, everyS, (i) => !sunUp[i]).map(([from, to]) => (
        <g key={from}>
          <rect
            x={view.xOf(from)}
            y={TOP - 8}
            width={view.xOf(to) - view.xOf(from)}
            height={bottom - TOP + 8}
            className={styles.night}
          />
          {view.xOf(to) - view.xOf(from) > 90 && from > 0 && (
            <text x={view.xOf(from) + 8} y={TOP + 8} className={styles.axisText}>
              {dayWords.night}
            </text>
          )}
        </g>
      ))}
    </g>
  );
}

/** `nowS`: the sun's own clock, s; null when it is on another day than the plot. */
/** Panes as high as the window lets them be, so that the whole day is seen at once. */
function panePx(): number {
  return Math.min(PANE_PX.most, Math.max(PANE_PX.least, (innerHeight - PANE_PX.besides) / 3));
}

export function DayPlot({ view: given, nowS }: { view: Omit<View, 'xOf' | 'panePx'>; nowS: number | null }) {
  const view: View = { ...given, panePx: panePx(), xOf: (s) => LEFT + (s / 86_400) * (given.width - LEFT - RIGHT) };
  const gap = given.width < NARROW_PX ? GAP + TITLE_PX : GAP;
  const top = (i: number): number => TOP + i * (view.panePx + gap) + 14 + (gap - GAP);
  const bands = top(3) - 16 - (gap - GAP);
  const bottom = bands + 2 * (BAND + 8);
  const places = { inner: '', window: '' };
  for (const row of ROWS) places[row] = dayWords.rowAt(rowName[row], view.rows[row].poorest?.label ?? '');
  return (
    <svg width={view.width} height={bottom + 30} className={styles.plot} aria-hidden="true">
      <Night view={view} bottom={bottom} />
      <Clock view={view} bottom={bottom} nowS={nowS} />
      <Pane
        view={view}
        top={top(0)}
        title={dayWords.desks}
        values={(r) => r.poorest?.lx ?? null}
        labels={places}
        ends="desks"
      />
      <Pane
        view={view}
        top={top(1)}
        title={dayWords.readings}
        values={(r) => r.ceilingReadingLx}
        labels={rowName}
        ends="readings"
      />
      <Pane
        view={view}
        top={top(2)}
        title={dayWords.estimates}
        values={(r) => r.daylightEstimateLx}
        labels={rowName}
        ends="estimates"
      />
      <LampBand view={view} row="inner" top={bands} />
      <LampBand view={view} row="window" top={bands + BAND + 8} />
    </svg>
  );
}
