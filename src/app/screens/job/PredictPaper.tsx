/** The paper of a prediction: brief and what is given, then what was seen, then the result with reasons. */
import type { OutputId, Scenario } from '../../../engine/types.ts';
import type { PredictExercise } from '../../../exercise/types.ts';
import { clockAt } from '../../../report/text/format.ts';
import { jobWords } from '../../../report/text/jobs.ts';
import { outputName } from '../../../report/text/names.ts';
import { JobSetup } from '../../panels/job/JobSetup.tsx';
import ui from '../../panels/ui.module.css';
import { Stepper } from '../../panels/ui.tsx';
import { run } from '../../state/acts.ts';
import { setSeen, usePrediction } from '../../state/job/predict.ts';
import { setApp, useApp } from '../../state/store.ts';
import styles from './Predict.module.css';
import { PredictResult } from './PredictResult.tsx';
import parts from './parts.module.css';
import { Foot, HandIn, Hints, Names, Reasons } from './parts.tsx';

export function PredictPaper() {
  const exercise = usePrediction((s) => s.exercise);
  const scenario = useApp((s) => s.scenario);
  const stage = useApp((s) => s.job?.stage);
  if (!exercise || !scenario || !stage) return null;
  if (stage === 'preparing' || stage === 'predicting') return <Given exercise={exercise} scenario={scenario} />;
  if (stage === 'running') return <Running exercise={exercise} scenario={scenario} />;
  if (stage !== 'result') return <Seen exercise={exercise} />;
  return (
    <>
      <PredictResult scenario={scenario} />
      <Reasons />
    </>
  );
}

interface PartProps {
  exercise: PredictExercise;
  scenario: Scenario;
}

function Given({ exercise, scenario }: PartProps) {
  return (
    <>
      <p className={parts.brief}>{exercise.brief}</p>
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

/** Quickest speed there is. Source: the product's own speeds. */
const FASTEST = 600;

function toTheEnd(): void {
  setApp({ speed: FASTEST });
  run(FASTEST);
}

function Running({ exercise, scenario }: PartProps) {
  return (
    <>
      <p className={parts.brief}>{exercise.brief}</p>
      <p>{jobWords.running}</p>
      <button type="button" className={ui.plain} onClick={toTheEnd}>
        {jobWords.toTheEnd}: {clockAt(exercise.predict.toS * 10, scenario.start).slice(0, 5)}
      </button>
      <JobSetup scenario={scenario} />
    </>
  );
}

function Seen({ exercise }: { exercise: PredictExercise }) {
  const seen = usePrediction((s) => s.seen);
  const all = exercise.predict.outputs.every((output) => seen[output] !== undefined);
  return (
    <>
      <h2 className={parts.brief}>{jobWords.seenHead}</h2>
      <p>{jobWords.seenAsk}</p>
      <ul className={styles.seen}>
        {exercise.predict.outputs.map((output) => (
          <SeenCount key={output} output={output} count={seen[output]} />
        ))}
      </ul>
      <Foot>
        <HandIn next disabled={!all} />
      </Foot>
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
