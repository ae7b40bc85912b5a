/** What is modelled, what is left out, and the caution. */
import { useEffect, useRef } from 'react';
import { aboutSections } from '../../report/text/about.ts';
import { en } from '../../report/text/en.ts';
import ui from '../panels/ui.module.css';
import { setApp, useApp } from '../state/store.ts';
import styles from './About.module.css';

export function About() {
  const open = useApp((s) => s.aboutOpen);
  const box = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    const dialog = box.current;
    if (!dialog) return;
    if (open && !dialog.open) dialog.showModal();
    if (!open && dialog.open) dialog.close();
  }, [open]);
  return (
    <dialog
      ref={box}
      className={styles.about}
      aria-label={en.actions.help}
      onClose={() => setApp({ aboutOpen: false })}
    >
      <div className={styles.head}>
        <h2>{en.actions.help}</h2>
        <button type="button" className={ui.plain} onClick={() => setApp({ aboutOpen: false })}>
          {en.actions.dismiss}
        </button>
      </div>
      {aboutSections.map((section) => (
        <section key={section.title}>
          <h3>{section.title}</h3>
          {section.paragraphs?.map((text) => (
            <p key={text}>{text}</p>
          ))}
          {section.points && (
            <ul>
              {section.points.map((text) => (
                <li key={text}>{text}</li>
              ))}
            </ul>
          )}
        </section>
      ))}
    </dialog>
  );
}
