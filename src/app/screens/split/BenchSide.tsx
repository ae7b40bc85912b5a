/** One bench: states of the outputs, plan, strip, and the act done last. */
import { useEffect, useMemo, useRef } from 'react';
import { secondsToTicks } from '../../../engine/units.ts';
import { OUTPUTS } from '../../../engine/view.ts';
import { BENCH_STRIP_PX, BENCH_ZOOM, benchPlan, benchStrip } from '../../../report/bench.ts';
import { pathLines } from '../../../report/path.ts';
import { outputWords } from '../../../report/text/badges.ts';
import { outputName } from '../../../report/text/names.ts';
import { splitWords as words } from '../../../report/text/split.ts';
import { useSize } from '../../panels/useSize.ts';
import { beginTickOf, type Side, type SplitSide, useSplit } from '../../state/split.ts';
import styles from './SplitBench.module.css';

export function BenchSide({ side }: { side: Side }) {
  const bench = useSplit((s) => s.sides[side]);
  return (
    <section className={styles.side} aria-label={words.side(side)}>
      <h3>{words.side(side)}</h3>
      {!bench && <p>{words.choose(side)}</p>}
      {bench && bench.share < 1 && <p role="status">{words.working(bench.share)}</p>}
      {bench?.share === 1 && <Bench bench={bench} side={side} />}
    </section>
  );
}

/** Screen px for a px of a drawing. */
function zoomNow(): number {
  const big = Number(getComputedStyle(document.documentElement).getPropertyValue('--big')) || 1;
  return BENCH_ZOOM * big;
}

function Bench({ bench, side }: { bench: SplitSide; side: Side }) {
  const box = useRef<HTMLDivElement>(null);
  const { width, height } = useSize(box);
  const zoom = zoomNow();
  const { scenario, setup, frame, events, steps } = bench;
  const name = side === 0 ? 'a' : 'b';
  const actTicks = useMemo(() => steps.map(({ atS }) => secondsToTicks(atS ?? 0)), [steps]);
  const otherEnd = useSplit((s) => s.sides[side === 0 ? 1 : 0]?.headTick ?? 0);
  const otherBegin = useSplit((s) => s.sides[side === 0 ? 1 : 0]);
  const drawn = useMemo(() => {
    if (!frame || !setup || width < 100 || height < 100) return null;
    const stripPx = BENCH_STRIP_PX * zoom;
    const plan = {
      side: name,
      title: words.plan(side),
      widthPx: width / zoom,
      heightPx: Math.max(60, (height - stripPx) / zoom),
    };
    const fromTick = Math.min(beginTickOf(bench), otherBegin ? beginTickOf(otherBegin) : Number.POSITIVE_INFINITY);
    const endTick = Math.max(bench.headTick, otherEnd);
    const run = { scenario, events, frame, actTicks, fromTick, endTick };
    return {
      plan: benchPlan({ scenario, setup, frame }, plan),
      strip: benchStrip(run, { side: name, title: words.strip(side), widthPx: width / zoom }),
    };
  }, [bench, scenario, setup, frame, events, actTicks, width, height, zoom, name, side, otherEnd, otherBegin]);
  return (
    <>
      <States bench={bench} />
      <div ref={box} className={styles.drawings}>
        {drawn && <Drawing svg={drawn.plan} zoom={zoom} />}
        {drawn && <Drawing svg={drawn.strip} zoom={zoom} />}
      </div>
      <LastAct bench={bench} />
    </>
  );
}

/** A drawing of ours as it is written to files, put into the page. */
function Drawing({ svg, zoom }: { svg: string; zoom: number }) {
  const box = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const drawn = new DOMParser().parseFromString(svg, 'image/svg+xml').documentElement;
    drawn.setAttribute('width', String(Number(drawn.getAttribute('width')) * zoom));
    drawn.setAttribute('height', String(Number(drawn.getAttribute('height')) * zoom));
    box.current?.replaceChildren(drawn);
  }, [svg, zoom]);
  return <div ref={box} />;
}

function States({ bench: { frame } }: { bench: SplitSide }) {
  if (!frame) return null;
  return (
    <ul className={styles.states}>
      {OUTPUTS.map((output) => {
        const view = frame.outputs[output];
        return (
          <li key={output} data-channel={output}>
            <span className={styles.name}>{outputName[output]}</span>
            <b>{outputWords(view, frame.tick).word}</b>
          </li>
        );
      })}
    </ul>
  );
}

/** What was done last, in words; the strip has it as a number. */
function LastAct({ bench }: { bench: SplitSide }) {
  const { exercise, seed, steps, frame, headTick } = bench;
  const clock = useSplit((s) => s.tick);
  const lines = useMemo(() => pathLines(exercise, seed, steps), [exercise, seed, steps]);
  const now = frame?.tick ?? 0;
  const done = steps.filter(({ atS }) => secondsToTicks(atS ?? 0) <= now).length;
  const last = done > 0 ? lines[done - 1] : undefined;
  return (
    <p className={styles.act}>
      {last ? words.actOf(done, steps.length, last.text) : `${words.acts(steps.length)}. ${words.noAct}`}
      {clock >= headTick && ` · ${words.ended}`}
    </p>
  );
}
