/** The paper of an observation: what is asked and worked, then the result with reasons. */
import type { OutputId, Scenario } from '../../../engine/types.ts';
import { secondsToTicks } from '../../../engine/units.ts';
import type { ObserveLine, ObserveSignature } from '../../../exercise/observe/types.ts';
import type { Mark, MarkLine } from '../../../exercise/types.ts';
import { clockAt } from '../../../report/text/format.ts';
import { jobWords } from '../../../report/text/jobs.ts';
import { observeWords, ratioBelief, ratioLineText, tagBelief, tagLineText } from '../../../report/text/observe.ts';
import { walkBelief, walkLineText } from '../../../report/text/walks.ts';
import { JobSetup } from '../../panels/job/JobSetup.tsx';
import ui from '../../panels/ui.module.css';
import { useJob } from '../../state/job/job.ts';
import { isObserved, useObservation } from '../../state/job/observe.ts';
import { recordOf, showWalk, type WalkPlace } from '../../state/job/walks.ts';
import { useApp } from '../../state/store.ts';
import parts from './parts.module.css';
import { Actions, Foot, HandIn, Hints, Moment, Names, Reasons, Total, Try } from './parts.tsx';
import { RatiosPart } from './RatiosPart.tsx';
import { TagsPart } from './TagsPart.tsx';
import { WalksPart } from './WalksPart.tsx';

export function ObservePaper() {
  const exercise = useObservation((s) => s.exercise);
  const scenario = useApp((s) => s.scenario);
  const stage = useApp((s) => s.job?.stage);
  const mark = useJob((s) => s.mark);
  const complete = useObservation(isObserved);
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
      <p className={parts.brief}>{exercise.brief}</p>
      {stage === 'preparing' ? (
        <p role="status">{observeWords.preparing}</p>
      ) : (
        <>
          {exercise.observe.task === 'tags' && <TagsPart moments={exercise.observe.moments} scenario={scenario} />}
          {exercise.observe.task === 'ratios' && <RatiosPart scenario={scenario} />}
          {exercise.observe.task === 'walks' && <WalksPart scenario={scenario} />}
          <Hints exercise={exercise} />
          <Names />
        </>
      )}
      {exercise.observe.task === 'tags' && <JobSetup scenario={scenario} />}
      {stage !== 'preparing' && (
        <Foot>
          <HandIn next={complete} />
        </Foot>
      )}
    </>
  );
}

type Clock = (s: number) => string;

function beliefText(signature: ObserveSignature, clock: Clock): string {
  if ('output' in signature) return tagBelief(signature, clock);
  return 'row' in signature ? ratioBelief(signature) : walkBelief(signature);
}

function lineText(say: ObserveLine, clock: Clock): string {
  if ('output' in say) return tagLineText(say, clock);
  return 'row' in say ? ratioLineText(say) : walkLineText(say);
}

/** The output that a line is about; undefined: none. */
function outputOf(say: ObserveLine): OutputId | undefined {
  if ('output' in say) return say.output;
  if ('row' in say) return say.row === 'inner' ? 'innerRow' : 'windowRow';
  return undefined;
}

/** Leads to the instant: in the record shown, or in that of the walk that is spoken of. */
function MomentOf({ about, atS }: { about: ObserveLine | ObserveSignature; atS: number | null }) {
  if (atS === null) return null;
  if (!('walk' in about)) return <Moment atS={atS} />;
  const { walk } = about;
  return walk === null ? null : <ShowInWalk walk={walk} atS={atS} />;
}

function ShowInWalk({ walk, atS }: { walk: WalkPlace; atS: number }) {
  return (
    <span className={parts.moment}>
      <button type="button" className={ui.link} onClick={() => showWalk(walk, secondsToTicks(atS))}>
        <span>{jobWords.show}</span>
      </button>
      <Try atS={atS} shown={() => recordOf(walk)} />
    </span>
  );
}

/** Lines and beliefs of a mark may be of any kind; this paper is shown those of an observation. */
type Observed = MarkLine & { say: ObserveLine };

function Result({ mark, scenario }: { mark: Mark; scenario: Scenario }) {
  const clock: Clock = (s) => clockAt(Math.round(s * 10), scenario.start);
  const lines = mark.parts.flatMap((part) => part.lines) as Observed[];
  return (
    <section aria-label={jobWords.result}>
      <Total mark={mark} />
      <ol className={parts.lines}>
        {lines.map((line) => (
          <Line key={JSON.stringify(line.say)} line={line} clock={clock} />
        ))}
      </ol>
      {(mark.signatures as ObserveSignature[]).map((signature) => (
        <p key={JSON.stringify(signature)} className={parts.signature}>
          {beliefText(signature, clock)} <MomentOf about={signature} atS={signature.atS} />
        </p>
      ))}
      <Actions />
    </section>
  );
}

function Line({ line: { say, points, of, atS }, clock }: { line: Observed; clock: Clock }) {
  return (
    <li data-channel={outputOf(say)}>
      <b className={parts.points}>{jobWords.points(Math.round(points), Math.round(of))}</b> {lineText(say, clock)}{' '}
      <MomentOf about={say} atS={atS} />
    </li>
  );
}
