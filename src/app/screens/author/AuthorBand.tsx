/** While a job is recorded: since when, and how it ends. Stopped, the sheet asks for the rest. */
import { authoringWords } from '../../../report/text/authoring.ts';
import { clockAt } from '../../../report/text/format.ts';
import ui from '../../panels/ui.module.css';
import { giveUp, stopRecording } from '../../state/authoring.ts';
import { useApp } from '../../state/store.ts';
import styles from './Author.module.css';
import { AuthorSheet } from './AuthorSheet.tsx';

export function AuthorBand() {
  const scenario = useApp((s) => s.scenario);
  const authoring = useApp((s) => s.authoring);
  if (!scenario || !authoring) return null;
  return (
    <section className={styles.band} aria-label={authoringWords.record}>
      <p role="status">
        <b>{authoringWords.recordingSince(clockAt(authoring.fromTick, scenario.start))}</b>{' '}
        {authoringWords.recordingNote}
      </p>
      <div className={ui.row}>
        <button type="button" className={ui.plain} onClick={stopRecording}>
          {authoringWords.stop}
        </button>
        <button type="button" className={ui.word} onClick={giveUp}>
          <span>{authoringWords.giveUp}</span>
        </button>
      </div>
      {authoring.toTick !== null && <AuthorSheet start={scenario.start} />}
    </section>
  );
}
