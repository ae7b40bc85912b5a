/** Where the short code of a lecture is typed; Enter opens it. */
import { type FormEvent, useId, useState } from 'react';
import { classWords } from '../../report/text/class.ts';
import ui from '../panels/ui.module.css';
import { openShortCode, readShortCode, type ShortCodeFault } from '../state/shortCode.ts';
import styles from './ClassPage.module.css';

/** Longest text. Assumed: twice the longest name of ours. */
const MOST_TEXT = 60;

export function ShortCodeEntry({ opened }: { opened: () => void }) {
  const [text, setText] = useState('');
  const [fault, setFault] = useState<ShortCodeFault | null>(null);
  const faultId = useId();
  const read = readShortCode(text);
  const open = (event: FormEvent): void => {
    event.preventDefault();
    if (typeof read === 'string') {
      setFault(read);
      return;
    }
    opened();
    openShortCode(read);
  };
  return (
    <form className={`${ui.row} ${styles.apart}`} onSubmit={open}>
      <label className={ui.row}>
        {classWords.shortCode}
        <input
          className={styles.shortCode}
          type="text"
          autoComplete="off"
          autoCapitalize="none"
          spellCheck={false}
          maxLength={MOST_TEXT}
          value={text}
          aria-invalid={fault !== null}
          aria-describedby={faultId}
          onChange={(e) => {
            setText(e.target.value);
            setFault(null);
          }}
        />
      </label>
      <button type="submit" className={ui.plain} disabled={text.trim() === ''}>
        {typeof read === 'string' ? classWords.openShort : `${classWords.openShort} ${read.title}`}
      </button>
      <p id={faultId} role="status" className={styles.fault}>
        {fault !== null && classWords.shortFault[fault]}
      </p>
    </form>
  );
}
