/** Result of an exercise: the total, every point with its reason and its moment, one belief to mend, what next. */
import type { Scenario } from '../../../engine/types.ts';
import type { CauseId, Mark, MarkLine, PredictLine, PredictSignature } from '../../../exercise/types.ts';
import { clockAt } from '../../../report/text/format.ts';
import { causeName, jobWords, markLineText, signatureText } from '../../../report/text/jobs.ts';
import { outputName } from '../../../report/text/names.ts';
import ui from '../../panels/ui.module.css';
import { Pick } from '../../panels/ui.tsx';
import { useJob } from '../../state/job/job.ts';
import { chooseCause, usePrediction } from '../../state/job/predict.ts';
import styles from './Predict.module.css';
import parts from './parts.module.css';
import { Actions, Moment, Total } from './parts.tsx';

export function PredictResult({ scenario }: { scenario: Scenario }) {
  const mark = useJob((s) => s.mark);
  if (!mark) return null;
  const clock = (s: number): string => clockAt(Math.round(s * 10), scenario.start);
  const lines = linesOf(mark);
  return (
    <section aria-label={jobWords.result}>
      <Total mark={mark} />
      <SawLines mark={mark} />
      <ol className={parts.lines}>
        {lines.map((line, i) => (
          <Line
            key={`${line.say.output}-${line.atS}-${line.say.code}`}
            line={line}
            place={placeOf(lines, i)}
            clock={clock}
          />
        ))}
      </ol>
      {(mark.signatures as PredictSignature[]).map((signature) => (
        <p key={`${signature.id}${signature.atS}`} className={parts.signature}>
          {signatureText(signature, clock)} {signature.atS !== null && <Moment atS={signature.atS} />}
        </p>
      ))}
      <Actions />
    </section>
  );
}

type Foretold = MarkLine & { say: PredictLine };

function linesOf(mark: Mark): Foretold[] {
  return mark.parts.flatMap((part) => part.lines).filter((line): line is Foretold => 'output' in line.say);
}

/** Which switching of its output a line speaks of, counting true ones only. */
function placeOf(lines: readonly Foretold[], i: number): number {
  const { output } = lines[i]!.say;
  return lines.slice(0, i).filter(({ say }) => say.output === output && say.code !== 'edgeExtra').length;
}

function SawLines({ mark }: { mark: Mark }) {
  const seen = usePrediction((s) => s.seen);
  const lines = linesOf(mark);
  const wrong = Object.entries(seen).flatMap(([output, said]) => {
    const truly = lines.filter(({ say }) => say.output === output && say.code !== 'edgeExtra').length;
    return said === truly ? [] : [jobWords.sawWrong(outputName[output as keyof typeof outputName], said, truly)];
  });
  return <p className={ui.note}>{wrong.length === 0 ? jobWords.sawRight : wrong.join(' ')}</p>;
}

function Line({ line, place, clock }: { line: Foretold; place: number; clock: (s: number) => string }) {
  const { say, points, of, atS } = line;
  return (
    <li data-channel={say.output}>
      <p>
        <b className={parts.points}>{jobWords.points(Math.round(points), Math.round(of))}</b> {markLineText(say, clock)}{' '}
        {atS !== null && <Moment atS={atS} />}
      </p>
      {say.code === 'edgeWrong' && <Why output={say.output} index={place} truth={say.cause} />}
    </li>
  );
}

const CAUSES = Object.entries(causeName).map(([value, text]) => ({ value: value as CauseId, text }));

function Why({ output, index, truth }: { output: PredictLine['output']; index: number; truth: CauseId }) {
  const said = usePrediction((s) => s.why.find((w) => w.output === output && w.index === index)?.cause ?? null);
  return (
    <div className={styles.why}>
      <Pick<CauseId | 'none'>
        label={jobWords.why}
        value={said ?? 'none'}
        options={[{ value: 'none', text: jobWords.chooseCause }, ...CAUSES]}
        pick={(cause) => {
          if (cause !== 'none') chooseCause(output, index, cause);
        }}
      />
      {said && (
        <p className={ui.note} role="status">
          {said === truth ? jobWords.causeRight : jobWords.causeWrong(causeName[truth])}
        </p>
      )}
    </div>
  );
}
