/** The case notebook: a page of cards, to be read on a phone, printed, or taken along as text. */
import { exerciseById } from '../../../exercise/load.ts';
import { type Card, cardOf, cardsText } from '../../../report/notebook.ts';
import { notebookWords } from '../../../report/text/notebook.ts';
import { Sheet } from '../../panels/Sheet.tsx';
import ui from '../../panels/ui.module.css';
import { offerFile } from '../../state/attempts.ts';
import { type Case, removeCase, useNotebook } from '../../state/notebook.ts';
import { setApp } from '../../state/store.ts';
import { library } from '../../state/stories.ts';
import styles from './Notebook.module.css';

function close(): void {
  setApp({ notebookOpen: false });
}

/** A card, or the sentence why there is none. */
function made({ attempt, mark }: Case): Card | string {
  const exercise = exerciseById(library, attempt.exercise);
  return exercise.ok ? cardOf(exercise.value, attempt, mark) : notebookWords.noJob(attempt.exercise);
}

export function Notebook() {
  const cases = useNotebook((s) => s.cases);
  const papers = cases.map((one) => ({ one, card: made(one) }));
  const save = (): void => {
    const cards = papers.flatMap(({ card }) => (typeof card === 'string' ? [] : [card]));
    offerFile('case-notebook.txt', cardsText(cards), 'text/plain');
  };
  return (
    <Sheet title={notebookWords.title} closeText={notebookWords.close} onClose={close} className={styles.page}>
      <p className={styles.screenOnly}>{cases.length === 0 ? notebookWords.empty : notebookWords.intro}</p>
      {cases.length > 0 && (
        <div className={styles.acts}>
          <span role="status">{notebookWords.cards(cases.length)}</span>
          <button type="button" className={ui.plain} onClick={() => print()}>
            {notebookWords.print}
          </button>
          <button type="button" className={ui.plain} onClick={save}>
            {notebookWords.save}
          </button>
        </div>
      )}
      {papers.map(({ one, card }) => (
        <CardPaper key={`${one.attempt.exercise}-${one.attempt.seed}`} one={one} card={card} />
      ))}
    </Sheet>
  );
}

function CardPaper({ one, card }: { one: Case; card: Card | string }) {
  const title = typeof card === 'string' ? one.attempt.exercise : card.title;
  return (
    <article className={styles.card} aria-label={title}>
      <div className={styles.head}>
        <h3>{title}</h3>
        <button
          type="button"
          className={`${ui.word} ${styles.screenOnly}`}
          aria-label={notebookWords.remove(title)}
          onClick={() => removeCase(one)}
        >
          <span>{notebookWords.removeShort}</span>
        </button>
      </div>
      {typeof card === 'string' ? (
        <p>{card}</p>
      ) : (
        <>
          <p className={ui.note}>{card.about}</p>
          <p className={styles.said}>{card.said}</p>
          {card.parts.map(({ head, lines }) => (
            <section key={head} className={styles.part}>
              <h4>{head}</h4>
              <ul>
                {lines.map((line, i) => (
                  // biome-ignore lint/suspicious/noArrayIndexKey: two lines may say the same
                  <li key={i}>{line}</li>
                ))}
              </ul>
            </section>
          ))}
        </>
      )}
    </article>
  );
}
