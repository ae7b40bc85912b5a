/** The strip chart: what was seen, the heat signal, both daylight estimates, the three outputs, on true time. */
import { useMemo, useRef, useState } from 'react';
import type { OutputId } from '../../../engine/types.ts';
import { axisStepS, recorderLayout, windowFromS } from '../../../report/stripLayout.ts';
import { en } from '../../../report/text/en.ts';
import { clockAt } from '../../../report/text/format.ts';
import { outputName } from '../../../report/text/names.ts';
import { live } from '../../state/live.ts';
import { send } from '../../state/session.ts';
import { getApp, selectOutput, useApp } from '../../state/store.ts';
import { WordChoice } from '../ui.tsx';
import { useSize } from '../useSize.ts';
import { BandRows } from './BandRows.tsx';
import { Branches } from './Branches.tsx';
import styles from './Recorder.module.css';
import { RecorderTable } from './RecorderTable.tsx';
import { EstimateRow, SeenRow, SignalRow } from './Rows.tsx';
import type { StripView } from './view.ts';

const OUTPUTS: readonly OutputId[] = ['innerRow', 'windowRow', 'airContact'];

type Span = 'tenMinutes' | 'hour' | 'whole';

const SPANS = (['tenMinutes', 'hour', 'whole'] as const).map((value) => ({ value, text: en.recorder.spans[value] }));

/** Seeks while dragging, ms apart: a worker answers a seek well within this. */
const SEEK_EVERY_MS = 60;

function useStripView(widthPx: number, heightPx: number, span: Span): StripView | null {
  // Redrawn five times a second while running: every second frame that reached the store.
  const running = useApp((s) => s.status.running);
  const turn = useApp((s) => (s.status.running ? s.frameSerial >> 1 : s.frameSerial + s.recordVersion));
  const scenario = useApp((s) => s.scenario);
  const fromS = useRef(0);
  const lastSpan = useRef<Span>(span);
  return useMemo(() => {
    if (!scenario || widthPx < 50) return null;
    const { shownTick, status } = getApp();
    const headTick = Math.max(status.headTick, shownTick);
    const wholeS = Math.max(scenario.endS, (headTick / 10) * 1.04);
    const spanS = span === 'whole' ? wholeS : span === 'hour' ? 3600 : 600;
    // A newly chosen span is laid out as if the run went on from here.
    const follow = running || lastSpan.current !== span;
    lastSpan.current = span;
    fromS.current = span === 'whole' ? 0 : windowFromS(fromS.current, spanS, shownTick / 10, follow);
    const fromTick = fromS.current * 10;
    const toTick = fromTick + spanS * 10;
    return {
      turn,
      scenario,
      widthPx,
      layout: recorderLayout(heightPx),
      fromTick,
      toTick,
      shownTick,
      headTick,
      running,
      xOf: (tick: number) => ((tick - fromTick) / (toTick - fromTick)) * widthPx,
      frame: live.frame,
    };
  }, [scenario, widthPx, heightPx, span, running, turn]);
}

function Axis({ view }: { view: StripView }) {
  const { start } = view.scenario;
  const stepS = axisStepS((view.toTick - view.fromTick) / 10, view.widthPx, view.widthPx < 900 ? 80 : 130);
  const [h = 0, m = 0] = start.localTime.split(':').map(Number);
  const startS = h * 3600 + m * 60;
  const firstS = Math.ceil((startS + view.fromTick / 10) / (stepS / 2)) * (stepS / 2) - startS;
  const lines = [];
  for (let s = firstS; s * 10 <= view.toTick; s += stepS / 2) {
    const x = view.xOf(s * 10);
    const full = (s + startS) % stepS === 0;
    lines.push(
      <g key={s}>
        <path d={`M${x.toFixed(1)} ${view.layout.axisPx}V${view.layout.bottomPx}`} className={styles.grid} />
        {full && x > 18 && x < view.widthPx - 18 && (
          <text x={x} y={20} textAnchor="middle" className={styles.axisText}>
            {stepS < 60 ? clockAt(s * 10, start) : clockAt(s * 10, start).slice(0, 5)}
          </text>
        )}
      </g>,
    );
  }
  return <g>{lines}</g>;
}

function NowFlag({ view }: { view: StripView }) {
  const x = view.xOf(view.shownTick);
  const past = view.shownTick < view.headTick && !view.running;
  const { axisPx, bottomPx } = view.layout;
  const flagX = Math.min(Math.max(x, 34), view.widthPx - 34);
  return (
    <g>
      {view.headTick > view.shownTick && (
        <path d={`M${view.xOf(view.headTick)} ${axisPx}V${bottomPx}`} className={styles.headLine} />
      )}
      <path d={`M${x} ${axisPx - 8}V${bottomPx}`} className={styles.nowLine} />
      <path
        d={`M${flagX - 34} 4h68v22H${Math.min(x + 8, flagX + 34)}L${x} 34L${Math.max(x - 8, flagX - 34)} 26H${flagX - 34}z`}
        className={past ? styles.pastFlag : styles.nowFlag}
      />
      <text x={flagX} y={20} textAnchor="middle" className={styles.flagText}>
        {past ? en.recorder.past : en.recorder.now}
      </text>
    </g>
  );
}

function useScrub(view: StripView | null) {
  const lastMs = useRef(0);
  const dragging = useRef(false);
  /** Where the pointer went down, px; null once it has moved away. */
  const pressedAt = useRef<{ x: number; y: number } | null>(null);
  const seek = (tick: number, always: boolean): void => {
    if (!view) return;
    const nowMs = performance.now();
    if (!always && nowMs - lastMs.current < SEEK_EVERY_MS) return;
    lastMs.current = nowMs;
    send({ type: 'seek', tick: Math.round(Math.min(view.headTick, Math.max(0, tick))) });
  };
  const tickAt = (event: React.PointerEvent): number => {
    const box = event.currentTarget.getBoundingClientRect();
    return view ? view.fromTick + ((event.clientX - box.left) / box.width) * (view.toTick - view.fromTick) : 0;
  };
  return {
    seek,
    handlers: {
      onPointerDown: (event: React.PointerEvent) => {
        if (event.button !== 0) return;
        dragging.current = true;
        pressedAt.current = { x: event.clientX, y: event.clientY };
        event.currentTarget.setPointerCapture(event.pointerId);
        seek(tickAt(event), true);
      },
      onPointerMove: (event: React.PointerEvent) => {
        if (!dragging.current) return;
        const from = pressedAt.current;
        if (from && Math.hypot(event.clientX - from.x, event.clientY - from.y) > TAP_PX) pressedAt.current = null;
        seek(tickAt(event), false);
      },
      onPointerUp: (event: React.PointerEvent) => {
        if (!dragging.current) return;
        dragging.current = false;
        seek(tickAt(event), true);
        const output = view && pressedAt.current ? bandAt(view, event) : null;
        if (output) selectOutput(output);
      },
      onPointerCancel: () => {
        dragging.current = false;
      },
    },
  };
}

/** A tap moves less than this, px. Assumed: a finger's wobble. */
const TAP_PX = 5;

/** Output whose band lies under the pointer. */
function bandAt(view: StripView, event: React.PointerEvent): OutputId | null {
  const y = event.clientY - event.currentTarget.getBoundingClientRect().top;
  const i = view.layout.bands.findIndex((band) => y >= band.topPx - 6 && y <= band.topPx + band.heightPx + 6);
  return OUTPUTS[i] ?? null;
}

/** Ticks that a key moves the instant shown; null: not a key of the strip. */
function keyTarget(event: React.KeyboardEvent, shown: number, head: number): number | null {
  const step = event.shiftKey ? 100 : 1;
  switch (event.key) {
    case 'ArrowLeft':
    case 'ArrowDown':
      return shown - step;
    case 'ArrowRight':
    case 'ArrowUp':
      return shown + step;
    case 'PageUp':
      return shown + 600;
    case 'PageDown':
      return shown - 600;
    case 'Home':
      return 0;
    case 'End':
      return head;
    default:
      return null;
  }
}

export function Recorder() {
  const box = useRef<HTMLDivElement>(null);
  const size = useSize(box);
  const [span, setSpan] = useState<Span>(() => (getApp().job ? 'whole' : 'tenMinutes'));
  const view = useStripView(size.width, size.height, span);
  const { seek, handlers } = useScrub(view);
  const onKeyDown = (event: React.KeyboardEvent): void => {
    if (!view) return;
    if (event.ctrlKey && (event.key === 'ArrowLeft' || event.key === 'ArrowRight')) {
      event.preventDefault();
      send({ type: 'nextEvent', direction: event.key === 'ArrowRight' ? 1 : -1 });
      return;
    }
    const { shownTick, status } = getApp();
    const target = keyTarget(event, shownTick, status.headTick);
    if (target === null) return;
    event.preventDefault();
    seek(target, true);
  };
  return (
    <section className={styles.recorder} aria-label={en.recorder.region}>
      <div className={styles.labels} aria-hidden="true">
        {view && <RowLabels view={view} />}
      </div>
      <div
        ref={box}
        className={styles.plot}
        role="slider"
        tabIndex={0}
        aria-label={en.recorder.slider}
        aria-valuemin={0}
        aria-valuemax={view?.headTick ?? 0}
        aria-valuenow={view?.shownTick ?? 0}
        aria-valuetext={view ? clockAt(view.shownTick, view.scenario.start) : ''}
        aria-description={en.recorder.keys}
        onKeyDown={onKeyDown}
        {...handlers}
      >
        {view && (
          <svg width={size.width} height={size.height} aria-hidden="true" className={styles.svg}>
            <Future view={view} />
            <Axis view={view} />
            <SeenRow view={view} />
            {view.layout.signal && <SignalRow view={view} box={view.layout.signal} />}
            <EstimateRow view={view} />
            <BandRows view={view} />
            <NowFlag view={view} />
          </svg>
        )}
      </div>
      <div className={styles.spans}>
        <WordChoice label={en.recorder.windowGroup} options={SPANS} chosen={span} choose={setSpan} />
      </div>
      <Branches />
      <RecorderTable />
    </section>
  );
}

/** What has not happened yet lies on grey. */
function Future({ view }: { view: StripView }) {
  const x = Math.max(0, view.xOf(view.headTick));
  if (x >= view.widthPx) return null;
  const { axisPx, bottomPx } = view.layout;
  return <rect x={x} y={axisPx} width={view.widthPx - x} height={bottomPx - axisPx} className={styles.future} />;
}

function RowLabels({ view }: { view: StripView }) {
  const { seen, signal, estimate, bands } = view.layout;
  const middle = (row: { topPx: number; bottomPx: number }): number => (row.topPx + row.bottomPx) / 2;
  return (
    <>
      <span style={{ top: middle(seen) }}>{en.recorder.seen}</span>
      {signal && <span style={{ top: middle(signal) }}>{en.recorder.signal}</span>}
      <span style={{ top: middle(estimate) }}>
        {en.recorder.estimate[0]}
        <br />
        {en.recorder.estimate[1]}
      </span>
      {OUTPUTS.map((output, i) => (
        <span
          key={output}
          data-channel={output}
          style={{ top: bands[i]!.topPx + bands[i]!.heightPx / 2 }}
          className={styles.bandLabel}
        >
          {outputName[output]}
        </span>
      ))}
    </>
  );
}
