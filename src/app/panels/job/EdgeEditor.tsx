/** Edges by words and steps: everything that a tap on the strip can do, without dragging. */
import type { OutputId, Scenario } from '../../../engine/types.ts';
import type { PredictExercise } from '../../../exercise/types.ts';
import { clockAt, minuteSecond } from '../../../report/text/format.ts';
import { jobWords } from '../../../report/text/jobs.ts';
import { outputName } from '../../../report/text/names.ts';
import {
  addNextEdge,
  chooseEdge,
  moveEdge,
  pulseOfChosen,
  removeEdge,
  startsOn,
  stepPulse,
  usePrediction,
} from '../../state/job/predict.ts';
import ui from '../ui.module.css';
import { WordChoice } from '../ui.tsx';
import { EDGES_ID } from './edgesId.ts';
import styles from './JobBand.module.css';

export function EdgeEditor({ exercise, scenario }: { exercise: PredictExercise; scenario: Scenario }) {
  const output = usePrediction((s) => s.output);
  const edges = usePrediction((s) => s.edges[s.output]) ?? [];
  const chosen = usePrediction((s) => s.chosen);
  const clock = (s: number): string => clockAt(Math.round(s * 10), scenario.start);
  const edge = chosen === null ? null : edges[chosen];
  return (
    <section id={EDGES_ID} tabIndex={-1} className={styles.editor} aria-label={jobWords.editor}>
      <div className={styles.pick}>
        <WordChoice
          label={jobWords.editor}
          options={exercise.predict.outputs.map((value) => ({ value, text: outputName[value] }))}
          chosen={output}
          choose={(value: OutputId) =>
            chooseEdge(value, (usePrediction.getState().edges[value]?.length ?? 0) > 0 ? 0 : null)
          }
        />
        <ul className={styles.edges} aria-label={`${outputName[output]}: ${jobWords.editor}`}>
          <li className={ui.note}>
            {edges.length === 0
              ? `${jobWords.startsOn(startsOn(output))}, ${jobWords.none}`
              : jobWords.startsOn(startsOn(output))}
          </li>
          {edges.map(({ atS, on }, i) => (
            <li key={atS}>
              <button
                type="button"
                className={ui.word}
                aria-pressed={i === chosen}
                onClick={() => chooseEdge(output, i)}
              >
                <span>{jobWords.edge(on, clock(atS))}</span>
              </button>
            </li>
          ))}
        </ul>
        <span className={styles.change}>
          <button type="button" className={ui.word} onClick={addNextEdge}>
            <span>{jobWords.addEdge}</span>
          </button>
          <button type="button" className={ui.word} disabled={!edge} onClick={removeEdge}>
            <span>{jobWords.remove}</span>
          </button>
        </span>
      </div>
      <div className={styles.tools}>
        <Step text={jobWords.steps.backMinute} byS={-60} off={!edge} />
        <Step text={jobWords.steps.back} byS={-5} off={!edge} />
        <output className={styles.time} data-channel={output}>
          {edge ? (
            <>
              <span>
                {outputName[output]} {edge.on ? 'on' : 'off'}
              </span>{' '}
              <b>{clock(edge.atS)}</b>
            </>
          ) : (
            <span>{jobWords.none}</span>
          )}
        </output>
        <Step text={jobWords.steps.on} byS={5} off={!edge} />
        <Step text={jobWords.steps.onMinute} byS={60} off={!edge} />
        <PulseSteps off={!edge} clock={clock} />
      </div>
    </section>
  );
}

function Step({ text, byS, off }: { text: string; byS: number; off: boolean }) {
  return (
    <button type="button" className={ui.soft} disabled={off} onClick={() => moveEdge(byS)}>
      <span className={styles.stepText}>{text}</span>
    </button>
  );
}

function PulseSteps({ off, clock }: { off: boolean; clock: (s: number) => string }) {
  // Follows the chosen edge.
  usePrediction((s) => (s.chosen === null ? null : s.edges[s.output]?.[s.chosen]?.atS));
  const counted = pulseOfChosen();
  const delay = counted ? minuteSecond(counted.delayS) : '';
  return (
    <div className={styles.pulse}>
      <button
        type="button"
        className={ui.soft}
        disabled={off}
        aria-label={jobWords.pulseBefore}
        onClick={() => stepPulse(-1)}
      >
        ◂
      </button>
      <p>
        <b>{jobWords.pulsePlus}</b>
        <br />
        <span className={ui.note}>
          {counted === null
            ? '–'
            : counted.pulseS === null
              ? jobWords.noPulse(delay)
              : jobWords.pulseLine(clock(counted.pulseS), delay)}
        </span>
      </p>
      <button
        type="button"
        className={ui.soft}
        disabled={off}
        aria-label={jobWords.pulseAfter}
        onClick={() => stepPulse(1)}
      >
        ▸
      </button>
    </div>
  );
}
