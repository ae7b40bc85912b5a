/** Desks to be read, what was read, and the ratio said for each row. */
import type { RowId, Scenario } from '../../../engine/types.ts';
import { rowName } from '../../../report/text/names.ts';
import { observeWords } from '../../../report/text/observe.ts';
import ui from '../../panels/ui.module.css';
import { readDesk, sayRatio, useObservation } from '../../state/job/observe.ts';
import styles from './Observe.module.css';

const ROWS: readonly RowId[] = ['inner', 'window'];

export function RatiosPart({ scenario }: { scenario: Scenario }) {
  return (
    <>
      <p className={ui.note}>{observeWords.readHow}</p>
      <Readings scenario={scenario} />
      <Ratios />
    </>
  );
}

/** Whole lux: a meter shows no less, and the ratio needs no more. */
const lux = (lx: number): string => `${Math.round(lx)} lx`;

function Readings({ scenario }: { scenario: Scenario }) {
  const readings = useObservation((s) => s.readings);
  const { desk, deskLx, ceilingLx } = observeWords.columns;
  return (
    <table className={styles.readings} aria-label={observeWords.readings}>
      <thead>
        <tr>
          <th scope="col">{desk}</th>
          <th scope="col">{deskLx}</th>
          <th scope="col">{ceilingLx}</th>
        </tr>
      </thead>
      <tbody>
        {scenario.room.deskPoints.map((point, i) => {
          const reading = readings.find((taken) => taken.desk === point.id);
          return (
            <tr key={point.id}>
              <th scope="row">
                <button
                  type="button"
                  className={ui.link}
                  aria-label={observeWords.read(point.label)}
                  onClick={() => readDesk(i, point)}
                >
                  <span>{point.label}</span>
                </button>
              </th>
              <td>{reading ? lux(reading.deskLx) : observeWords.notRead}</td>
              <td>{reading ? lux(reading.ceilingLx) : '–'}</td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

function Ratios() {
  const ratios = useObservation((s) => s.ratios);
  return (
    <fieldset className={styles.ratios}>
      <legend>{observeWords.ratios}</legend>
      {ROWS.map((row) => (
        <label key={row} data-channel={row === 'inner' ? 'innerRow' : 'windowRow'}>
          <b>{rowName[row]}</b>
          <input
            type="number"
            min={0}
            max={1000}
            step="any"
            inputMode="decimal"
            value={ratios[row] ?? ''}
            onChange={(e) => sayRatio(row, ratioFrom(e.target.valueAsNumber))}
          />
        </label>
      ))}
    </fieldset>
  );
}

function ratioFrom(typed: number): number | undefined {
  return Number.isFinite(typed) ? Math.min(1000, Math.max(0, typed)) : undefined;
}
