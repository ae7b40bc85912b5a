/** Everything else that can be set, in the words of the product. */
import type { ControllerSettings, RowMode } from '../../engine/types.ts';
import { en } from '../../report/text/en.ts';
import { modeName } from '../../report/text/names.ts';
import { lockName, policyName, sectorName, settingName, shareName } from '../../report/text/settings.ts';
import { changeSettings, takePresentLight, walkTest } from '../state/acts.ts';
import { useApp, useShown } from '../state/store.ts';
import { NULL_RETURNS_TO, type NumberSetting } from './ladders.ts';
import styles from './SetupSheet.module.css';
import { SettingStepper } from './SetupSheet.tsx';
import ui from './ui.module.css';
import { Check, Pick } from './ui.tsx';

function options<T extends string>(names: Record<T, string>): { value: T; text: string }[] {
  return (Object.keys(names) as T[]).map((value) => ({ value, text: names[value] }));
}

function NumberLine({ setting }: { setting: NumberSetting }) {
  return (
    <>
      <span>{settingName[setting]}</span>
      <SettingStepper setting={setting} />
    </>
  );
}

function FlagLine({
  setting,
}: {
  setting: 'delaysCoupled' | 'adaptiveDelay' | 'oneButtonForBothRows' | 'reducedSensitivity';
}) {
  const on = useApp((s) => s.settings?.[setting] ?? false);
  return <Check label={settingName[setting]} checked={on} set={(value) => changeSettings({ [setting]: value })} />;
}

/** Switches a setting between a number and its word for "none". */
function NullLine({
  setting,
  label,
}: {
  setting: 'innerSetpointLx' | 'windowSetpointLx' | 'releaseMarginLx';
  label: string;
}) {
  const off = useApp((s) => s.settings?.[setting] === null);
  return (
    <Check
      label={label}
      checked={off}
      set={(value) => changeSettings({ [setting]: value ? null : (NULL_RETURNS_TO[setting] ?? 500) })}
    />
  );
}

function WalkTestButton() {
  const running = useShown((f) => f.phase === 'walkTest', false);
  return (
    <button type="button" className={ui.plain} onClick={() => walkTest(running ? 'end' : 'start')}>
      {running ? en.setup.walkTestEnd : en.setup.walkTestStart}
    </button>
  );
}

function Sectors() {
  const masked = useApp((s) => s.settings?.maskedSectors ?? null);
  if (!masked) return null;
  const set = (sector: number, on: boolean): void => {
    const rest = masked.filter((s) => s !== sector);
    changeSettings({ maskedSectors: on ? [...rest, sector].sort((a, b) => a - b) : rest });
  };
  return (
    <fieldset className={`${styles.group} ${styles.sectors}`}>
      <legend>{en.setup.sectors}</legend>
      {Array.from({ length: 12 }, (_, sector) => (
        <Check
          key={sectorName(sector)}
          label={sectorName(sector)}
          checked={masked.includes(sector)}
          set={(on) => set(sector, on)}
        />
      ))}
    </fieldset>
  );
}

function Choices({ settings }: { settings: ControllerSettings }) {
  const mode = (key: 'innerMode' | 'windowMode') => (
    <Pick<RowMode>
      label={settingName[key]}
      value={settings[key]}
      options={options(modeName)}
      pick={(value) => changeSettings({ [key]: value })}
    />
  );
  return (
    <div className={styles.group}>
      {mode('innerMode')}
      {mode('windowMode')}
      <Pick
        label={settingName.buttonPolicy}
        value={settings.buttonPolicy}
        options={options(policyName)}
        pick={(value) => changeSettings({ buttonPolicy: value })}
      />
      <Pick
        label={settingName.lampShare}
        value={settings.lampShare}
        options={options(shareName)}
        pick={(value) => changeSettings({ lampShare: value })}
      />
      <Pick
        label={settingName.settingsLock}
        value={settings.settingsLock}
        options={options(lockName)}
        pick={(value) => changeSettings({ settingsLock: value })}
      />
    </div>
  );
}

export function MoreSettings() {
  const settings = useApp((s) => s.settings);
  if (!settings) return null;
  return (
    <div>
      <div className={`${styles.group} ${ui.row}`}>
        <WalkTestButton />
        <button type="button" className={ui.plain} onClick={() => takePresentLight('inner')}>
          {en.setup.takeLight}, {en.setup.rows.inner.toLowerCase()}
        </button>
        <button type="button" className={ui.plain} onClick={() => takePresentLight('window')}>
          {en.setup.takeLight}, {en.setup.rows.window.toLowerCase()}
        </button>
      </div>
      <Choices settings={settings} />
      <div className={`${styles.group} ${styles.list}`}>
        <NumberLine setting="innerDeskFactor" />
        <NumberLine setting="windowDeskFactor" />
        <NumberLine setting="releaseMarginLx" />
        <NumberLine setting="brightDwellS" />
        <NumberLine setting="darkDwellS" />
        <NumberLine setting="reentryGraceS" />
        <NumberLine setting="airGapLimitS" />
      </div>
      <div className={styles.group}>
        <NullLine setting="releaseMarginLx" label={`${settingName.releaseMarginLx}: ${en.setup.automatic}`} />
        <br />
        <NullLine setting="innerSetpointLx" label={`${en.setup.rows.inner}: ${en.setup.ignoreBrightness}`} />
        <br />
        <NullLine setting="windowSetpointLx" label={`${en.setup.rows.window}: ${en.setup.ignoreBrightness}`} />
        <br />
        <FlagLine setting="delaysCoupled" />
        <br />
        <FlagLine setting="adaptiveDelay" />
        <br />
        <FlagLine setting="oneButtonForBothRows" />
        <br />
        <FlagLine setting="reducedSensitivity" />
      </div>
      <Sectors />
    </div>
  );
}
