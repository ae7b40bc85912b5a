/** Rows of the strip above the bands. */
import { useMemo } from 'react';
import { en } from '../../../report/text/en.ts';
import { luxText } from '../../../report/text/format.ts';
import { linePath, signalPath, strokesPath } from '../../../report/traces.ts';
import { firstIndexAtOrAfter, record } from '../../state/record.ts';
import { logScale } from '../logScale.ts';
import { Crossings } from './Crossings.tsx';
import styles from './Recorder.module.css';
import { isCounted } from './stretches.ts';
import type { StripView } from './view.ts';

/** Ends of the log axis, lx. Assumed: under 20 lx all is dark, above 10 000 lx all is bright to a setpoint of 10-1 000 lx. */
const AXIS_LX: [number, number] = [20, 10_000];

/** Counted pulses only: what restarts a delay. */
export function SeenRow({ view }: { view: StripView }) {
  const { seen } = view.layout;
  const path = useMemo(() => {
    const ticks: number[] = [];
    const { events } = record;
    const end = Math.min(view.toTick, view.headTick);
    for (let i = firstIndexAtOrAfter(view.fromTick); i < events.length; i++) {
      const event = events[i]!;
      if (event.tick > end) break;
      if (isCounted(event)) ticks.push(event.tick);
    }
    return strokesPath(ticks, view.fromTick, view.toTick, view.widthPx, seen.topPx, seen.bottomPx);
  }, [view, seen]);
  return (
    <g>
      <path d={`M0 ${seen.bottomPx}H${view.widthPx}`} className={styles.base} />
      <path d={path} className={styles.stroke} data-row="seen" />
    </g>
  );
}

/** Signals taller than this many thresholds are cut off. Assumed: near walks reach many times the threshold; the shape near it matters. */
const SIGNAL_TOP = 2.2;

export function SignalRow({ view, box }: { view: StripView; box: { topPx: number; bottomPx: number } }) {
  const holdUv = view.frame?.thresholdsUv.hold ?? 1;
  const middle = (box.topPx + box.bottomPx) / 2;
  const half = (box.bottomPx - box.topPx) / 2;
  const y = (uv: number): number => middle - Math.max(-1, Math.min(1, uv / (holdUv * SIGNAL_TOP))) * half;
  const end = Math.min(view.toTick, view.headTick);
  const path = end > view.fromTick ? signalPath(record.signalUv, view.fromTick, end, view.xOf(end), y) : '';
  return (
    <g>
      {[1, -1].map((sign) => (
        <path key={sign} d={`M0 ${y(holdUv * sign)}H${view.widthPx}`} className={styles.threshold} />
      ))}
      <path d={path} className={styles.signal} />
    </g>
  );
}

interface Limit {
  lx: number;
  kind: 'set' | 'release';
}

/** Limits in force at the instant shown; two rows with the same figure share a line. */
function limitsOf(view: StripView): Limit[] {
  const out: Limit[] = [];
  for (const row of ['inner', 'window'] as const) {
    const light = view.frame?.light[row];
    if (light?.setpointLx != null && !out.some((l) => l.kind === 'set' && l.lx === light.setpointLx)) {
      out.push({ lx: light.setpointLx, kind: 'set' });
    }
    if (light?.releaseLx != null && !out.some((l) => l.kind === 'release' && l.lx === light.releaseLx)) {
      out.push({ lx: light.releaseLx, kind: 'release' });
    }
  }
  return out;
}

/** Names of lines nearer than this would stand on each other, px; the later one then stands so far to the left, px. */
const LIMIT_TEXT_PX = { high: 15, wide: 118 };

/** How far each limit's name is moved to the left: one step for each earlier one of its kind that lies too near. */
function limitShifts(limits: readonly Limit[], y: (lx: number) => number): number[] {
  return limits.map(({ lx, kind }, i) => {
    const near = limits.slice(0, i).filter((l) => l.kind === kind && Math.abs(y(l.lx) - y(lx)) < LIMIT_TEXT_PX.high);
    return near.length * LIMIT_TEXT_PX.wide;
  });
}

interface LimitNamesProps {
  view: StripView;
  limits: readonly Limit[];
  y: (lx: number) => number;
  /** At the end where the readings do not stand, unless these leave no room there. */
  atLeft: boolean;
}

function LimitNames({ view, limits, y, atLeft }: LimitNamesProps) {
  const shifts = limitShifts(limits, y);
  return limits.map(({ kind, lx }, i) => (
    <text
      key={`${kind}${lx}`}
      x={atLeft ? 4 + shifts[i]! : view.widthPx - 4 - shifts[i]!}
      y={y(lx) + (kind === 'set' ? 16 : -6)}
      textAnchor={atLeft ? 'start' : 'end'}
      className={styles.limitText}
    >
      {kind === 'set' ? en.recorder.set(luxText(lx)) : en.recorder.release(luxText(lx))}
    </text>
  ));
}

/** What a reading and the name of a limit take beside one another, px. Assumed: four figures and "release 1 000 lx". */
const BESIDE_PX = 190;

export function EstimateRow({ view }: { view: StripView }) {
  const { estimate } = view.layout;
  const scale = logScale(AXIS_LX, [estimate.bottomPx, estimate.topPx]);
  const y = (lx: number): number => (Number.isNaN(lx) ? Number.NaN : scale(lx));
  const end = Math.min(view.toTick, view.headTick);
  const width = view.xOf(end);
  const path = (grow: typeof record.innerEstimateLx): string =>
    end > view.fromTick ? linePath(grow, 10, view.fromTick, end, width, y) : '';
  const x = view.xOf(view.shownTick);
  const light = view.frame?.light;
  const limits = limitsOf(view);
  const room = view.widthPx - x > BESIDE_PX || x < 110;
  return (
    <g>
      {limits.map(({ kind, lx }) => (
        <path
          key={`${kind}${lx}`}
          d={`M0 ${y(lx)}H${view.widthPx}`}
          className={kind === 'set' ? styles.setLine : styles.releaseLine}
        />
      ))}
      <path d={path(record.windowEstimateLx)} className={styles.windowTrace} />
      <path d={path(record.innerEstimateLx)} className={styles.innerTrace} />
      <LimitNames view={view} limits={limits} y={y} atLeft={!room && x > BESIDE_PX} />
      <Crossings view={view} y={y} />
      {light && (
        <>
          <Diamond
            x={x}
            y={y(light.window.daylightEstimateLx)}
            text={luxText(light.window.daylightEstimateLx)}
            channel="windowRow"
            right={room}
            lift={diamondLift(y, light, 'window')}
          />
          <Diamond
            x={x}
            y={y(light.inner.daylightEstimateLx)}
            text={luxText(light.inner.daylightEstimateLx)}
            channel="innerRow"
            right={room}
            lift={diamondLift(y, light, 'inner')}
          />
        </>
      )}
    </g>
  );
}

/** Labels nearer than a line are pushed apart, the brighter up. */
function diamondLift(
  y: (lx: number) => number,
  light: NonNullable<StripView['frame']>['light'],
  row: 'inner' | 'window',
): number {
  const a = y(light.inner.daylightEstimateLx);
  const b = y(light.window.daylightEstimateLx);
  const near = 16 - Math.abs(a - b);
  if (near <= 0) return 0;
  const up = row === 'window' ? b <= a : a < b;
  return (up ? -1 : 1) * (near / 2);
}

interface DiamondProps {
  x: number;
  y: number;
  text: string;
  channel: 'innerRow' | 'windowRow';
  right: boolean;
  lift: number;
}

function Diamond({ x, y, text, channel, right, lift }: DiamondProps) {
  const at = right ? x + 14 : x - 14;
  const textY = y + lift;
  return (
    <g data-channel={channel} className={styles.channelText}>
      <path d={`M${at} ${textY - 6.5}l6.5 6.5l-6.5 6.5l-6.5 -6.5z`} className={styles.diamond} />
      <text
        x={right ? at + 13 : at - 13}
        y={textY + 5}
        textAnchor={right ? 'start' : 'end'}
        className={styles.diamondText}
      >
        {text}
      </text>
    </g>
  );
}
