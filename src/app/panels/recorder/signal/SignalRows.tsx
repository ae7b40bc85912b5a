/** The signal close up: four quadrants at 50 Hz between their thresholds, each pulse where it arose; loaded on demand. */
import { useMemo } from 'react';
import { signalLayout } from '../../../../report/stripLayout.ts';
import { clockAt } from '../../../../report/text/format.ts';
import { quadrantName, signalWords } from '../../../../report/text/signal.ts';
import type { HeldSignal } from '../../../state/heldSignal.ts';
import { record } from '../../../state/record.ts';
import { useSignal } from '../../../state/signal.ts';
import { useApp } from '../../../state/store.ts';
import type { StripView } from '../view.ts';
import {
  type Largest,
  largestBetween,
  type PulseEvent,
  pulsesBetween,
  QUADRANTS,
  quadrantPath,
  scaleUv,
  secondsOf,
} from './quadrants.ts';
import own from './Signal.module.css';

/** Seconds in the table. Assumed: more would be paged by no one; the strip can be moved. */
const TABLE_SECONDS = 60;

/** The largest signal reaches this share of a row's pitch from its middle: into its neighbours, seldom busy at once. */
const TRACE_REACH = 0.72;

/** The legend of the lines stands beside the words from this width on, px. Assumed: both are read in full. */
const WIDE_PX = 860;

interface Drawn {
  held: HeldSignal;
  endTick: number;
  largest: Largest | null;
  topUv: number;
  pulses: PulseEvent[];
  hold: number;
  switchOn: number;
}

/** Everything of one picture; the same for rows, words and table. */
function useDrawn(view: StripView): Drawn {
  const held = useSignal(view.fromTick, view.toTick, view.headTick);
  return useMemo(() => {
    const endTick = Math.min(view.toTick, view.headTick + 1);
    const largest = largestBetween(held, view.fromTick, endTick);
    const { hold, switchOn } = view.frame?.thresholdsUv ?? { hold: 1, switchOn: 1 };
    const pulses = pulsesBetween(record.events, view.fromTick, endTick);
    return { held, endTick, largest, topUv: scaleUv(Math.abs(largest?.uv ?? 0), switchOn), pulses, hold, switchOn };
  }, [held, view]);
}

function useTurnDeg(): number {
  return useApp((s) => s.setup?.mount.turnDeg ?? s.scenario?.mount.turnDeg ?? 0);
}

export function SignalRows({ view, heightPx }: { view: StripView; heightPx: number }) {
  const drawn = useDrawn(view);
  const { traces, wordsPx } = signalLayout(heightPx);
  return (
    <g>
      <Words view={view} drawn={drawn} y={wordsPx + 5} />
      {QUADRANTS.map((channel) => (
        <Trace key={channel} channel={channel} view={view} drawn={drawn} box={traces[channel]!} />
      ))}
    </g>
  );
}

function sentence(view: StripView, drawn: Drawn, turnDeg: number): string {
  const { largest, hold, switchOn, held, endTick } = drawn;
  if (held.toTick < Math.min(endTick, view.shownTick)) return signalWords.loading;
  if (!largest) return signalWords.nothing;
  const clock = clockAt(largest.tick, view.scenario.start);
  return signalWords.largest(largest.uv, quadrantName(largest.channel, turnDeg), clock, hold, switchOn);
}

function Words({ view, drawn, y }: { view: StripView; drawn: Drawn; y: number }) {
  const turnDeg = useTurnDeg();
  const x = view.widthPx;
  const wide = x > WIDE_PX;
  return (
    <>
      <text x={0} y={y} className={own.words}>
        {sentence(view, drawn, turnDeg)}
      </text>
      {wide && (
        <g className={own.legend}>
          <text x={x - 290} y={y} textAnchor="end">
            {signalWords.scale(drawn.topUv)}
          </text>
          <path d={`M${x - 276} ${y - 5}h26`} className={own.hold} />
          <text x={x - 244} y={y}>
            {signalWords.hold(drawn.hold)}
          </text>
          <path d={`M${x - 160} ${y - 5}h26`} className={own.switchOn} />
          <text x={x - 128} y={y}>
            {signalWords.switchOn(drawn.switchOn)}
          </text>
        </g>
      )}
    </>
  );
}

interface TraceProps {
  channel: number;
  view: StripView;
  drawn: Drawn;
  box: { topPx: number; bottomPx: number };
}

function Trace({ channel, view, drawn, box }: TraceProps) {
  const { held, topUv, hold, switchOn, endTick, pulses } = drawn;
  const middle = (box.topPx + box.bottomPx) / 2;
  const half = (box.bottomPx - box.topPx) * TRACE_REACH;
  const y = (uv: number): number => middle - Math.max(-1, Math.min(1, uv / topUv)) * half;
  const path = quadrantPath(held, channel, view.fromTick, endTick, view.xOf, y);
  return (
    <g data-quadrant={channel}>
      <path d={`M0 ${middle}H${view.widthPx}`} className={own.zero} />
      {[1, -1].map((sign) => (
        <g key={sign}>
          <path d={`M0 ${y(hold * sign)}H${view.widthPx}`} className={own.hold} />
          <path d={`M0 ${y(switchOn * sign)}H${view.widthPx}`} className={own.switchOn} />
        </g>
      ))}
      <path d={path} className={own.trace} data-row="signal" />
      {pulses
        .filter((event) => event.pulse.channel === channel)
        .map((event) => (
          <Pulse
            key={`${event.tick}-${event.pulse.subStep}-${event.pulse.level}`}
            event={event}
            view={view}
            y={y}
            drawn={drawn}
          />
        ))}
    </g>
  );
}

/** On the threshold that was passed, where it was passed: solid where it was taken as movement, open where not. */
function Pulse({
  event,
  view,
  y,
  drawn,
}: {
  event: PulseEvent;
  view: StripView;
  y: (uv: number) => number;
  drawn: Drawn;
}) {
  const { level, polarity, subStep } = event.pulse;
  const limitUv = level.startsWith('hold') ? drawn.hold : drawn.switchOn;
  return (
    <circle
      cx={view.xOf(event.tick + subStep / 5)}
      cy={y(limitUv * polarity)}
      r={3.6}
      className={event.counted ? own.counted : own.uncounted}
      data-pulse={event.counted ? 'counted' : 'uncounted'}
      data-level={level}
    />
  );
}

/** Beside the traces: which way each quadrant looks. */
export function SignalLabels({ heightPx }: { heightPx: number }) {
  const turnDeg = useTurnDeg();
  const { traces } = signalLayout(heightPx);
  return QUADRANTS.map((channel) => (
    <span key={channel} style={{ top: (traces[channel]!.topPx + traces[channel]!.bottomPx) / 2 }}>
      {quadrantName(channel, turnDeg)}
    </span>
  ));
}

/** The same in figures, for who cannot see the traces. Read on demand, never announced. */
export function SignalTable({ view }: { view: StripView }) {
  const drawn = useDrawn(view);
  const turnDeg = useTurnDeg();
  const rows = secondsOf(drawn.held, record.events, view.fromTick, drawn.endTick, TABLE_SECONDS);
  return (
    <div className="visuallyHidden">
      <p>{sentence(view, drawn, turnDeg)}</p>
      <table>
        <caption>{signalWords.table}</caption>
        <thead>
          <tr>
            <th scope="col">{signalWords.time}</th>
            {QUADRANTS.map((channel) => (
              <th key={channel} scope="col">
                {quadrantName(channel, turnDeg)}
              </th>
            ))}
            <th scope="col">{signalWords.pulses}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.tick}>
              <td>{clockAt(row.tick, view.scenario.start)}</td>
              {row.peaksUv.map((uv, channel) => (
                <td key={QUADRANTS[channel]}>{Math.round(uv)}</td>
              ))}
              <td>{row.pulses}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
