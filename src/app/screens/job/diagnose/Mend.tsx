/** Mending by the ordinary controls: settings, the detector's place and turn, and what stands and runs in the room. */
import { useEffect, useState } from 'react';
import { diagnoseWords } from '../../../../report/text/diagnose.ts';
import { en } from '../../../../report/text/en.ts';
import { DetectorMoves } from '../../../panels/edit/Detector.tsx';
import { Furniture } from '../../../panels/edit/Furniture.tsx';
import { SetupSheet } from '../../../panels/SetupSheet.tsx';
import ui from '../../../panels/ui.module.css';
import { WordChoice } from '../../../panels/ui.tsx';
import { setDoor, setThing } from '../../../state/acts.ts';
import { settleAsked } from '../../../state/editActs.ts';
import { useApp } from '../../../state/store.ts';
import styles from './Diagnose.module.css';

type Part = keyof typeof diagnoseWords.mend;
const PARTS = (Object.keys(diagnoseWords.mend) as Part[]).map((value) => ({ value, text: diagnoseWords.mend[value] }));

export function Mend({ busy }: { busy: boolean }) {
  const [part, setPart] = useState<Part>('settings');
  const setup = useApp((s) => s.setup);
  const updating = useApp((s) => s.status.updating);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new setup is the answer that was waited for
  useEffect(() => {
    settleAsked();
  }, [setup]);
  return (
    // While a test is being done nothing may be changed under it.
    <fieldset className={styles.mend} disabled={busy}>
      <legend className="visuallyHidden">{diagnoseWords.mending}</legend>
      <p className={ui.note}>{diagnoseWords.mendNote}</p>
      <WordChoice
        label={diagnoseWords.mending}
        options={PARTS}
        chosen={part}
        choose={setPart}
        className={styles.mendWords}
      />
      {part === 'settings' && <SetupSheet />}
      {part === 'detector' && <DetectorMoves />}
      {part === 'room' && <Things />}
      {part === 'room' && setup && <Furniture setup={setup} />}
      <p role="status" className={ui.note}>
        {updating ? diagnoseWords.mendWait : ''}
      </p>
    </fieldset>
  );
}

/** Doors, and warm things that can be stopped; each with the word for what a press does. */
function Things() {
  const things = useApp((s) => s.setup?.warmThings ?? null);
  const doors = useApp((s) => s.setup?.doors ?? null);
  return (
    <div className={ui.row}>
      {doors?.map(({ doorId, open }) => (
        <button key={doorId} type="button" className={ui.plain} onClick={() => setDoor(doorId, !open)}>
          {open ? en.room.closeDoor : en.room.openDoor}
        </button>
      ))}
      {things?.map(({ id, kind, on }) => (
        <button key={id} type="button" className={ui.plain} onClick={() => setThing(id, !on)}>
          {on ? diagnoseWords.stop(diagnoseWords.thing[kind]) : diagnoseWords.start(diagnoseWords.thing[kind])}
        </button>
      ))}
    </div>
  );
}
