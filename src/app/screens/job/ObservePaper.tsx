/** The paper of an observation: what is asked and worked, then the result with reasons. */
import type { Scenario } from '../../../engine/types.ts';
import type {
  ObserveLine,
  ObserveSignature,
  RatioSignature,
  TagLine,
  TagSignature,
} from '../../../exercise/observe/types.ts';
import type { Mark, MarkLine } from '../../../exercise/types.ts';
import { clockAt } from '../../../report/text/format.ts';
import { jobWords } from '../../../report/text/jobs.ts';
import { observeWords, ratioBelief, ratioLineText, tagBelief, tagLineText } from '../../../report/text/observe.ts';
import { JobSetup } from '../../panels/job/JobSetup.tsx';
import { handIn, useJob } from '../../state/job/job.ts';
import { useObservation } from '../../state/job/observe.ts';
import { useApp } from '../../state/store.ts';
import styles from './JobSheet.module.css';
import { Actions, Hints, Names, Reasons, Show, Total } from './parts.tsx';
import { RatiosPart } from './RatiosPart.tsx';
import { TagsPart } from './TagsPart.tsx';

export function ObservePaper() {
  const exercise = useObservation((s) => s.exercise);
  const scenario = useApp((s) => s.scenario);
  const stage = useApp((s) => s.job?.stage);
  const mark = useJob((s) => s.mark);
  if (!exercise || !scenario || !stage) return null;
  if (stage === 'result' && mark) {
    return (
      <>
        <Result mark={mark} scenario={scenario} />
        {exercise.observe.task === 'tags' && <Reasons />}
      </>
    );
  }
  return (
    <>
      <p className={styles.brief}>{exercise.brief}</p>
      {stage === 'preparing' ? (
        <p role="status">{observeWords.preparing}</p>
      ) : (
        <>
          {exercise.observe.task === 'tags' ? (
            <TagsPart moments={exercise.observe.moments} scenario={scenario} />
          ) : (
            <RatiosPart scenario={scenario} />
          )}
          <Hints exercise={exercise} />
          <Names />
          <HandIn marking={stage === 'marking'} />
        </>
      )}
      {exercise.observe.task === 'tags' && <JobSetup scenario={scenario} />}
    </>
  );
}

function HandIn({ marking }: { marking: boolean }) {
  if (marking) return <p role="status">{jobWords.marking}</p>;
  return (
    <button type="button" className={styles.handIn} onClick={() => void handIn()}>
      {jobWords.handIn}
    </button>
  );
}

type Clock = (s: number) => string;

const isTag = (say: ObserveLine): say is TagLine => 'output' in say;
const isAboutTags = (signature: ObserveSignature): signature is TagSignature => 'output' in signature;

function beliefText(signature: TagSignature | RatioSignature, clock: Clock): string {
  return isAboutTags(signature) ? tagBelief(signature, clock) : ratioBelief(signature);
}

/** Lines and beliefs of a mark may be of any kind; this paper is shown those of an observation. */
type Observed = MarkLine & { say: ObserveLine };

function Result({ mark, scenario }: { mark: Mark; scenario: Scenario }) {
  const clock: Clock = (s) => clockAt(Math.round(s * 10), scenario.start);
  const lines = mark.parts.flatMap((part) => part.lines) as Observed[];
  return (
    <section aria-label={jobWords.result}>
      <Total mark={mark} />
      <ol className={styles.lines}>
        {lines.map((line) => (
          <Line key={JSON.stringify(line.say)} line={line} clock={clock} />
        ))}
      </ol>
      {(mark.signatures as ObserveSignature[]).map((signature) => (
        <p key={JSON.stringify(signature)} className={styles.signature}>
          {beliefText(signature, clock)} <Show atS={signature.atS} />
        </p>
      ))}
      <Actions />
    </section>
  );
}

function Line({ line: { say, points, of, atS }, clock }: { line: Observed; clock: Clock }) {
  const output = isTag(say) ? say.output : say.row === 'inner' ? 'innerRow' : 'windowRow';
  return (
    <li data-channel={output}>
      <b className={styles.points}>{jobWords.points(Math.round(points), Math.round(of))}</b>{' '}
      {isTag(say) ? tagLineText(say, clock) : ratioLineText(say)} {atS !== null && <Show atS={atS} />}
    </li>
  );
}
