/** Drawing of the Prediction Card's strip: pulses and estimates as given, bands as foretold. */
import { releaseMarginLx } from '../../../engine/control/questions.ts';
import type { OutputId } from '../../../engine/types.ts';
import type { Given } from '../../../exercise/predict/given.ts';
import { axisStepS } from '../../../report/stripLayout.ts';
import { en } from '../../../report/text/en.ts';
import { clockAt, clockToSeconds, luxText, minuteSecond } from '../../../report/text/format.ts';
import { jobWords } from '../../../report/text/jobs.ts';
import { outputName } from '../../../report/text/names.ts';
import { linePath, strokesPath } from '../../../report/traces.ts';
import { pulseOfChosen, startsOn, usePrediction } from '../../state/job/predict.ts';
import { logScale } from '../logScale.ts';
import recorder from '../recorder/Recorder.module.css';
import styles from './JobBand.module.css';
import type { JobStripView } from './view.ts';

/** Least light on the axis, lx. Assumed: darker than any setpoint. */
const LEAST_LX = 10;
/** Room above and below what is drawn, as a factor. Assumed: a label's height on the axis. */
const AXIS_ROOM = 1.35;

/** Ends of the log axis: what is given and the lines that it meets fill it, so that crossings can be read. */
function axisLx(view: JobStripView, given: Given, linesLx: readonly number[]): [number, number] {
  const from = Math.floor(view.fromS);
  const to = Math.floor(view.toS);
  let low = Math.min(...linesLx);
  let high = Math.max(...linesLx);
  for (const values of [given.innerLx, given.windowLx]) {
    for (let s = from; s <= to; s++) {
      low = Math.min(low, values[s] ?? low);
      high = Math.max(high, values[s] ?? high);
    }
  }
  return [Math.max(LEAST_LX, low / AXIS_ROOM), Math.max(LEAST_LX * 2, high * AXIS_ROOM)];
}

export function GivenRows({ view, given }: { view: JobStripView; given: Given }) {
  const { fromS, toS, widthPx, seen, bottomPx, axisPx } = view;
  const nowX = view.xOf(view.nowS);
  const strokes = strokesPath(
    given.seenS.map((s) => s * 10),
    fromS * 10,
    toS * 10,
    widthPx,
    seen.topPx,
    seen.bottomPx,
  );
  return (
    <g>
      <rect x={nowX} y={axisPx} width={widthPx - nowX} height={bottomPx - axisPx} className={recorder.future} />
      <Axis view={view} />
      <path d={`M0 ${seen.bottomPx}H${widthPx}`} className={recorder.base} />
      <path d={strokes} className={recorder.stroke} data-row="given" />
      <Estimates view={view} given={given} />
      <path d={`M${nowX} ${axisPx - 8}V${bottomPx}`} className={recorder.nowLine} />
      <path
        d={`M${nowX - 34} 4h68v22H${nowX + 8}L${nowX} 34L${nowX - 8} 26H${nowX - 34}z`}
        className={recorder.nowFlag}
      />
      <text x={nowX} y={20} textAnchor="middle" className={recorder.flagText}>
        {en.recorder.now}
      </text>
    </g>
  );
}

function Axis({ view }: { view: JobStripView }) {
  const { start } = view.scenario;
  const stepS = axisStepS(view.toS - view.fromS, view.widthPx);
  const startS = clockToSeconds(start.localTime);
  const lines = [];
  for (let s = Math.ceil((startS + view.fromS) / stepS) * stepS - startS; s <= view.toS; s += stepS) {
    const x = view.xOf(s);
    const clear = Math.abs(x - view.xOf(view.nowS)) > 70 && x > 18 && x < view.widthPx - 18;
    lines.push(
      <g key={s}>
        <path d={`M${x} ${view.axisPx}V${view.bottomPx}`} className={recorder.grid} />
        {clear && (
          <text x={x} y={20} textAnchor="middle" className={recorder.axisText}>
            {clockAt(s * 10, start).slice(0, stepS < 60 ? 8 : 5)}
          </text>
        )}
      </g>,
    );
  }
  return <g>{lines}</g>;
}

function Estimates({ view, given }: { view: JobStripView; given: Given }) {
  const { estimate, widthPx, fromS, toS, scenario } = view;
  if (estimate.bottomPx - estimate.topPx < 24) return null;
  const { innerSetpointLx, windowSetpointLx } = scenario.settings;
  const setpoints = [...new Set([innerSetpointLx, windowSetpointLx])].filter((lx) => lx !== null);
  const release = (setLx: number): number => setLx + releaseMarginLx(setLx, scenario.settings);
  const lines = setpoints.flatMap((lx) => [lx, release(lx)]);
  const scale = logScale(axisLx(view, given, lines.length > 0 ? lines : [LEAST_LX]), [
    estimate.bottomPx,
    estimate.topPx,
  ]);
  const path = (values: Float32Array): string =>
    linePath({ values, length: values.length }, 1, fromS, toS, widthPx, (lx) => scale(lx));
  return (
    <g>
      {setpoints.map((lx) => (
        <g key={lx}>
          <path d={`M0 ${scale(lx)}H${widthPx}`} className={recorder.setLine} />
          <path d={`M0 ${scale(release(lx))}H${widthPx}`} className={recorder.releaseLine} />
        </g>
      ))}
      <path d={path(given.windowLx)} className={recorder.windowTrace} />
      <path d={path(given.innerLx)} className={recorder.innerTrace} />
      {setpoints.map((lx) => (
        <g key={lx}>
          <text x={widthPx - 4} y={scale(lx) + 16} textAnchor="end" className={recorder.limitText}>
            {en.recorder.set(luxText(lx))}
          </text>
          <text x={widthPx - 4} y={scale(release(lx)) - 5} textAnchor="end" className={recorder.limitText}>
            {en.recorder.release(luxText(release(lx)))}
          </text>
        </g>
      ))}
    </g>
  );
}

export function ForetoldBands({ view, given }: { view: JobStripView; given: Given }) {
  return (
    <g>
      {view.bands.map(({ output }) => (
        <ForetoldBand key={output} view={view} given={given} output={output} />
      ))}
      <PulseRing view={view} />
    </g>
  );
}

function ForetoldBand({ view, given, output }: { view: JobStripView; given: Given; output: OutputId }) {
  const edges = usePrediction((s) => s.edges[output]) ?? [];
  const chosen = usePrediction((s) => (s.output === output ? s.chosen : null));
  const { topPx, heightPx } = view.bands.find((band) => band.output === output)!;
  const nowX = view.xOf(view.nowS);
  const bars: [number, number][] = [];
  let onS: number | null = startsOn(output) ? view.nowS : null;
  for (const { atS, on } of edges) {
    if (on) onS = atS;
    else if (onS !== null) {
      bars.push([onS, atS]);
      onS = null;
    }
  }
  if (onS !== null) bars.push([onS, view.toS]);
  const pastOn = given.onAtStart.includes(output);
  return (
    <g data-channel={output}>
      <path d={`M0 ${topPx + heightPx}H${view.widthPx}`} className={recorder.bandBase} />
      {pastOn && <rect x={0} y={topPx} width={nowX} height={heightPx} className={recorder.bandFull} />}
      {bars.map(([from, to]) => (
        <rect
          key={from}
          x={view.xOf(from)}
          y={topPx}
          width={Math.max(1, view.xOf(to) - view.xOf(from))}
          height={heightPx}
          className={styles.foretold}
        />
      ))}
      {edges.map((edge, i) => (
        <EdgeMark
          key={edge.atS}
          x={view.xOf(edge.atS)}
          topPx={topPx}
          bottomPx={i === chosen ? view.bottomPx : topPx + heightPx}
          chosen={i === chosen}
          text={jobWords.edge(edge.on, clockAt(Math.round(edge.atS * 10), view.scenario.start))}
          left={view.xOf(edge.atS) > view.widthPx - 120}
        />
      ))}
    </g>
  );
}

interface EdgeMarkProps {
  x: number;
  topPx: number;
  bottomPx: number;
  chosen: boolean;
  text: string;
  left: boolean;
}

function EdgeMark({ x, topPx, bottomPx, chosen, text, left }: EdgeMarkProps) {
  const size = chosen ? 11 : 7;
  return (
    <g className={styles.edge}>
      {chosen && <path d={`M${x} ${topPx}V${bottomPx}`} className={styles.edgeLine} />}
      <path
        d={`M${x - size} ${topPx - size * 1.5}h${size * 2}l${-size} ${size * 1.5}z`}
        className={chosen ? styles.edgeChosen : styles.edgeOpen}
      />
      <text
        x={left ? x - size - 4 : x + size + 4}
        y={topPx - 4}
        textAnchor={left ? 'end' : 'start'}
        className={recorder.edgeText}
      >
        {text}
      </text>
    </g>
  );
}

/** The pulse that the chosen edge counts from, with the delay as an arrow to it. */
function PulseRing({ view }: { view: JobStripView }) {
  const output = usePrediction((s) => s.output);
  const chosen = usePrediction((s) => s.chosen);
  const edge = usePrediction((s) => (s.chosen === null ? null : (s.edges[s.output]?.[s.chosen] ?? null)));
  const counted = pulseOfChosen();
  if (chosen === null || !edge || !counted || counted.pulseS === null || counted.delayS === 0) return null;
  if (counted.pulseS < view.fromS) return null;
  const pulseX = view.xOf(counted.pulseS);
  const edgeX = view.xOf(edge.atS);
  const y = view.seen.bottomPx + 14;
  const middle = (pulseX + edgeX) / 2;
  const text = jobWords.delay(minuteSecond(counted.delayS));
  return (
    <g data-channel={output} aria-label={outputName[output]}>
      <rect x={pulseX - 7} y={view.seen.topPx - 5} width={14} height={28} rx={7} className={styles.ring} />
      <path
        d={`M${pulseX} ${view.seen.bottomPx + 4}V${y + 6}M${pulseX} ${y}H${edgeX}M${edgeX - 6} ${y - 4}L${edgeX} ${y}L${edgeX - 6} ${y + 4}`}
        className={styles.arrow}
      />
      <path d={`M${edgeX} ${y}V${view.bands[0]!.topPx - 22}`} className={styles.dotted} />
      {edgeX - pulseX > 130 && (
        <text x={middle} y={y - 4} textAnchor="middle" className={recorder.edgeText}>
          {text}
        </text>
      )}
    </g>
  );
}
