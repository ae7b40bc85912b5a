/** Clock, Run and Pause, steps and speeds. The clock is written straight into the page, ten times a second. */
import { useEffect, useRef } from 'react';
import { en } from '../../report/text/en.ts';
import { hourMinute, localSeconds } from '../../report/text/format.ts';
import { pause, run, SPEEDS } from '../state/acts.ts';
import { live, onLive } from '../state/live.ts';
import { getApp, setApp, useApp } from '../state/store.ts';
import { send } from '../state/wire.ts';
import styles from './ClockBar.module.css';
import ui from './ui.module.css';

/** Below this share of the asked speed the true one is printed. Assumed: a tenth short is seen by nobody. */
const SLOW_BELOW = 0.9;

function ClockFace() {
  const hour = useRef<HTMLSpanElement>(null);
  const second = useRef<HTMLSpanElement>(null);
  useEffect(() => {
    const write = (): void => {
      const start = getApp().scenario?.start;
      if (!live.frame || !start || !hour.current || !second.current) return;
      const s = localSeconds(live.frame.tick, start);
      const hourText = hourMinute(s);
      const secondText = `:${String(Math.floor(s + 1e-6) % 60).padStart(2, '0')}`;
      if (hour.current.textContent !== hourText) hour.current.textContent = hourText;
      if (second.current.textContent !== secondText) second.current.textContent = secondText;
    };
    write();
    return onLive(write);
  }, []);
  return (
    <p className={styles.clock}>
      <span ref={hour} />
      <span ref={second} className={styles.seconds} />
    </p>
  );
}

export function RunButton({ big = false }: { big?: boolean }) {
  const button = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    // The opening's button has just gone: whoever pressed it by key goes on at its twin.
    if (document.activeElement === document.body) button.current?.focus({ preventScroll: true });
  }, []);
  const running = useApp((s) => s.status.running);
  const ready = useApp((s) => s.readiness === 'ready');
  const otherFirst = useApp((s) => s.job !== null && s.job.stage !== 'running');
  const armed = useApp((s) => s.lecture?.armed ?? true);
  const toggle = (): void => {
    const { status, speed } = getApp();
    if (status.running) pause();
    else run(speed);
  };
  return (
    <button
      ref={button}
      type="button"
      className={big ? styles.runBig : otherFirst || !armed ? styles.runQuiet : styles.run}
      onClick={toggle}
      disabled={!ready || !armed}
    >
      <svg width="22" height="22" viewBox="0 0 22 22" aria-hidden="true">
        {running ? <path d="M4 2h5v18H4zM13 2h5v18h-5z" /> : <path d="M4 2 20 11 4 20z" />}
      </svg>
      {running ? en.actions.pause : en.actions.run}
    </button>
  );
}

function StatusLine() {
  const running = useApp((s) => s.status.running);
  const asked = useApp((s) => s.speed);
  const trueSpeed = useApp((s) => (s.status.running ? Math.round(s.status.speedTrue * 10) / 10 : 0));
  const past = useApp((s) => !s.status.running && s.shownTick < s.status.headTick);
  const slow = running && trueSpeed > 0 && trueSpeed < asked * SLOW_BELOW;
  const state = running ? en.clock.running : past ? en.clock.past : en.clock.paused;
  return (
    <p className={styles.status}>
      {state} · {asked}× <span>· {slow ? en.clock.trueRate(trueSpeed) : en.clock.rate(asked)}</span>
    </p>
  );
}

const STEPS = [
  {
    label: en.clock.eventBack,
    path: 'M3 3h3v16H3zM19 3v16L7 11z',
    go: () => send({ type: 'nextEvent', direction: -1 }),
  },
  { label: en.clock.tickBack, path: 'M17 3v16L5 11z', go: () => send({ type: 'step', ticks: -1 }) },
  { label: en.clock.tickForward, path: 'M5 3v16l12-8z', go: () => send({ type: 'step', ticks: 1 }) },
  {
    label: en.clock.nextEvent,
    path: 'M16 3h3v16h-3zM3 3v16l12-8z',
    go: () => send({ type: 'nextEvent', direction: 1 }),
  },
] as const;

function Speeds() {
  const asked = useApp((s) => s.speed);
  const choose = (speed: number): void => {
    setApp({ speed });
    if (getApp().status.running) run(speed);
  };
  return (
    // biome-ignore lint/a11y/useSemanticElements: laid out in one line
    <div role="group" aria-label={en.clock.speedGroup} className={styles.speeds}>
      {SPEEDS.map((speed) => (
        <button
          key={speed}
          type="button"
          className={ui.word}
          aria-pressed={speed === asked}
          aria-label={`${speed}×, ${en.clock.rate(speed)}`}
          onClick={() => choose(speed)}
        >
          <span>
            {speed}
            {speed === asked && '×'}
          </span>
        </button>
      ))}
    </div>
  );
}

export function ClockBar() {
  const ready = useApp((s) => s.readiness === 'ready' && (s.lecture?.armed ?? true));
  return (
    <section className={styles.bar} aria-label={en.clock.region}>
      <ClockFace />
      <StatusLine />
      <RunButton />
      <div className={styles.steps}>
        {STEPS.map((step) => (
          <button
            key={step.label}
            type="button"
            aria-label={step.label}
            title={step.label}
            disabled={!ready}
            onClick={step.go}
          >
            <svg width="22" height="22" viewBox="0 0 22 22" aria-hidden="true">
              <path d={step.path} />
            </svg>
          </button>
        ))}
      </div>
      <Speeds />
    </section>
  );
}
