/** The settings that a job opens, each with minus and plus; all others stay as they are. */
import type { ControllerSettings } from '../../../engine/types.ts';
import { settingName, shareName } from '../../../report/text/settings.ts';
import { ladders, type NumberSetting } from '../../panels/ladders.ts';
import { SettingStepper } from '../../panels/SetupSheet.tsx';
import { Check } from '../../panels/ui.tsx';
import { changeSettings } from '../../state/acts.ts';
import { useApp } from '../../state/store.ts';
import styles from './Commission.module.css';

const isNumber = (key: keyof ControllerSettings): key is NumberSetting => key in ladders;

export function OpenSettings({ settings }: { settings: readonly (keyof ControllerSettings)[] }) {
  return (
    <div className={styles.settings}>
      {settings.filter(isNumber).map((setting) => (
        <div key={setting} className={styles.setting}>
          <span>{settingName[setting]}</span>
          <SettingStepper setting={setting} />
        </div>
      ))}
      {settings.includes('lampShare') && <LampShare />}
    </div>
  );
}

function LampShare() {
  const learned = useApp((s) => s.settings?.lampShare === 'learned');
  return (
    <Check
      label={`${settingName.lampShare}: ${shareName.learned}`}
      checked={learned}
      set={(on) => changeSettings({ lampShare: on ? 'learned' : 'off' })}
    />
  );
}
