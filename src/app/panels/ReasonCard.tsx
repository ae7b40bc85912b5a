/** Why the selected output is as it is, why not otherwise, and what would change it: at the instant shown. */
import { useState } from 'react';
import type { Condition, Explanation } from '../../engine/trace.ts';
import type { OutputId } from '../../engine/types.ts';
import { conditionSentence, contextOf } from '../../report/text/conditions.ts';
import { en } from '../../report/text/en.ts';
import { capital, clockAt, luxText, minuteSecond } from '../../report/text/format.ts';
import { outputName } from '../../report/text/names.ts';
import { changeSentence, reasonSentence, whyNotTitle } from '../../report/text/reasons.ts';
import { useApp, useShown } from '../state/store.ts';
import { send } from '../state/wire.ts';
import { OutputBadge, useOutputRest, useOutputWord } from './OutputLine.tsx';
import { PressButton } from './PressButton.tsx';
import { LuxScale, TimeBar } from './Quantities.tsx';
import styles from './ReasonCard.module.css';
import ui from './ui.module.css';

/** Conditions shown at once. Source: at most four lines may be read at a glance in this product's own review list. */
const MOST_CONDITIONS = 4;

export function ReasonCard({ output }: { output: OutputId }) {
  const explanation = useApp((s) => s.explanations[output]);
  const badge = useShown((f) => f.outputs[output].badge, 'notMeasured');
  return (
    <section className={styles.card} aria-label={en.reason.region} data-channel={output}>
      <StateHead output={output} />
      {explanation ? (
        // A reason for the state before would contradict the badge above: for that moment there is none.
        <div className={explanation.badge === badge ? undefined : styles.stale}>
          <Why e={explanation} key={output} />
        </div>
      ) : (
        <p className={ui.note}>{en.reason.waiting}</p>
      )}
    </section>
  );
}

function StateHead({ output }: { output: OutputId }) {
  const word = useOutputWord(output);
  const rest = useOutputRest(output);
  const time = /(\d+:[\d:]+)$/.exec(rest)?.[0];
  const before = time ? rest.slice(0, -time.length) : rest;
  return (
    <div className={styles.head}>
      <span className={styles.badge}>
        <OutputBadge output={output} size={64} />
      </span>
      <div className={styles.headText}>
        <div className={styles.nameLine}>
          <h2 className={styles.name}>{outputName[output]}</h2>
          <PressButton output={output} quiet />
        </div>
        <p className={word.length > 6 ? styles.longState : styles.state}>
          <b>{word}</b>{' '}
          <span className={rest.length >= 12 ? styles.longRest : undefined}>
            {before}
            {time && <strong>{time}</strong>}
          </span>
        </p>
      </div>
    </div>
  );
}

/** A sentence with its times and lux in bold. */
function withBoldFigures(text: string) {
  let at = 0;
  return text.split(/(\d[\d\u2009]*(?::\d\d)+|\d[\d\u2009]* lx)/).map((part, i) =>
    // Every second part is a figure; its place in the sentence is its key, as a figure may stand twice.
    i % 2 === 1 ? <b key={at++}>{part}</b> : part,
  );
}

/** Conditions that carry the answer: quantities first in the engine's order, without repeating a quantity. */
function told(conditions: readonly Condition[]): Condition[] {
  const seen = new Set<string>();
  return conditions
    .filter((c) => {
      const group = c.id === 'dark' || c.id === 'bright' ? 'light' : c.id;
      if (seen.has(group)) return false;
      seen.add(group);
      return true;
    })
    .slice(0, MOST_CONDITIONS);
}

function Why({ e }: { e: Explanation }) {
  const [whyNot, setWhyNot] = useState(false);
  const start = useApp((s) => s.scenario?.start ?? null);
  const settings = useApp((s) => s.settings);
  const change = changeSentence(e, settings ?? undefined);
  if (!start) return null;
  const decided = e.decided;
  return (
    <>
      {told(e.because).map((c) => (
        <ConditionLine key={c.id} c={c} e={e} clock={(tick) => clockAt(tick, start)} />
      ))}
      {e.because.length === 0 && decided && <p className={styles.sentence}>{reasonSentence(decided.reason)}</p>}
      {change && <p className={styles.change}>{withBoldFigures(change)}</p>}
      <div className={styles.links}>
        {decided && (
          <button type="button" className={ui.link} onClick={() => send({ type: 'seek', tick: decided.tick })}>
            <span>{en.actions.showMoment}</span>
          </button>
        )}
        <button type="button" className={ui.link} aria-expanded={whyNot} onClick={() => setWhyNot(!whyNot)}>
          <span>{whyNotTitle(e)}</span>
        </button>
      </div>
      {whyNot && <WhyNot e={e} clock={(tick) => clockAt(tick, start)} />}
    </>
  );
}

interface LineProps {
  c: Condition;
  e: Explanation;
  clock: (tick: number) => string;
}

function ConditionLine({ c, e, clock }: LineProps) {
  const context = contextOf(e);
  const quantity = quantityOf(c, e, clock);
  return (
    <div>
      <p className={quantity ? styles.sentence : styles.lesser}>{conditionSentence(c, context, quantity !== null)}</p>
      {quantity}
    </div>
  );
}

/** When it was, as a link to the moment. */
function LastSeen({ e, clock }: { e: Explanation; clock: (tick: number) => string }) {
  const tick = e.lastSeenTick;
  if (tick === null) return null;
  return (
    <button
      type="button"
      className={styles.lastSeen}
      title={en.actions.showLastPulse}
      onClick={() => send({ type: 'seek', tick })}
    >
      {en.reason.lastSeen(clock(tick))}
    </button>
  );
}

function quantityOf(c: Condition, e: Explanation, clock: (tick: number) => string) {
  if (c.value === null || c.limit === null || c.limit <= 0) return null;
  switch (c.id) {
    case 'occupied':
    case 'airOccupied':
      return (
        <TimeBar
          share={c.value / c.limit}
          left={<LastSeen e={e} clock={clock} />}
          right={en.reason.offDelay(c.limit)}
        />
      );
    case 'dark':
      return <LuxScale valueLx={c.value} limitLx={c.limit} limitWord={en.stage.set} />;
    case 'bright':
      return <LuxScale valueLx={c.value} limitLx={c.limit} limitWord={en.reason.release} />;
    case 'brightDwell':
    case 'darkDwell':
      return (
        <TimeBar share={c.value / c.limit} left={minuteSecond(c.value, 'down')} right={en.reason.dwell(c.limit)} />
      );
    case 'onDelay':
      return (
        <TimeBar share={c.value / c.limit} left={minuteSecond(c.value, 'down')} right={en.reason.onDelay(c.limit)} />
      );
    default:
      return null;
  }
}

/** What is missing for the opposite, how the present state came about, and the sum behind the estimate. */
function WhyNot({ e, clock }: { e: Explanation; clock: (tick: number) => string }) {
  const context = contextOf(e);
  return (
    <div className={styles.whyNot}>
      {e.missing.length > 0 && (
        <ul>
          {e.missing.map((c) => (
            <li key={`${c.id}${c.limit}`}>{conditionSentence(c, context)}</li>
          ))}
        </ul>
      )}
      {!e.decided && <p>{capital(en.reason.fromStart)}.</p>}
      {e.decided && (
        <p>
          {en.reason.howDecided}, {clock(e.decided.tick)}: {reasonSentence(e.decided.reason)}
        </p>
      )}
      {e.output !== 'airContact' && <Sum row={e.output === 'innerRow' ? 'inner' : 'window'} />}
    </div>
  );
}

/** Ceiling reading × desk factor = desk estimate, minus own lamps = daylight estimate. */
function Sum({ row }: { row: 'inner' | 'window' }) {
  const factor = useApp((s) => (row === 'inner' ? s.settings?.innerDeskFactor : s.settings?.windowDeskFactor) ?? null);
  const text = useShown((f) => {
    const light = f.light[row];
    return en.reason.sumText(
      luxText(light.ceilingReadingLx),
      factor === null ? '' : factor.toFixed(1),
      luxText(light.deskEstimateLx),
      luxText(light.lampShareLx),
      luxText(light.daylightEstimateLx),
    );
  }, '');
  return <p>{text}</p>;
}
