/** What an act in the past set aside, and the way back to it. */
import { en } from '../../../report/text/en.ts';
import { clockAt } from '../../../report/text/format.ts';
import { useApp } from '../../state/store.ts';
import { send } from '../../state/wire.ts';
import ui from '../ui.module.css';
import styles from './Recorder.module.css';

export function Branches() {
  const branch = useApp((s) => s.branches.at(-1) ?? null);
  const start = useApp((s) => s.scenario?.start ?? null);
  const past = useApp((s) => !s.status.running && s.shownTick < s.status.headTick);
  const headTick = useApp((s) => s.status.headTick);
  const mayAct = useApp((s) => s.job === null || s.job.stage === 'trying' || s.job.allows.length > 0);
  if (!start || (!branch && !past)) return null;
  return (
    <p className={styles.branches}>
      {past && (
        <>
          {mayAct && <span>{en.clock.pastHint}</span>}
          <button type="button" className={ui.link} onClick={() => send({ type: 'seek', tick: headTick })}>
            <span>{en.actions.backToNow}</span>
          </button>
        </>
      )}
      {branch && !past && (
        <>
          <span>
            {en.recorder.setAside(
              clockAt(branch.cutTick, start).slice(0, 5),
              clockAt(branch.headTick, start).slice(0, 5),
            )}
          </span>
          <button
            type="button"
            className={ui.link}
            onClick={() => send({ type: 'restoreBranch', index: branch.index })}
          >
            <span>{en.recorder.bringBack}</span>
          </button>
        </>
      )}
    </p>
  );
}
