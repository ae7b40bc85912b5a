/** The strip chart: what was seen, the heat signal, both daylight estimates, the three outputs, on true time. */
import { lazy, Suspense, useMemo, useRef, useState } from 'react';
import type { OutputId } from '../../../engine/types.ts';
import { recorderLayout, SIGNAL_WORD_PX, windowFromS } from '../../../report/stripLayout.ts';
import { en } from '../../../report/text/en.ts';
import { clockAt } from '../../../report/text/format.ts';
import { signalWords } from '../../../report/text/signal.ts';
import { live } from '../../state/live.ts';
import { getApp, selectOutput, useApp, useBig } from '../../state/store.ts';
import { send } from '../../state/wire.ts';
import ui from '../ui.module.css';
import { WordChoice } from '../ui.tsx';
import { useSize } from '../useSize.ts';
import { BandRows } from './BandRows.tsx';
import { Branches } from './Branches.tsx';
import { keyTarget } from './keys.ts';
import styles from './Recorder.module.css';
import { RecorderTable } from './RecorderTable.tsx';
import { EstimateRow, SeenRow, SignalRow } from './Rows.tsx';
import { Axis, Future, NowFlag, OUTPUTS, RowLabels } from './StripParts.tsx';
import type { StripView } from './view.ts';

/** Drawn only when asked for. */
const SignalRows = lazy(async () => ({ default: (await import('./signal/SignalRows.tsx')).SignalRows }));
const SignalLabels = lazy(async () => ({ default: (await import('./signal/SignalRows.tsx')).SignalLabels }));
const GuessLayer = lazy(async () => ({ default: (await import('./GuessLayer.tsx')).GuessLayer }));
const SignalTable = lazy(async () => ({ default: (await import('./signal/SignalRows.tsx')).SignalTable }));

/** What the strip shows: what was seen and decided, or the signal close up. */
type Mode = 'run' | 'signal';
type Span = 'tenSeconds' | 'minute' | 'tenMinutes' | 'hour' | 'whole';

const SPAN_S: Record<Exclude<Span, 'whole'>, number> = { tenSeconds: 10, minute: 60, tenMinutes: 600, hour: 3600 };

const SPANS: Record<Mode, { value: Span; text: string }[]> = {
  run: (['tenMinutes', 'hour', 'whole'] as const).map((value) => ({ value, text: en.recorder.spans[value] })),
  signal: (['tenSeconds', 'minute', 'tenMinutes'] as const).map((value) => ({ value, text: signalWords.spans[value] })),
};

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
    const spanS = span === 'whole' ? wholeS : SPAN_S[span];
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

/** `zoom`: screen px for a px of the drawing. */
function useScrub(view: StripView | null, mode: Mode, zoom: number) {
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
        const output = view && mode === 'run' && pressedAt.current ? bandAt(view, event, zoom) : null;
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
function bandAt(view: StripView, event: React.PointerEvent, zoom: number): OutputId | null {
  const y = (event.clientY - event.currentTarget.getBoundingClientRect().top) / zoom;
  const i = view.layout.bands.findIndex((band) => y >= band.topPx - 6 && y <= band.topPx + band.heightPx + 6);
  return OUTPUTS[i] ?? null;
}

/** Smallest type in the strip, px. Source: theme/tokens.css. */
const LEAST_TYPE_PX = 14;

export function Recorder() {
  const box = useRef<HTMLDivElement>(null);
  const size = useSize(box);
  const [mode, setMode] = useState<Mode>('run');
  const [spans, setSpans] = useState<Record<Mode, Span>>(() => ({
    run: getApp().job ? 'whole' : 'tenMinutes',
    signal: 'tenSeconds',
  }));
  // Its smallest type has 14 px; on the Big Screen 30 are the least. Everything in it grows alike.
  const zoom = useBig(LEAST_TYPE_PX, 30.5);
  const lecture = useApp((s) => s.lecture !== null);
  const view = useStripView(size.width / zoom, size.height / zoom, spans[mode]);
  const { seek, handlers } = useScrub(view, mode, zoom);
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
      <div className={styles.labels} style={zoom === 1 ? undefined : { zoom }}>
        {view && <Labels view={view} mode={mode} setMode={setMode} />}
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
          <svg
            width={size.width}
            height={size.height}
            viewBox={`0 0 ${view.widthPx} ${view.layout.heightPx}`}
            aria-hidden="true"
            className={styles.svg}
          >
            <Future view={view} />
            <Axis view={view} />
            <SeenRow view={view} />
            {mode === 'run' ? (
              <RunRows view={view} />
            ) : (
              <Suspense fallback={null}>
                <SignalRows view={view} heightPx={view.layout.heightPx} />
              </Suspense>
            )}
            <NowFlag view={view} />
          </svg>
        )}
        {view && lecture && (
          <Suspense fallback={null}>
            <GuessLayer view={view} zoom={zoom} />
          </Suspense>
        )}
      </div>
      <div className={styles.spans} style={zoom === 1 ? undefined : { zoom }}>
        <WordChoice
          label={en.recorder.windowGroup}
          options={SPANS[mode]}
          chosen={spans[mode]}
          choose={(span) => setSpans({ ...spans, [mode]: span })}
        />
      </div>
      <Branches />
      <RecorderTable />
      {view && mode === 'signal' && (
        <Suspense fallback={null}>
          <SignalTable view={view} />
        </Suspense>
      )}
    </section>
  );
}

function RunRows({ view }: { view: StripView }) {
  return (
    <>
      {view.layout.signal && <SignalRow view={view} box={view.layout.signal} />}
      <EstimateRow view={view} />
      <BandRows view={view} />
    </>
  );
}

interface LabelsProps {
  view: StripView;
  mode: Mode;
  setMode: (mode: Mode) => void;
}

/** Names beside the rows. The heat signal's name is a word that acts: it opens and closes the close up. */
function Labels({ view, mode, setMode }: LabelsProps) {
  const { seen, signal } = view.layout;
  // Drawn so large there is no room for the close up.
  const lecture = useApp((s) => s.lecture !== null);
  const toggleY = mode === 'run' && signal ? (signal.topPx + signal.bottomPx) / 2 : seen.bottomPx + SIGNAL_WORD_PX;
  return (
    <>
      <span aria-hidden="true" style={{ top: (seen.topPx + seen.bottomPx) / 2 }}>
        {en.recorder.seen}
      </span>
      {!lecture && (
        <button
          type="button"
          className={`${ui.word} ${styles.signalWord}`}
          aria-pressed={mode === 'signal'}
          title={signalWords.toggle}
          style={{ top: toggleY }}
          onClick={() => setMode(mode === 'signal' ? 'run' : 'signal')}
        >
          <span>{en.recorder.signal}</span>
        </button>
      )}
      <div aria-hidden="true">
        {mode === 'run' ? (
          <RowLabels view={view} />
        ) : (
          <Suspense fallback={null}>
            <SignalLabels heightPx={view.layout.heightPx} />
          </Suspense>
        )}
      </div>
    </>
  );
}
