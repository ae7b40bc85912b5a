/** Cover cloth and torch: held to the detector for a time, counted down, taken away before it if need be. */
import { useState } from 'react';
import type { Input, RowId, Tick } from '../../../engine/types.ts';
import { minuteSecond } from '../../../report/text/format.ts';
import { heldWords, restS, restText } from '../../../report/text/held.ts';
import { act } from '../../state/session.ts';
import { useShown } from '../../state/store.ts';
import ui from '../ui.module.css';
import { Pick } from '../ui.tsx';
import styles from './Lux.module.css';

/** Times that can be asked for, s. Assumed: from a glance to a whole off-delay of five minutes. */
const TIMES = [30, 60, 120, 300, 600].map((s) => ({ value: String(s), text: minuteSecond(s) }));
const SIDES = (['window', 'inner'] as const).map((value) => ({ value, text: heldWords.sides[value] }));

/** Undo of holding takes it away; undo of taking away holds it again for what was left. */
function hold(input: (forS: number) => Input, forS: number): void {
  act(input(forS), [input(0)]);
}

function end(input: (forS: number) => Input, leftS: number): void {
  act(input(0), [input(leftS)]);
}

const cloth = (forS: number): Input => ({ kind: 'coverDetector', forS });
const torch =
  (side: RowId) =>
  (forS: number): Input => ({ kind: 'holdTorch', side, forS });

interface LineProps {
  name: string;
  /** When it ends by itself; null: it is not held. */
  untilTick: Tick | null;
  state: string;
  input: (forS: number) => Input;
  begin: string;
  stop: string;
  children?: React.ReactNode;
}

function Line({ name, untilTick, state, input, begin, stop, children }: LineProps) {
  const [forS, setForS] = useState('60');
  const leftS = useShown((f) => (untilTick === null ? 0 : restS(untilTick, f.tick)), 0);
  return (
    <section aria-label={name}>
      <p>
        <b>{name}</b> <span className={ui.note}>{state}</span>
      </p>
      <div className={ui.row}>
        {children}
        <Pick label={heldWords.forTime} value={forS} options={TIMES} pick={setForS} />
      </div>
      <div className={styles.acts}>
        {untilTick === null ? (
          <button type="button" className={ui.plain} onClick={() => hold(input, Number(forS))}>
            {begin}
          </button>
        ) : (
          <button type="button" className={ui.plain} onClick={() => end(input, leftS)}>
            {stop}
          </button>
        )}
      </div>
    </section>
  );
}

export function ClothAndTorch() {
  const [side, setSide] = useState<RowId>('window');
  const clothUntil = useShown<Tick | null>((f) => f.held.cloth?.untilTick ?? null, null);
  const torchUntil = useShown<Tick | null>((f) => f.held.torch?.untilTick ?? null, null);
  const torchSide = useShown<RowId | null>((f) => f.held.torch?.side ?? null, null);
  const clothState = useShown(
    ({ held, tick }) => (held.cloth ? heldWords.rest(restText(held.cloth.untilTick, tick)) : heldWords.free),
    heldWords.free,
  );
  const torchState = useShown(
    ({ held, tick }) =>
      held.torch ? heldWords.restFrom(held.torch.side, restText(held.torch.untilTick, tick)) : heldWords.free,
    heldWords.free,
  );
  return (
    <section aria-label={heldWords.region}>
      <p className={styles.note}>{heldWords.intro}</p>
      <Line
        name={heldWords.cloth}
        untilTick={clothUntil}
        state={clothState}
        input={cloth}
        begin={heldWords.cover}
        stop={heldWords.uncover}
      />
      <Line
        name={heldWords.torch}
        untilTick={torchUntil}
        state={torchState}
        input={torch(torchSide ?? side)}
        begin={heldWords.shine}
        stop={heldWords.lower}
      >
        <Pick label={heldWords.side} value={side} options={SIDES} pick={setSide} />
      </Line>
    </section>
  );
}
