/** The year: what is assumed, then a plot, then every figure in a table. */
import { useEffect, useRef, useState } from 'react';
import type { YearResult } from '../../../host/messages.ts';
import { rowName } from '../../../report/text/names.ts';
import { yearWords } from '../../../report/text/year.ts';
import { yearAssumptions, yearCells, yearHeads, yearLines } from '../../../report/year.ts';
import { startYear, stopYear, useInsight, yearKey } from '../../state/insight.ts';
import { useApp } from '../../state/store.ts';
import { Sheet } from '../Sheet.tsx';
import ui from '../ui.module.css';
import { useSize } from '../useSize.ts';
import styles from './insight.module.css';
import { YearPlot } from './YearPlot.tsx';

/** Most watts of one lamp that are taken for true. Assumed: a floodlight; more is a slip of the keys. */
const MOST_W = 2000;

export function YearDialog({ onClose }: { onClose: () => void }) {
  const year = useInsight((s) => s.year);
  const close = (): void => {
    stopYear();
    onClose();
  };
  useEffect(() => stopYear, []);
  return (
    <Sheet title={yearWords.title} closeText={yearWords.close} onClose={close} className={styles.sheet}>
      <Work />
      {year.result && year.result.days.length > 0 && (
        <Figures result={year.result} done={year.doing === 'done'} madeFor={year.madeFor} />
      )}
    </Sheet>
  );
}

/** Start, progress and stop. */
function Work() {
  const doing = useInsight((s) => s.year.doing);
  const share = useInsight((s) => s.year.share);
  const ready = useApp((s) => s.setup !== null && s.settings !== null);
  const working = doing === 'working';
  return (
    <>
      {doing === 'nothing' && (
        <>
          <p className={styles.intro}>{yearWords.typical}</p>
          <p className={styles.intro}>{yearWords.promise}</p>
          <p className={`${styles.intro} ${styles.note}`}>{yearWords.takes}</p>
        </>
      )}
      <div className={styles.line}>
        {working ? (
          <>
            <progress className={styles.progress} value={share} aria-label={yearWords.title} />
            <span>{yearWords.progress(share)}</span>
            <button type="button" className={ui.plain} onClick={stopYear}>
              {yearWords.stop}
            </button>
          </>
        ) : (
          <button type="button" className={ui.plain} disabled={!ready} onClick={() => void startYear()}>
            {doing === 'nothing' ? yearWords.start : yearWords.again}
          </button>
        )}
        <span role="status">
          {doing === 'stopped' && yearWords.stopped}
          {doing === 'failed' && yearWords.failed}
        </span>
      </div>
    </>
  );
}

function Figures({ result, done, madeFor }: { result: YearResult; done: boolean; madeFor: string }) {
  const [watts, setWatts] = useState('');
  const now = useApp((s) => yearKey(s.scenario?.id, s.setup, s.settings));
  const box = useRef<HTMLDivElement>(null);
  const { width } = useSize(box);
  const number = Number(watts.replace(',', '.'));
  const lampW = watts.trim() !== '' && number > 0 && number <= MOST_W ? number : null;
  const lines = yearLines(result);
  return (
    <div ref={box}>
      {madeFor !== now && <p className={styles.outdated}>{yearWords.outdated}</p>}
      <h3>{yearWords.assumed}</h3>
      {yearAssumptions(result).map((text) => (
        <p key={text} className={styles.intro}>
          {text}
        </p>
      ))}
      <h3>{yearWords.chart}</h3>
      <p className={styles.note}>{yearWords.chartKey}</p>
      <YearPlot lines={lines.slice(0, -1)} width={width} />
      <div className={styles.line}>
        <label className={styles.watts}>
          {yearWords.watts}
          <input
            type="text"
            inputMode="decimal"
            value={watts}
            onChange={(e) => setWatts(e.target.value)}
            aria-describedby="year-watts"
          />
        </label>
        <span id="year-watts" className={styles.note}>
          {yearWords.wattsHint}
        </span>
      </div>
      <YearTable result={result} done={done} lampW={lampW} />
    </div>
  );
}

function YearTable({ result, done, lampW }: { result: YearResult; done: boolean; lampW: number | null }) {
  const heads = yearHeads(lampW !== null);
  const each = (heads.length - 1) / 2;
  const first = (i: number): string | undefined => (i % each === 0 ? styles.first : undefined);
  const lines = yearLines(result);
  // A sum of some of the months is no year.
  const shown = done ? lines : lines.slice(0, -1);
  return (
    <div className={styles.tableBox}>
      <table className={styles.table}>
        <caption className="visuallyHidden">{yearWords.table}</caption>
        <thead>
          <tr>
            <td />
            <th scope="colgroup" colSpan={each} className={styles.group} data-channel="innerRow">
              {rowName.inner}
            </th>
            <th scope="colgroup" colSpan={each} className={styles.group} data-channel="windowRow">
              {rowName.window}
            </th>
            <th scope="col" className={styles.group} data-channel="airContact">
              Air contact
            </th>
          </tr>
          <tr>
            <th scope="col">{yearWords.month}</th>
            {heads.map((head, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: the two rows have the same heads
              <th key={i} scope="col" className={first(i)}>
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {shown.map((line, l) => (
            <tr key={line.label} className={l === 12 ? styles.total : undefined}>
              <th scope="row">{line.label}</th>
              {yearCells(line, result.lamps, lampW).map((cell, i) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: figures have no other name
                <td key={i} className={first(i)}>
                  {cell}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
