/** On the class page: the room for a diagnosis of one's own is chosen, or one that was begun is gone on with. */
import { useState } from 'react';
import type { Exercise } from '../../../exercise/types.ts';
import { diagnosingWords } from '../../../report/text/diagnosing.ts';
import ui from '../../panels/ui.module.css';
import { Pick } from '../../panels/ui.tsx';
import { beginDiagnosis, openDiagnosis, useDiagnosing } from '../../state/diagnosing.ts';
import { useApp } from '../../state/store.ts';

/** The story that is shown, in a list of exercises by their ids. */
const STORY = '';

export function MakeDiagnosis({ exercises }: { exercises: readonly Exercise[] }) {
  const story = useApp((s) => (s.job ? null : (s.scenario?.title ?? null)));
  const begun = useDiagnosing((s) => s.draft?.title ?? null);
  const rooms = exercises
    .filter(({ kind }) => kind === 'diagnose')
    .map(({ id, job, title }) => ({ value: id, text: diagnosingWords.jobRoom(job, title) }));
  const options = story === null ? rooms : [{ value: STORY, text: diagnosingWords.storyRoom(story) }, ...rooms];
  const [chosen, setChosen] = useState(options[0]?.value ?? STORY);
  return (
    <section aria-label={diagnosingWords.head}>
      <h3>{diagnosingWords.head}</h3>
      <p>{diagnosingWords.intro}</p>
      <div className={ui.row}>
        <Pick label={diagnosingWords.room} value={chosen} options={options} pick={setChosen} />
        <button type="button" className={ui.plain} onClick={() => beginDiagnosis(chosen === STORY ? null : chosen)}>
          {diagnosingWords.begin}
        </button>
        {begun !== null && (
          <button type="button" className={ui.word} onClick={openDiagnosis}>
            <span>{diagnosingWords.goOn(begun)}</span>
          </button>
        )}
      </div>
    </section>
  );
}
