/** Words at the top of the stage: which story, and the few acts that belong to the whole. */
import { useRef, useState } from 'react';
import { en } from '../../report/text/en.ts';
import ui from '../panels/ui.module.css';
import { linkHash } from '../state/deepLink.ts';
import { live } from '../state/live.ts';
import { forgetSave, readSave, writePosition } from '../state/saves.ts';
import { undoLast } from '../state/session.ts';
import { openFile, openJobById, openLecture, openStory } from '../state/start.ts';
import { getApp, setApp, useApp } from '../state/store.ts';
import styles from './TopWords.module.css';

/** Marks exercises among the stories of the list. */
const JOB = 'job:';

export function StoryPick() {
  const id = useApp((s) => s.scenario?.id ?? '');
  const titles = useApp((s) => s.storyTitles);
  const jobs = useApp((s) => s.jobTitles);
  const jobId = useApp((s) => s.job?.id ?? null);
  const choose = (value: string): void => {
    if (value.startsWith(JOB)) void openJobById(value.slice(JOB.length), 1);
    else openStory(value);
  };
  return (
    <label className={styles.story}>
      <span className="visuallyHidden">{en.stories.choose}</span>
      <select value={jobId === null ? id : JOB + jobId} onChange={(e) => choose(e.target.value)}>
        <optgroup label={en.stories.stories}>
          {titles.map((story) => (
            <option key={story.id} value={story.id}>
              {story.title}
            </option>
          ))}
        </optgroup>
        <optgroup label={en.stories.jobs}>
          {jobs.map((job) => (
            <option key={job.id} value={JOB + job.id}>
              {job.title}
            </option>
          ))}
        </optgroup>
      </select>
    </label>
  );
}

/** A story file from this machine. */
export function OpenFile() {
  const input = useRef<HTMLInputElement>(null);
  return (
    <>
      <button type="button" className={ui.word} onClick={() => input.current?.click()}>
        <span>{en.actions.openFile}</span>
      </button>
      <input
        ref={input}
        type="file"
        accept=".json,application/json"
        hidden
        aria-label={en.actions.openFile}
        onChange={(e) => {
          const file = e.target.files?.[0];
          if (file) void openFile(file);
          e.target.value = '';
        }}
      />
    </>
  );
}

async function share(): Promise<boolean> {
  const url = `${location.origin}${location.pathname}${linkHash(true)}`;
  try {
    await navigator.clipboard.writeText(url);
    return true;
  } catch {
    setApp({ notice: en.notices.shareFailed(url) });
    return false;
  }
}

function startAgain(): void {
  const { scenario, selection, job } = getApp();
  if (!scenario) return;
  if (job) {
    void import('../state/job/job.ts').then(({ beginAgain }) => beginAgain());
    return;
  }
  if (live.frame) writePosition(scenario, live.frame.tick, selection, true);
  const runPutAside = readSave(scenario);
  forgetSave(scenario.id);
  openStory(scenario.id, { fresh: true });
  if (runPutAside && runPutAside !== 'damaged') setApp({ notice: en.notices.begunAnew, runPutAside });
}

export function TopWords() {
  const depth = useApp((s) => s.undoDepth);
  const job = useApp((s) => s.job !== null);
  const [shared, setShared] = useState(false);
  const onShare = async (): Promise<void> => {
    setShared(await share());
    setTimeout(() => setShared(false), 3000);
  };
  return (
    <nav className={styles.words} aria-label={en.actions.group}>
      <button type="button" className={ui.word} onClick={startAgain}>
        <span>{en.actions.startAgain}</span>
      </button>
      <button type="button" className={ui.word} onClick={onShare}>
        <span aria-live="polite">{shared ? en.actions.shared : en.actions.share}</span>
      </button>
      <button type="button" className={ui.word} onClick={undoLast} disabled={depth === 0}>
        <span>{en.actions.undo}</span>
      </button>
      <button type="button" className={ui.word} onClick={() => setApp({ classOpen: true })}>
        <span>{en.actions.class}</span>
      </button>
      {!job && (
        <button type="button" className={ui.word} onClick={() => void openLecture()}>
          <span>{en.actions.lecture}</span>
        </button>
      )}
      <button type="button" className={ui.word} onClick={() => setApp({ aboutOpen: true })}>
        <span>{en.actions.help}</span>
      </button>
    </nav>
  );
}
