/** The paper of a record to be read: the tag being made, the tags put so far, then the result with reasons. */
import type { Scenario } from '../../../engine/types.ts';
import { OUTPUTS } from '../../../engine/view.ts';
import type { ObserveExercise, ObserveLine, ObserveSignature, Tag } from '../../../exercise/observe/types.ts';
import type { CauseId, Mark, MarkLine } from '../../../exercise/types.ts';
import { clockAt } from '../../../report/text/format.ts';
import { causeName, jobWords } from '../../../report/text/jobs.ts';
import { outputName } from '../../../report/text/names.ts';
import { observeLineText, observeSignatureText, observeWords } from '../../../report/text/observe.ts';
import { JobSetup } from '../../panels/job/JobSetup.tsx';
import ui from '../../panels/ui.module.css';
import { Pick, WordChoice } from '../../panels/ui.tsx';
import { handIn, useJob } from '../../state/job/job.ts';
import { chooseOutput, chooseReason, removeTag, tagNow, useObservation } from '../../state/job/observe.ts';
import { useApp } from '../../state/store.ts';
import styles from './JobSheet.module.css';
import { Actions, Hints, Names, Reasons, Show, Total } from './parts.tsx';

export function ObservePaper() {
  const exercise = useObservation((s) => s.exercise);
  const scenario = useApp((s) => s.scenario);
  const stage = useApp((s) => s.job?.stage);
  const mark = useJob((s) => s.mark);
  if (!exercise || !scenario || !stage) return null;
  if (stage === 'result' && mark) return <Result mark={mark} scenario={scenario} />;
  return (
    <>
      <p className={styles.brief}>{exercise.brief}</p>
      {stage === 'preparing' ? (
        <p role="status">{observeWords.preparing}</p>
      ) : (
        <>
          <NewTag scenario={scenario} />
          <Tags exercise={exercise} scenario={scenario} />
          {stage === 'marking' ? (
            <p role="status">{jobWords.marking}</p>
          ) : (
            <button type="button" className={styles.handIn} onClick={() => void handIn()}>
              {jobWords.handIn}
            </button>
          )}
        </>
      )}
      <JobSetup scenario={scenario} />
      <Hints exercise={exercise} />
      <Names />
    </>
  );
}

const OUTPUT_OPTIONS = OUTPUTS.map((value) => ({ value, text: outputName[value] }));
const CAUSES = Object.entries(causeName).map(([value, text]) => ({ value: value as CauseId, text }));

function NewTag({ scenario }: { scenario: Scenario }) {
  const output = useObservation((s) => s.output);
  const cause = useObservation((s) => s.cause);
  const shownTick = useApp((s) => s.shownTick);
  return (
    <section className={styles.newTag} aria-label={observeWords.head}>
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
        <button type="button" className={ui.plain} disabled={cause === null} onClick={tagNow}>
          {observeWords.tag}
        </button>{' '}
        {clockAt(shownTick, scenario.start)}
      </p>
    </section>
  );
}

function Tags({ exercise, scenario }: { exercise: ObserveExercise; scenario: Scenario }) {
  const tags = useObservation((s) => s.tags);
  return (
    <section aria-label={observeWords.tags}>
      <p role="status">
        <b>{observeWords.count(tags.length, exercise.observe.moments)}</b>
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

/** Lines and beliefs of a mark may be of any kind; this paper is shown those of an observation. */
type Read = MarkLine & { say: ObserveLine };

function Result({ mark, scenario }: { mark: Mark; scenario: Scenario }) {
  const clock = (s: number): string => clockAt(Math.round(s * 10), scenario.start);
  const lines = mark.parts.flatMap((part) => part.lines) as Read[];
  return (
    <>
      <section aria-label={jobWords.result}>
        <Total mark={mark} />
        <ol className={styles.lines}>
          {lines.map(({ say, points, of, atS }) => (
            <li key={`${say.output} ${atS} ${say.code}`} data-channel={say.output}>
              <b className={styles.points}>{jobWords.points(Math.round(points), Math.round(of))}</b>{' '}
              {observeLineText(say, clock)} {atS !== null && <Show atS={atS} />}
            </li>
          ))}
        </ol>
        {(mark.signatures as ObserveSignature[]).map((signature) => (
          <p key={`${signature.id} ${signature.output}`} className={styles.signature}>
            {observeSignatureText(signature, clock)} <Show atS={signature.atS} />
          </p>
        ))}
        <Actions />
      </section>
      <Reasons />
    </>
  );
}
