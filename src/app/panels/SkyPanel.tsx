/** The sun's hour and date, and the sky: the Sun Rail's twin, without dragging. */
import { lazy, Suspense, useEffect, useRef } from 'react';
import type { SkyCondition } from '../../engine/types.ts';
import { en } from '../../report/text/en.ts';
import { dayMonth, hourMinute, shiftDate } from '../../report/text/format.ts';
import { skyName } from '../../report/text/names.ts';
import { moveSunTo, setSky, sunBackToClock, sunLocalS } from '../state/acts.ts';
import { useApp, useShown } from '../state/store.ts';
import styles from './RoomPanel.module.css';
import ui from './ui.module.css';
import { Stepper, WordChoice } from './ui.tsx';
import { useSunDrag } from './useSunDrag.ts';

const Insight = lazy(async () => ({ default: (await import('./insight/Insight.tsx')).Insight }));

const SKIES = (Object.keys(skyName) as SkyCondition[]).map((value) => ({ value, text: skyName[value] }));

const FIVE_MIN_S = 300;

export function SkyPanel() {
  const shownS = useShown((f) => Math.round(f.sun.localS / 60) * 60, 0);
  const sky = useApp((s) => s.setup?.sky ?? s.scenario?.sky ?? 'clear');
  const date = useApp((s) => s.setup?.sunLocalDate ?? s.scenario?.start.localDate ?? '');
  const shifted = useApp(
    (s) => s.setup !== null && (s.setup.sunShiftS !== 0 || s.setup.sunLocalDate !== s.scenario?.start.localDate),
  );
  const drag = useSunDrag();
  const hour = drag.previewS ?? shownS;
  const stepHour = (s: number): void => moveSunTo((((sunLocalS() + s) % 86_400) + 86_400) % 86_400, null, true);
  const stepDate = (days: number): void => moveSunTo(sunLocalS(), shiftDate(date, days), true);
  return (
    <section aria-label={en.sky.region}>
      <HourSlider hour={hour} drag={drag} stepHour={stepHour} />
      <div className={styles.line}>
        <span>{en.sky.hour}</span>
        <Stepper
          label={en.sky.hour}
          value={hourMinute(hour)}
          less={() => stepHour(-FIVE_MIN_S)}
          more={() => stepHour(FIVE_MIN_S)}
        />
      </div>
      <p>{en.sky.date}</p>
      <div className={styles.line}>
        <button type="button" className={ui.soft} aria-label={en.sky.monthBefore} onClick={() => stepDate(-30)}>
          −30
        </button>
        <Stepper label={en.sky.date} value={dayMonth(date)} less={() => stepDate(-1)} more={() => stepDate(1)} />
        <button type="button" className={ui.soft} aria-label={en.sky.monthAfter} onClick={() => stepDate(30)}>
          +30
        </button>
      </div>
      <WordChoice label={en.sky.sky} options={SKIES} chosen={sky} choose={setSky} className={ui.row} />
      {shifted && (
        <p className={ui.note}>
          {en.sky.shifted}{' '}
          <button type="button" className={ui.link} onClick={sunBackToClock}>
            <span>{en.sky.withClock}</span>
          </button>
        </p>
      )}
      <Suspense fallback={null}>
        <Insight />
      </Suspense>
    </section>
  );
}

interface HourSliderProps {
  hour: number;
  drag: ReturnType<typeof useSunDrag>;
  stepHour: (s: number) => void;
}

function HourSlider({ hour, drag, stepHour }: HourSliderProps) {
  const box = useRef<HTMLInputElement>(null);
  const endDrag = drag.end;
  const end = useRef(endDrag);
  end.current = endDrag;
  useEffect(() => {
    const input = box.current;
    if (!input) return;
    // React's onChange is the native input event; the native change event is the end of the gesture.
    const done = (): void => end.current();
    input.addEventListener('change', done);
    return () => input.removeEventListener('change', done);
  }, []);
  return (
    <input
      ref={box}
      type="range"
      className={ui.range}
      min={0}
      max={86_100}
      step={300}
      value={Math.round(hour / 300) * 300}
      aria-label={en.sky.rail}
      aria-valuetext={hourMinute(hour)}
      onChange={(e) => drag.move(Number(e.target.value))}
      onKeyDown={(e) => {
        // The browser's own page step would be a tenth of the day.
        if (e.key !== 'PageUp' && e.key !== 'PageDown') return;
        e.preventDefault();
        stepHour(e.key === 'PageUp' ? 3600 : -3600);
      }}
    />
  );
}
