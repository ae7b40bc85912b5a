/** The paper of an exercise: its brief and what is given, then what was seen, then the result with reasons. */
import type { OutputId, Scenario } from '../../engine/types.ts';
import type { PredictExercise } from '../../exercise/types.ts';
import { clockAt } from '../../report/text/format.ts';
import { jobWords } from '../../report/text/jobs.ts';
import { outputName } from '../../report/text/names.ts';
import { JobSetup } from '../panels/job/JobSetup.tsx';
import { ReasonCard } from '../panels/ReasonCard.tsx';
import ui from '../panels/ui.module.css';
import { Stepper } from '../panels/ui.tsx';
import { run } from '../state/acts.ts';
import { handIn, setName, setSeen, showHint, useJob } from '../state/job.ts';
import { openStory } from '../state/start.ts';
import { setApp, useApp } from '../state/store.ts';
import { JobResult } from './JobResult.tsx';
import styles from './JobSheet.module.css';

export function JobSheet() {
  const exercise = useJob((s) => s.exercise);
  const scenario = useApp((s) => s.scenario);
  const stage = useApp((s) => s.job?.stage);
  if (!exercise || !scenario || !stage) return null;
  return (
    <aside className={styles.sheet} aria-label={jobWords.card}>
      <div className={styles.head}>
        <p>{jobWords.head(exercise.job, jobWords.aids[exercise.aid])}</p>
        <p>{jobWords.bench(useJob.getState().seed)}</p>
      </div>
      {stage === 'preparing' || stage === 'predicting' ? (
        <Given exercise={exercise} scenario={scenario} />
      ) : stage === 'running' ? (
        <Running exercise={exercise} scenario={scenario} />
      ) : stage === 'result' ? (
        <>
          <JobResult scenario={scenario} />
          <Reasons />
        </>
      ) : (
        <Seen exercise={exercise} marking={stage === 'marking'} />
      )}
      <button type="button" className={ui.word} onClick={leave}>
        <span>{jobWords.leave}</span>
      </button>
    </aside>
  );
}

/** Why, for the instant shown: open again once the work is marked. */
function Reasons() {
  const output = useApp((s) => s.lastOutput);
  return <ReasonCard output={output} />;
}

function leave(): void {
  const { storyTitles } = useApp.getState();
  const first = storyTitles[0];
  if (first) openStory(first.id);
}

interface PartProps {
  exercise: PredictExercise;
  scenario: Scenario;
}

function Given({ exercise, scenario }: PartProps) {
  return (
    <>
      <p className={styles.brief}>{exercise.brief}</p>
      <Told exercise={exercise} scenario={scenario} />
      <JobSetup scenario={scenario} />
      <p className={ui.note}>{jobWords.tolerance(exercise.predict.toleranceS)}</p>
      <Hints exercise={exercise} />
      <Names />
    </>
  );
}

function Told({ exercise, scenario }: PartProps) {
  return (
    <table className={styles.told} aria-label={jobWords.told}>
      <tbody>
        {exercise.told.map(({ atS, say }) => (
          <tr key={say}>
            <th scope="row">{clockAt(atS * 10, scenario.start).slice(0, 5)}</th>
            <td>{say}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Hints({ exercise }: { exercise: PredictExercise }) {
  const shown = useJob((s) => s.hintsShown);
  if (exercise.aid === 'test') return null;
  return (
    <div className={styles.hints}>
      {exercise.hints.slice(0, shown).map((hint) => (
        <p key={hint}>{hint}</p>
      ))}
      {shown < exercise.hints.length && (
        <button type="button" className={ui.word} onClick={showHint}>
          <span>{jobWords.hint(shown + 1)}</span>
        </button>
      )}
    </div>
  );
}

function Names() {
  const names = useJob((s) => s.names);
  return (
    <fieldset className={styles.names}>
      <legend>{jobWords.names}</legend>
      {([0, 1] as const).map((place) => (
        <input
          key={place}
          type="text"
          aria-label={jobWords.name(place)}
          placeholder={jobWords.name(place)}
          value={names[place] ?? ''}
          onChange={(e) => setName(place, e.target.value)}
        />
      ))}
    </fieldset>
  );
}

/** Quickest speed there is. Source: the product's own speeds. */
const FASTEST = 600;

function toTheEnd(): void {
  setApp({ speed: FASTEST });
  run(FASTEST);
}

function Running({ exercise, scenario }: PartProps) {
  return (
    <>
      <p className={styles.brief}>{exercise.brief}</p>
      <p>{jobWords.running}</p>
      <button type="button" className={ui.plain} onClick={toTheEnd}>
        {jobWords.toTheEnd}: {clockAt(exercise.predict.toS * 10, scenario.start).slice(0, 5)}
      </button>
      <JobSetup scenario={scenario} />
    </>
  );
}

function Seen({ exercise, marking }: { exercise: PredictExercise; marking: boolean }) {
  const seen = useJob((s) => s.seen);
  const all = exercise.predict.outputs.every((output) => seen[output] !== undefined);
  return (
    <>
      <h2 className={styles.brief}>{jobWords.seenHead}</h2>
      <p>{jobWords.seenAsk}</p>
      <ul className={styles.seen}>
        {exercise.predict.outputs.map((output) => (
          <SeenCount key={output} output={output} count={seen[output]} />
        ))}
      </ul>
      {marking ? (
        <p role="status">{jobWords.marking}</p>
      ) : (
        <button type="button" className={styles.handIn} disabled={!all} onClick={() => void handIn()}>
          {jobWords.handIn}
        </button>
      )}
    </>
  );
}

function SeenCount({ output, count }: { output: OutputId; count: number | undefined }) {
  return (
    <li data-channel={output}>
      <b>{outputName[output]}</b>
      <Stepper
        label={jobWords.seenOf(outputName[output])}
        value={count === undefined ? '–' : jobWords.times(count)}
        less={() => setSeen(output, (count ?? 1) - 1)}
        more={() => setSeen(output, (count ?? 0) + 1)}
        canLess={count !== 0}
      />
    </li>
  );
}
