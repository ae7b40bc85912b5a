/** What is worked on a record: the tag being made, and the tags put so far. */
import type { Scenario } from '../../../engine/types.ts';
import { OUTPUTS } from '../../../engine/view.ts';
import type { Tag } from '../../../exercise/observe/types.ts';
import type { CauseId } from '../../../exercise/types.ts';
import { clockAt } from '../../../report/text/format.ts';
import { causeName } from '../../../report/text/jobs.ts';
import { outputName } from '../../../report/text/names.ts';
import { observeWords } from '../../../report/text/observe.ts';
import ui from '../../panels/ui.module.css';
import { Pick, WordChoice } from '../../panels/ui.tsx';
import { chooseOutput, chooseReason, isObserved, removeTag, tagNow, useObservation } from '../../state/job/observe.ts';
import { useApp } from '../../state/store.ts';
import styles from './Observe.module.css';
import parts from './parts.module.css';
import { Show } from './parts.tsx';

export function TagsPart({ moments, scenario }: { moments: number; scenario: Scenario }) {
  return (
    <>
      <NewTag scenario={scenario} />
      <Tags moments={moments} scenario={scenario} />
    </>
  );
}

const OUTPUT_OPTIONS = OUTPUTS.map((value) => ({ value, text: outputName[value] }));
const CAUSES = Object.entries(causeName).map(([value, text]) => ({ value: value as CauseId, text }));

/** The next tag begins with its reason; the button is shut till there is one. */
function tagAndGoOn({ currentTarget }: React.MouseEvent): void {
  const reason = currentTarget.closest('section')?.querySelector('select');
  tagNow();
  reason?.focus({ preventScroll: true });
}

function NewTag({ scenario }: { scenario: Scenario }) {
  const output = useObservation((s) => s.output);
  const cause = useObservation((s) => s.cause);
  const complete = useObservation(isObserved);
  const shownTick = useApp((s) => s.shownTick);
  return (
    <section className={parts.block} aria-label={observeWords.head}>
      <p className={ui.note}>{observeWords.how}</p>
      <WordChoice
        label={observeWords.output}
        options={OUTPUT_OPTIONS}
        chosen={output}
        choose={chooseOutput}
        className={styles.outputs}
      />
      <Pick<CauseId | 'none'>
        showLabel={false}
        label={observeWords.cause}
        value={cause ?? 'none'}
        options={[{ value: 'none', text: observeWords.chooseCause }, ...CAUSES]}
        pick={(picked) => chooseReason(picked === 'none' ? null : picked)}
      />
      <p>
        <button
          type="button"
          className={complete ? ui.plain : parts.primary}
          disabled={cause === null}
          onClick={tagAndGoOn}
        >
          {observeWords.tag}
        </button>{' '}
        {clockAt(shownTick, scenario.start)}
      </p>
    </section>
  );
}

function Tags({ moments, scenario }: { moments: number; scenario: Scenario }) {
  const tags = useObservation((s) => s.tags);
  return (
    <section aria-label={observeWords.tags}>
      <p role="status">
        <b>{observeWords.count(tags.length, moments)}</b>
      </p>
      <ul className={styles.tags}>
        {tags.map((tag) => (
          <TagRow key={`${tag.atS} ${tag.output}`} tag={tag} scenario={scenario} />
        ))}
      </ul>
    </section>
  );
}

function TagRow({ tag, scenario }: { tag: Tag; scenario: Scenario }) {
  const what = observeWords.tagAt(clockAt(Math.round(tag.atS * 10), scenario.start), outputName[tag.output]);
  return (
    <li data-channel={tag.output}>
      <span>
        <b>{what}</b> {causeName[tag.cause]}
      </span>
      <span className={styles.tagActs}>
        <Show atS={tag.atS} />
        <button type="button" className={ui.link} aria-label={observeWords.remove(what)} onClick={() => removeTag(tag)}>
          <span>{observeWords.removeShort}</span>
        </button>
      </span>
    </li>
  );
}
