/** Result of an exercise: the total, every point with its reason and its moment, one belief to mend, what next. */
import { useState } from 'react';
import type { Scenario } from '../../engine/types.ts';
import { PASS_POINTS } from '../../exercise/predict/mark.ts';
import type { CauseId, Mark, MarkLine } from '../../exercise/types.ts';
import { clockAt } from '../../report/text/format.ts';
import { causeName, jobWords, markLineText, signatureText } from '../../report/text/jobs.ts';
import { outputName } from '../../report/text/names.ts';
import ui from '../panels/ui.module.css';
import { Pick } from '../panels/ui.tsx';
import { copyAttempt, saveAttempt } from '../state/attempts.ts';
import { beginAgain, chooseCause, nextBench, presentAttempt, useJob } from '../state/job.ts';
import { setApp } from '../state/store.ts';
import { send } from '../state/wire.ts';
import styles from './JobSheet.module.css';

export function JobResult({ scenario }: { scenario: Scenario }) {
  const mark = useJob((s) => s.mark);
  if (!mark) return null;
  const clock = (s: number): string => clockAt(Math.round(s * 10), scenario.start);
  const lines = mark.parts.flatMap((part) => part.lines);
  return (
    <section aria-label={jobWords.result}>
      <p className={styles.total}>
        <b>{mark.total}</b> {jobWords.of100}
      </p>
      <p className={styles.brief}>{mark.pass ? jobWords.passed : jobWords.notYet(PASS_POINTS)}</p>
      <SawLines mark={mark} />
      <ol className={styles.lines}>
        {lines.map((line, i) => (
          <Line
            key={`${line.say.output}-${line.atS}-${line.say.code}`}
            line={line}
            place={placeOf(lines, i)}
            clock={clock}
          />
        ))}
      </ol>
      {mark.signatures.map((signature) => (
        <p key={`${signature.id}${signature.output}`} className={styles.signature}>
          {signatureText(signature, clock)} {signature.atS !== null && <Show atS={signature.atS} />}
        </p>
      ))}
      <Actions />
    </section>
  );
}

/** Which switching of its output a line speaks of, counting true ones only. */
function placeOf(lines: readonly MarkLine[], i: number): number {
  const { output } = lines[i]!.say;
  return lines.slice(0, i).filter(({ say }) => say.output === output && say.code !== 'edgeExtra').length;
}

function SawLines({ mark }: { mark: Mark }) {
  const seen = useJob((s) => s.seen);
  const lines = mark.parts.flatMap((part) => part.lines);
  const wrong = Object.entries(seen).flatMap(([output, said]) => {
    const truly = lines.filter(({ say }) => say.output === output && say.code !== 'edgeExtra').length;
    return said === truly ? [] : [jobWords.sawWrong(outputName[output as keyof typeof outputName], said, truly)];
  });
  return <p className={ui.note}>{wrong.length === 0 ? jobWords.sawRight : wrong.join(' ')}</p>;
}

function Show({ atS }: { atS: number }) {
  return (
    <button type="button" className={ui.link} onClick={() => send({ type: 'seek', tick: Math.round(atS * 10) })}>
      <span>{jobWords.show}</span>
    </button>
  );
}

function Line({ line, place, clock }: { line: MarkLine; place: number; clock: (s: number) => string }) {
  const { say, points, of, atS } = line;
  return (
    <li data-channel={say.output}>
      <p>
        <b className={styles.points}>{jobWords.points(Math.round(points), Math.round(of))}</b>{' '}
        {markLineText(say, clock)} {atS !== null && <Show atS={atS} />}
      </p>
      {say.code === 'edgeWrong' && <Why output={say.output} index={place} truth={say.cause} />}
    </li>
  );
}

const CAUSES = Object.entries(causeName).map(([value, text]) => ({ value: value as CauseId, text }));

function Why({ output, index, truth }: { output: MarkLine['say']['output']; index: number; truth: CauseId }) {
  const said = useJob((s) => s.why.find((w) => w.output === output && w.index === index)?.cause ?? null);
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

function Actions() {
  const [copied, setCopied] = useState(false);
  const copy = async (): Promise<void> => {
    const attempt = presentAttempt(true);
    const done = attempt !== null && (await copyAttempt(attempt));
    setCopied(done);
    if (!done) setApp({ notice: jobWords.copyFailed });
  };
  const save = (): void => {
    const attempt = presentAttempt(true);
    if (attempt) saveAttempt(attempt);
  };
  return (
    <div className={styles.actions}>
      <button type="button" className={styles.handIn} onClick={nextBench}>
        {jobWords.next}
      </button>
      <button type="button" className={ui.word} onClick={beginAgain}>
        <span>{jobWords.again}</span>
      </button>
      <button type="button" className={ui.word} onClick={save}>
        <span>{jobWords.save}</span>
      </button>
      <button type="button" className={ui.word} onClick={() => void copy()}>
        <span>{copied ? jobWords.copied : jobWords.copy}</span>
      </button>
    </div>
  );
}
