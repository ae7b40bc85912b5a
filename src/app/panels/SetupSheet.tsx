/** Settings of the controller, acting at once. */
import { lazy, Suspense, useState } from 'react';
import { en } from '../../report/text/en.ts';
import { minuteSecond } from '../../report/text/format.ts';
import { kitWords } from '../../report/text/kit.ts';
import { settingName, settingValue } from '../../report/text/settings.ts';
import { changeSettings } from '../state/acts.ts';
import { useApp } from '../state/store.ts';
import { ladders, type NumberSetting, nextStep } from './ladders.ts';
import { MoreSettings } from './MoreSettings.tsx';
import styles from './SetupSheet.module.css';
import ui from './ui.module.css';
import { Stepper } from './ui.tsx';

const DeskFactor = lazy(async () => ({ default: (await import('./kit/DeskFactor.tsx')).DeskFactor }));

/** A number setting with minus and plus. A setting that is off (null) shows its word and steps back in. */
export function SettingStepper({ setting }: { setting: NumberSetting }) {
  const value = useApp((s) => s.settings?.[setting] ?? null);
  const ladder = ladders[setting];
  const off = value === null;
  const step = (direction: 1 | -1) => () => {
    if (value !== null) changeSettings({ [setting]: nextStep(ladder, value, direction) });
  };
  return (
    <Stepper
      label={settingName[setting]}
      value={
        off ? (setting === 'releaseMarginLx' ? en.setup.automatic : en.setup.ignored) : settingValue(setting, value)
      }
      less={step(-1)}
      more={step(1)}
      canLess={!off && value > ladder[0]!}
      canMore={!off && value < ladder[ladder.length - 1]!}
    />
  );
}

export function SetupSheet() {
  const ready = useApp((s) => s.settings !== null);
  const coupled = useApp((s) => s.settings?.delaysCoupled ?? false);
  const [more, setMore] = useState(false);
  const [factor, setFactor] = useState(false);
  if (!ready) return null;
  return (
    <section aria-label={en.setup.region}>
      <table className={styles.table}>
        <thead>
          <tr>
            <td />
            <th scope="col">{en.setup.setpoint}</th>
            <th scope="col">{en.setup.offDelay}</th>
          </tr>
        </thead>
        <tbody>
          <tr data-channel="innerRow">
            <th scope="row">{en.setup.rows.inner}</th>
            <td>
              <SettingStepper setting="innerSetpointLx" />
            </td>
            <td>
              <SettingStepper setting="innerOffDelayS" />
            </td>
          </tr>
          <tr data-channel="windowRow">
            <th scope="row">{en.setup.rows.window}</th>
            <td>
              <SettingStepper setting="windowSetpointLx" />
            </td>
            <td>{coupled ? <CoupledDelay /> : <SettingStepper setting="windowOffDelayS" />}</td>
          </tr>
          <tr data-channel="airContact">
            <th scope="row">{en.setup.rows.air}</th>
            <td>
              <SettingStepper setting="airOnDelayS" />
              <span className={styles.under}>{en.setup.onDelay}</span>
            </td>
            <td>
              <SettingStepper setting="airOffDelayS" />
            </td>
          </tr>
        </tbody>
      </table>
      <button type="button" className={ui.link} aria-expanded={more} onClick={() => setMore(!more)}>
        <span>{en.setup.moreSettings}</span>
      </button>
      {more && <MoreSettings />}
      <br />
      <button type="button" className={ui.link} aria-expanded={factor} onClick={() => setFactor(!factor)}>
        <span>{kitWords.findFactor}</span>
      </button>
      {factor && (
        <Suspense fallback={null}>
          <DeskFactor />
        </Suspense>
      )}
    </section>
  );
}

function CoupledDelay() {
  const delayS = useApp((s) => s.settings?.innerOffDelayS ?? 0);
  return (
    <span className={styles.coupled} title={en.setup.coupledNote}>
      {minuteSecond(delayS)}
      <span className="visuallyHidden">{en.setup.coupledNote}</span>
    </span>
  );
}
