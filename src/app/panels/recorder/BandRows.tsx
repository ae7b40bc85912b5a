/** The three outputs as bands. Patterns tell them apart without colour. */
import { useMemo } from 'react';
import type { OutputId } from '../../../engine/types.ts';
import { type BandLook, type BandStart, bandStretches, type Stretch, visibleBars } from '../../../report/bands.ts';
import { en } from '../../../report/text/en.ts';
import { clockAt } from '../../../report/text/format.ts';
import { record } from '../../state/record.ts';
import { useApp } from '../../state/store.ts';
import styles from './Recorder.module.css';
import type { StripView } from './view.ts';

const OUTPUTS: readonly OutputId[] = ['innerRow', 'windowRow', 'airContact'];

/** Before the first event: as the story starts. */
function startOf(view: StripView, output: OutputId): BandStart {
  const state = output === 'airContact' ? 'airOff' : 'waiting';
  return { on: false, state, phase: view.scenario.supplyAtStart ? 'running' : 'off' };
}

const OFF_LOOKS: readonly BandLook[] = ['off', 'heldOff', 'watching'];

export function BandRows({ view }: { view: StripView }) {
  return (
    <g>
      <defs>
        {OUTPUTS.map((output) => (
          <pattern
            key={output}
            id={`hatch-${output}`}
            data-channel={output}
            width="6.5"
            height="6.5"
            patternUnits="userSpaceOnUse"
            patternTransform="rotate(45)"
          >
            <rect width="2.4" height="6.5" className={styles.hatch} />
          </pattern>
        ))}
      </defs>
      {OUTPUTS.map((output, i) => (
        <Band
          key={output}
          output={output}
          view={view}
          topPx={view.layout.bands[i]!.topPx}
          heightPx={view.layout.bands[i]!.heightPx}
        />
      ))}
    </g>
  );
}

interface BandProps {
  output: OutputId;
  view: StripView;
  topPx: number;
  heightPx: number;
}

function Band({ output, view, topPx, heightPx }: BandProps) {
  const selected = useApp((s) => s.selection.kind === 'output' && s.selection.output === output);
  const bars = useMemo(() => {
    const end = view.headTick;
    const all = bandStretches(record.events, output, startOf(view, output), end);
    const leastTicks = (view.toTick - view.fromTick) / view.widthPx;
    return visibleBars(all, view.fromTick, Math.min(view.toTick, end), leastTicks);
  }, [view, output]);
  return (
    <g data-channel={output}>
      <path
        d={`M0 ${topPx + heightPx}H${view.widthPx}`}
        className={selected ? styles.bandBaseChosen : styles.bandBase}
      />
      {bars.map((bar) => (
        <Bar key={bar.fromTick} bar={bar} view={view} output={output} topPx={topPx} heightPx={heightPx} />
      ))}
      <OffLabel bars={bars} view={view} y={topPx + heightPx - 3} />
      <Foretold output={output} view={view} topPx={topPx} />
      <Expected output={output} view={view} topPx={topPx} heightPx={heightPx} />
    </g>
  );
}

function Bar({ bar, view, output, topPx, heightPx }: BandProps & { bar: Stretch }) {
  const x = view.xOf(bar.fromTick);
  const width = Math.max(1, view.xOf(bar.toTick) - x);
  const box = { x, y: topPx, width, height: heightPx };
  switch (bar.look) {
    case 'off':
      return null;
    case 'seen':
      return <rect {...box} className={styles.bandFull} />;
    case 'timing':
      return (
        <g>
          <rect {...box} className={styles.bandTint} />
          <rect {...box} fill={`url(#hatch-${output})`} />
          <path d={`M${x} ${topPx + 1}h${width}`} className={styles.bandTop} />
        </g>
      );
    case 'bright':
      return (
        <g>
          <rect {...box} className={styles.bandHollow} />
          <rect x={x} y={topPx + heightPx / 2} width={width} height={heightPx / 2} className={styles.bandFull} />
        </g>
      );
    case 'watching':
      return (
        <rect
          x={x + 0.75}
          y={topPx + 0.75}
          width={Math.max(1, width - 1.5)}
          height={heightPx - 1.5}
          className={styles.bandDashed}
        />
      );
    case 'held':
      return (
        <g>
          <rect {...box} className={styles.bandFull} />
          <path d={`M${x} ${topPx + heightPx / 2}h${width}`} className={styles.bandSlot} />
        </g>
      );
    case 'heldOff':
      return <rect x={x} y={topPx + heightPx - 6} width={width} height={6} className={styles.bandHollow} />;
    case 'starting':
    case 'walkTest':
      return (
        <g>
          <rect {...box} className={styles.bandHollow} />
          <rect {...box} fill={`url(#hatch-${output})`} opacity={0.7} />
        </g>
      );
  }
}

/** The last switching off, in words, where the band is empty enough to hold them. */
function OffLabel({ bars, view, y }: { bars: Stretch[]; view: StripView; y: number }) {
  const last = bars.at(-1);
  const before = bars.at(-2)?.look ?? 'off';
  if (last?.look !== 'off' || OFF_LOOKS.includes(before)) return null;
  const x = view.xOf(last.fromTick);
  if (view.xOf(last.toTick) - x < 110) return null;
  return (
    <text x={x + 10} y={y} className={styles.edgeText}>
      {en.recorder.offAt(clockAt(last.fromTick, view.scenario.start))}
    </text>
  );
}

/** Switchings that somebody foretold before the run: open triangles beside what happened. */
function Foretold({ output, view, topPx }: Pick<BandProps, 'output' | 'view' | 'topPx'>) {
  const edges = useApp((s) => s.foretold?.[output]) ?? [];
  return (
    <g data-foretold={output}>
      {edges.map(({ atS, on }) => {
        const x = view.xOf(atS * 10);
        if (x < 0 || x > view.widthPx) return null;
        return (
          <path
            key={atS}
            d={`M${x - 6} ${topPx - 10}h12l-6 9z`}
            className={styles.expectedEdge}
            data-edge={on ? 'on' : 'off'}
          />
        );
      })}
    </g>
  );
}

/** Where time alone will switch it: an open triangle ahead of now. */
function Expected({ output, view, topPx, heightPx }: BandProps) {
  const shown = view.frame?.outputs[output];
  // When it will switch is what a class is asked, and what an example stops for.
  const covered = useApp((s) => s.lecture?.covered || s.job?.stage === 'example');
  if (covered || shown?.untilTick == null || view.shownTick < view.headTick) return null;
  const turnsOn = shown.badge === 'watching';
  if (!turnsOn && !shown.on) return null;
  const fromX = view.xOf(view.shownTick);
  const toX = view.xOf(shown.untilTick);
  const y = topPx + 2;
  const clock = clockAt(shown.untilTick, view.scenario.start);
  const text = turnsOn ? en.recorder.onAt(clock) : en.recorder.offAt(clock);
  const outside = toX > view.widthPx - 130;
  const endX = outside ? view.widthPx - 128 : toX;
  if (endX < fromX + 4) return null;
  return (
    <g className={styles.channelText}>
      <path d={`M${fromX} ${y}H${endX}`} className={styles.expectedLine} />
      {!outside && (
        <path
          d={`M${toX - 7} ${topPx - 10}h14l-7 11zM${toX} ${topPx + 2}v${heightPx - 2}`}
          className={styles.expectedEdge}
        />
      )}
      <text
        x={outside ? view.widthPx - 8 : toX + 10}
        y={topPx + heightPx - 4}
        textAnchor={outside ? 'end' : 'start'}
        className={styles.edgeText}
      >
        {text}
        {outside && ' ▸'}
      </text>
    </g>
  );
}
