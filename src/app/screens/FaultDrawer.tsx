/** The lecturer's drawer: one cause is put into the room, shown to the class or hidden from it. */
import { useMemo, useState } from 'react';
import { drawerOf } from '../../exercise/diagnose/drawer.ts';
import type { Exercise } from '../../exercise/types.ts';
import { drawerWords } from '../../report/text/drawer.ts';
import ui from '../panels/ui.module.css';
import { Check, Pick } from '../panels/ui.tsx';
import { openJobById } from '../state/start.ts';

/** `opened`: called when a room is about to be shown. */
export function FaultDrawer({ exercises, opened }: { exercises: readonly Exercise[]; opened: () => void }) {
  const drawer = useMemo(() => drawerOf(exercises.filter((exercise) => exercise.kind === 'diagnose')), [exercises]);
  const [chosen, setChosen] = useState(0);
  const [hidden, setHidden] = useState(true);
  const one = drawer[chosen];
  if (!one) return null;
  const open = async (): Promise<void> => {
    opened();
    // Guided: the class sees how many causes still fit after each reading.
    await openJobById(one.exercise, one.seed, 'guided', hidden ? '' : one.title);
  };
  return (
    <section aria-label={drawerWords.head}>
      <h3>{drawerWords.head}</h3>
      <p>{drawerWords.intro}</p>
      <div className={ui.row}>
        <Pick
          label={drawerWords.list}
          value={String(chosen)}
          options={drawer.map(({ job, room, title, healthy }, i) => ({
            value: String(i),
            text: `${i + 1} · ${drawerWords.job(job, room)}: ${title}${healthy ? ` (${drawerWords.healthy})` : ''}`,
          }))}
          pick={(value) => setChosen(Number(value))}
        />
        <Check label={drawerWords.hidden} checked={hidden} set={setHidden} />
        <button type="button" className={ui.plain} onClick={() => void open()}>
          {drawerWords.open}
        </button>
      </div>
      <p className={ui.note}>{drawerWords.practice}</p>
    </section>
  );
}
