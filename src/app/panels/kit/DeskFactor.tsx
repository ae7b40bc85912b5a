/** Help for the desk factor: meter on the poorest desk, its reading beside the ceiling reading, one act to use it. */
import { useState } from 'react';
import type { ProbeReading } from '../../../engine/light/probePlace.ts';
import { probeTotalLx } from '../../../engine/light/probePlace.ts';
import type { RowId, Scenario } from '../../../engine/types.ts';
import { luxText } from '../../../report/text/format.ts';
import { factorText, factorWords, luxWords, meterText, rowName } from '../../../report/text/lux.ts';
import { changeSettings, takePresentLight } from '../../state/acts.ts';
import { live } from '../../state/live.ts';
import { addMeter, placeProbe } from '../../state/probeActs.ts';
import { type Probe, useProbes } from '../../state/probes.ts';
import { useApp, useShown } from '../../state/store.ts';
import ui from '../ui.module.css';
import { WordChoice } from '../ui.tsx';
import { type Caution, cautions } from './cautions.ts';
import styles from './Lux.module.css';

const ROWS = (['inner', 'window'] as const).map((value) => ({ value, text: rowName[value] }));
const FACTOR_OF = { inner: 'innerDeskFactor', window: 'windowDeskFactor' } as const;
/** Limits of a desk factor. Source: the controller's own range. */
const LEAST_FACTOR = 0.5;
const MOST_FACTOR = 20;

export function DeskFactor() {
  const [row, setRow] = useState<RowId>('inner');
  const scenario = useApp((s) => s.scenario);
  const meter = useProbes((s) => s.probes.find((p) => p.id === s.chosen) ?? s.probes[0] ?? null);
  const reading = useProbes((s) => (meter ? (s.readings[meter.id] ?? null) : null));
  if (!scenario) return null;
  return (
    <section aria-label={factorWords.region} className={styles.factor}>
      <WordChoice label={factorWords.row} options={ROWS} chosen={row} choose={setRow} className={styles.words} />
      <ol className={styles.steps}>
        <li>
          {factorWords.step1}
          <Poorest row={row} scenario={scenario} meter={meter} />
        </li>
        <li>
          {factorWords.step2}
          <Compare row={row} meter={meter} reading={reading} />
        </li>
        <li>
          {factorWords.step3}
          <Use row={row} reading={reading} />
        </li>
      </ol>
      {meter && reading && !reading.covered && (
        <Cautions row={row} scenario={scenario} meter={meter} reading={reading} />
      )}
      <div className={styles.acts}>
        <button type="button" className={ui.plain} onClick={() => takePresentLight(row)}>
          {factorWords.takeLight}
        </button>
      </div>
      <p className={styles.note}>{factorWords.takeNote}</p>
    </section>
  );
}

/** Desk points of the row with their light now, the poorest first. */
function poorestFirst(row: RowId, scenario: Scenario): { index: number; lx: number }[] {
  return scenario.room.deskPoints
    .map((point, index) => ({ index, row: point.row, lx: live.frame?.deskLx[index] ?? 0 }))
    .filter((p) => p.row === row)
    .sort((a, b) => a.lx - b.lx);
}

function Poorest({ row, scenario, meter }: { row: RowId; scenario: Scenario; meter: Probe | null }) {
  const index = useShown(() => poorestFirst(row, scenario)[0]?.index ?? -1, -1);
  const lx = useShown((f) => luxText(f.deskLx[index] ?? 0), '');
  const point = scenario.room.deskPoints[index];
  if (!point) return null;
  const put = () => {
    if (meter) placeProbe(meter.id, point.atM);
    else addMeter(point.atM);
  };
  return (
    <>
      <p className={styles.note}>{factorWords.poorest(point.label, lx)}</p>
      <button type="button" className={ui.plain} onClick={put}>
        {factorWords.put(point.label)}
      </button>
    </>
  );
}

function useCeilingLx(row: RowId): number {
  return useShown((f) => f.light[row].ceilingReadingLx, 0);
}

function Compare({ row, meter, reading }: { row: RowId; meter: Probe | null; reading: ProbeReading | null }) {
  const ceilingLx = useCeilingLx(row);
  const stale = useProbes((s) => s.measuring);
  if (!meter || !reading) return <p className={styles.note}>{factorWords.noReading}</p>;
  if (reading.covered) return <p className={styles.note}>{luxWords.covered}</p>;
  return (
    <p className={`${styles.pair} ${stale ? styles.grey : ''}`}>
      <span>
        <b>{meterText(probeTotalLx(reading))}</b> {factorWords.onDesk}
      </span>
      <span>
        <b>{meterText(ceilingLx)}</b> {factorWords.onCeiling}
      </span>
    </p>
  );
}

function Use({ row, reading }: { row: RowId; reading: ProbeReading | null }) {
  const ceilingLx = useCeilingLx(row);
  const key = FACTOR_OF[row];
  const now = useApp((s) => s.settings?.[key] ?? 0);
  const stale = useProbes((s) => s.measuring);
  const usable = reading !== null && !reading.covered && ceilingLx > 0;
  const factor = usable ? Math.round((probeTotalLx(reading) / ceilingLx) * 100) / 100 : 0;
  const inside = factor >= LEAST_FACTOR && factor <= MOST_FACTOR;
  const inUse = inside && Math.abs(factor - now) < 0.005;
  return (
    <>
      <p className={styles.note}>{factorWords.factorNow(factorText(now))}</p>
      {usable && !inside && <p className={styles.note}>{factorWords.limits(factorText(factor))}</p>}
      {inside && (
        <button
          type="button"
          className={ui.plain}
          disabled={stale || inUse}
          onClick={() => changeSettings({ [key]: factor })}
        >
          {inUse ? factorWords.inUse(factorText(factor)) : factorWords.use(factorText(factor))}
        </button>
      )}
    </>
  );
}

interface CautionsProps {
  row: RowId;
  scenario: Scenario;
  meter: Probe;
  reading: ProbeReading;
}

/** Teaching hints about the moment of measuring; whoever knows them can put them away. */
function Cautions({ row, scenario, meter, reading }: CautionsProps) {
  const [hidden, setHidden] = useState(false);
  const found = cautions(reading, meter, row, scenario.room.deskPoints);
  const percent = (share: number): string => `${Math.round(share * 100)} %`;
  const text = ({ kind, share }: Caution): string => {
    const words = factorWords.warn[kind];
    return typeof words === 'string' ? words : words(percent(share));
  };
  return (
    <div className={styles.warn}>
      {!hidden && found.map((caution) => <p key={caution.kind}>{text(caution)}</p>)}
      {!hidden && found.length === 0 && <p>{factorWords.fits}</p>}
      <button type="button" className={ui.link} aria-expanded={!hidden} onClick={() => setHidden(!hidden)}>
        <span>{hidden ? factorWords.show : factorWords.hide}</span>
      </button>
    </div>
  );
}
