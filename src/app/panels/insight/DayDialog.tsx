/** The whole day's light: three quantities that are never one, each with its name; and the same as a table. */
import { useEffect, useRef, useState } from 'react';
import { DAY_LAMPS, type DayLamps, type DayLight } from '../../../engine/dayLight.ts';
import { dayWords } from '../../../report/text/day.ts';
import { dayMonth, hourMinute, luxText } from '../../../report/text/format.ts';
import { rowName, skyName } from '../../../report/text/names.ts';
import { askDay, leaveDay, useInsight } from '../../state/insight.ts';
import { useApp, useShown } from '../../state/store.ts';
import { Sheet } from '../Sheet.tsx';
import { WordChoice } from '../ui.tsx';
import { useSize } from '../useSize.ts';
import { DayPlot } from './DayPlot.tsx';
import styles from './insight.module.css';

const OPTIONS = DAY_LAMPS.map((value) => ({ value, text: dayWords.lampWords[value] }));
const HOUR_S = 3600;

/** Asks anew whenever what the day depends on has changed: setup, settings, the lamps. */
function useDay() {
  const setup = useApp((s) => s.setup);
  const settings = useApp((s) => s.settings);
  const lamps = useShown((f) => `${f.lamps.inner > 0} ${f.lamps.window > 0}`, '');
  const { sunShiftS: _shift, ...rest } = setup ?? { sunShiftS: 0 };
  const key = JSON.stringify([rest, settings, lamps]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: asked again when the key changes
  useEffect(() => {
    askDay();
    return leaveDay;
  }, [key]);
  return useInsight((s) => s.day);
}

export function DayDialog({ onClose }: { onClose: () => void }) {
  const { share, light } = useDay();
  const [lamps, setLamps] = useState<DayLamps>('bySetpoint');
  const sky = useApp((s) => s.setup?.sky ?? 'clear');
  const date = useApp((s) => s.setup?.sunLocalDate ?? '');
  const nowS = useShown((f) => Math.round(f.sun.localS / 60) * 60, 0);
  const box = useRef<HTMLDivElement>(null);
  const { width } = useSize(box);
  const fresh = share >= 1;
  return (
    <Sheet title={dayWords.title} closeText={dayWords.close} onClose={onClose} className={styles.sheet}>
      <p className={styles.intro}>{dayWords.intro(date ? dayMonth(date) : '', skyName[sky])}</p>
      <div className={styles.line}>
        <b>{dayWords.lamps}</b>
        <WordChoice
          label={dayWords.lamps}
          options={OPTIONS}
          chosen={lamps}
          choose={setLamps}
          className={styles.words}
        />
        <span role="status" className={styles.note}>
          {!fresh && dayWords.progress(share)}
        </span>
      </div>
      {lamps === 'bySetpoint' && <p className={styles.note}>{dayWords.bySetpoint}</p>}
      <div ref={box} className={fresh ? undefined : styles.greyed}>
        {light && width > 100 && (
          <DayPlot
            view={{ day: light, rows: light.courses[lamps], width }}
            nowS={light.localDate === date ? nowS : null}
          />
        )}
        {light && <DayTable light={light} lamps={lamps} />}
      </div>
    </Sheet>
  );
}

function DayTable({ light, lamps }: { light: DayLight; lamps: DayLamps }) {
  const rows = light.courses[lamps];
  const every = HOUR_S / light.everyS;
  const at = Array.from({ length: 25 }, (_, h) => h * every);
  const both = ['inner', 'window'] as const;
  const lx = (values: readonly number[] | undefined, i: number): string =>
    values ? luxText(values[i]!).replace(' lx', '') : '–';
  return (
    <div className={styles.tableBox}>
      <table className={styles.table}>
        <caption className="visuallyHidden">{dayWords.table}</caption>
        <thead>
          <tr>
            <th scope="col">{dayWords.time}</th>
            {both.flatMap((row) => [
              <th key={`${row}d`} scope="col" className={styles.first}>
                {dayWords.tableDesk(rowName[row])}
              </th>,
              <th key={`${row}r`} scope="col">
                {dayWords.tableReading(rowName[row])}
              </th>,
              <th key={`${row}e`} scope="col">
                {dayWords.tableEstimate(rowName[row])}
              </th>,
              <th key={`${row}l`} scope="col">
                {dayWords.tableLit(rowName[row])}
              </th>,
            ])}
          </tr>
        </thead>
        <tbody>
          {at.map((i) => (
            <tr key={i}>
              <th scope="row">{i === 24 * every ? '24:00' : hourMinute(i * light.everyS)}</th>
              {both.flatMap((row) => [
                <td key={`${row}d`} className={styles.first}>
                  {lx(rows[row].poorest?.lx, i)}
                </td>,
                <td key={`${row}r`}>{lx(rows[row].ceilingReadingLx, i)}</td>,
                <td key={`${row}e`}>{lx(rows[row].daylightEstimateLx, i)}</td>,
                <td key={`${row}l`}>{rows[row].level[i]! > 0 ? dayWords.on : dayWords.off}</td>,
              ])}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
