/** What is modelled, what is left out, and the caution. */
import { aboutSections } from '../../report/text/about.ts';
import { en } from '../../report/text/en.ts';
import { Sheet } from '../panels/Sheet.tsx';
import { setApp } from '../state/store.ts';
import styles from './About.module.css';

function close(): void {
  setApp({ aboutOpen: false });
}

export function About() {
  return (
    <Sheet title={en.actions.help} closeText={en.actions.dismiss} onClose={close} className={styles.about}>
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
    </Sheet>
  );
}
