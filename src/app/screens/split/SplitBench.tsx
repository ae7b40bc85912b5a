/** Two attempts at one job beside each other before a class: one clock, names hidden. Drawn for the Big Screen. */
import { useEffect, useRef, useState } from 'react';
import { clockAt } from '../../../report/text/format.ts';
import { splitWords as words } from '../../../report/text/split.ts';
import { FileButton } from '../../panels/FileButton.tsx';
import {
  beginTickOf,
  clearSplit,
  lastTick,
  setRunning,
  setSpeed,
  showTick,
  takeFiles,
  toAct,
  useSplit,
} from '../../state/split.ts';
import { setApp } from '../../state/store.ts';
import { useBigScreen } from '../lecture/useBigScreen.ts';
import { BenchSide } from './BenchSide.tsx';
import styles from './SplitBench.module.css';

function close(): void {
  setRunning(false);
  setApp({ splitOpen: false });
}

export function SplitBench() {
  useBigScreen();
  const box = useRef<HTMLDialogElement>(null);
  const [over, setOver] = useState(false);
  const sentence = useSplit((s) => s.sentence);
  const full = useSplit((s) => s.sides[0] !== null && s.sides[1] !== null);
  const title = useSplit((s) => s.sides[0]?.exercise.title ?? words.title);
  useEffect(() => {
    if (!box.current?.open) box.current?.showModal();
  }, []);
  return (
    <dialog
      ref={box}
      className={styles.page}
      aria-label={words.title}
      data-over={over}
      onClose={close}
      onDragOver={(e) => {
        e.preventDefault();
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={(e) => {
        e.preventDefault();
        setOver(false);
        void takeFiles([...e.dataTransfer.files]);
      }}
    >
      <header className={styles.head}>
        <h2>{title}</h2>
        {sentence && <p role="status">{sentence}</p>}
        {full && (
          <button type="button" onClick={clearSplit}>
            {words.swap}
          </button>
        )}
        <button type="button" onClick={close}>
          {words.close}
        </button>
      </header>
      {!full && <Choose />}
      <BenchSide side={0} />
      <BenchSide side={1} />
      {full && <OneClock />}
    </dialog>
  );
}

function Choose() {
  return (
    <div className={styles.choose}>
      <p>{words.intro}</p>
      <FileButton text={words.chooseBoth} className={styles.primary} take={(files) => void takeFiles(files)} />
    </div>
  );
}

const SPEEDS = [1, 10, 60, 600];

function OneClock() {
  const tick = useSplit((s) => s.tick);
  const running = useSplit((s) => s.running);
  const speed = useSplit((s) => s.speed);
  const start = useSplit((s) => s.sides[0]?.scenario.start ?? null);
  const fromTick = useSplit((s) =>
    Math.min(...s.sides.map((side) => (side ? beginTickOf(side) : Number.POSITIVE_INFINITY))),
  );
  const ready = useSplit((s) => s.sides.every((side) => side?.share === 1));
  if (!start) return null;
  const clock = clockAt(tick, start);
  return (
    <footer className={styles.clockBar}>
      <p className={styles.clock}>{clock}</p>
      <button type="button" className={styles.primary} disabled={!ready} onClick={() => setRunning(!running)}>
        {running ? words.pause : words.run}
      </button>
      <button type="button" aria-label={words.actBack} title={words.actBack} onClick={() => toAct(-1)}>
        ◂◂
      </button>
      <button type="button" aria-label={words.actOn} title={words.actOn} onClick={() => toAct(1)}>
        ▸▸
      </button>
      <input
        type="range"
        aria-label={words.clock}
        aria-valuetext={clock}
        min={fromTick}
        max={lastTick()}
        step={1}
        value={tick}
        onChange={(e) => showTick(Number(e.target.value))}
      />
      {/* biome-ignore lint/a11y/useSemanticElements: laid out in one line */}
      <div role="group" aria-label={words.speed} className={styles.speeds}>
        {SPEEDS.map((one) => (
          <button key={one} type="button" aria-pressed={one === speed} onClick={() => setSpeed(one)}>
            {one}
            {one === speed && '×'}
          </button>
        ))}
      </div>
    </footer>
  );
}
