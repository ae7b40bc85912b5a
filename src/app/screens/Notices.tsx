/** Sentences over the stage: what is being worked out, what a tap does now, what went wrong. */
import { en } from '../../report/text/en.ts';
import { kitWords } from '../../report/text/kit.ts';
import ui from '../panels/ui.module.css';
import { loadStory } from '../state/session.ts';
import { setApp, useApp } from '../state/store.ts';
import styles from './Notices.module.css';

export function Progress() {
  const loading = useApp((s) => s.readiness === 'loading');
  const stage = useApp((s) => s.progress?.stage ?? null);
  const share = useApp((s) => Math.round((s.progress?.share ?? 0) * 100));
  const updating = useApp((s) => s.status.updating);
  if (!loading && !updating) return null;
  const text = updating && !loading ? en.progress.updating : stage ? en.progress[stage] : en.progress.loading;
  return (
    <p className={styles.progress}>
      {text}
      {loading && stage === 'replay' && ` · ${share} %`}
    </p>
  );
}

export function ToolHint() {
  const tool = useApp((s) => s.floorTool);
  if (tool.kind === 'none') return null;
  const text =
    tool.kind === 'place'
      ? en.people.tapToPlace(tool.personId)
      : tool.kind === 'walk'
        ? en.people.tapToWalk(tool.personId)
        : tool.kind === 'line'
          ? en.people.tapLine(tool.personId, tool.pointsM.length)
          : kitWords.tapToLay(tool.probeId);
  return (
    <p className={styles.hint}>
      {text}
      <button type="button" className={ui.link} onClick={() => setApp({ floorTool: { kind: 'none' } })}>
        <span>{en.people.cancel}</span>
      </button>
    </p>
  );
}

/** Why there is no 3D view, and refusals. Stays until closed. */
export function Notice() {
  const sentence = useApp((s) => s.notice);
  const noRoom = useApp((s) => s.noRoomView);
  const seen = useApp((s) => s.noRoomSeen);
  const putAside = useApp((s) => s.runPutAside);
  const scenario = useApp((s) => s.scenario);
  const cause =
    noRoom === null || seen
      ? null
      : { noWebgl: en.stage.noWebgl, contextLost: en.stage.contextLost, failed: en.stage.roomFailed }[noRoom];
  if (!sentence && !cause) return null;
  return (
    <div className={styles.notice} role="status">
      {cause && <p>{cause}</p>}
      {sentence && <p>{sentence}</p>}
      {noRoom === 'contextLost' && !seen && (
        <button type="button" className={ui.link} onClick={() => setApp({ noRoomView: null, view: 'room' })}>
          <span>{en.stage.tryRoomAgain}</span>
        </button>
      )}
      {putAside && scenario && (
        <button
          type="button"
          className={ui.link}
          onClick={() => {
            loadStory(scenario, { saved: putAside });
            setApp({ notice: null, runPutAside: null });
          }}
        >
          <span>{en.notices.bringRunBack}</span>
        </button>
      )}
      <button
        type="button"
        className={ui.link}
        onClick={() => setApp({ notice: null, noRoomSeen: true, runPutAside: null })}
      >
        <span>{en.actions.dismiss}</span>
      </button>
    </div>
  );
}
