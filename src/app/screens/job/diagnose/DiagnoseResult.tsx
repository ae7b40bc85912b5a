/** Result of a diagnosis: the total, the parts with their reasons and moments, what belief to mend, what next. */

import { useEffect, useRef } from 'react';
import { PASS_POINTS } from '../../../../exercise/diagnose/score.ts';
import type { DiagnoseExercise, DiagnoseLine } from '../../../../exercise/diagnose/types.ts';
import type { MarkPart, SearchSignatureId } from '../../../../exercise/types.ts';
import { diagnoseWords } from '../../../../report/text/diagnose.ts';
import { jobWords } from '../../../../report/text/jobs.ts';
import { diagnoseSentence, partName, searchBelief } from '../../../../report/text/marks.ts';
import { useJob } from '../../../state/job/job.ts';
import parts from '../parts.module.css';
import { Actions, Moment } from '../parts.tsx';

function Part({ part }: { part: MarkPart }) {
  return (
    <li>
      <p>
        <b>{partName[part.id]}</b> {jobWords.points(part.points, part.of)}
      </p>
      <ul>
        {part.lines.map(({ say, atS }, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: lines of a mark never change their order
          <li key={i}>
            {diagnoseSentence(say as DiagnoseLine)} {atS !== null && <Moment atS={atS} />}
          </li>
        ))}
      </ul>
    </li>
  );
}

export function DiagnoseResult({ exercise }: { exercise: DiagnoseExercise }) {
  const mark = useJob((s) => s.mark);
  const top = useRef<HTMLElement>(null);
  // The Job Card was scrolled to its foot when it was handed in.
  useEffect(() => top.current?.scrollIntoView({ block: 'start' }), []);
  if (!mark?.diagnosis) return null;
  const { named, trueCard, minutes, referenceMin } = mark.diagnosis;
  const titleOf = (id: string): string => exercise.diagnose.candidates.find((c) => c.card.id === id)?.card.title ?? id;
  return (
    <section ref={top} aria-label={jobWords.result}>
      <p className={parts.total}>
        <b>{mark.total}</b> {jobWords.of100}
      </p>
      <p className={parts.brief}>{mark.pass ? jobWords.passed : diagnoseWords.notYet(PASS_POINTS)}</p>
      <p>
        {diagnoseWords.diagnosis(named ? titleOf(named) : diagnoseWords.nothingNamed, titleOf(trueCard))}{' '}
        {diagnoseWords.took(minutes, referenceMin)}
      </p>
      {mark.signatures.map((signature) => (
        <p key={signature.id} className={parts.signature}>
          {searchBelief[signature.id as SearchSignatureId]} {signature.atS !== null && <Moment atS={signature.atS} />}
        </p>
      ))}
      <ol className={parts.lines}>
        {mark.parts.map((part) => (
          <Part key={part.id} part={part} />
        ))}
      </ol>
      <Actions />
    </section>
  );
}
