/** What a recorded job still needs: its words, its strip, what is told, hints; then its proofs. */
import type { Draft } from '../../../exercise/authoring/draft.ts';
import type { Aid } from '../../../exercise/types.ts';
import { authoringWords } from '../../../report/text/authoring.ts';
import { type ClockStart, clockAt, minuteSecond, spokenLength } from '../../../report/text/format.ts';
import { jobWords } from '../../../report/text/jobs.ts';
import { outputName } from '../../../report/text/names.ts';
import { Sheet } from '../../panels/Sheet.tsx';
import ui from '../../panels/ui.module.css';
import { Check, Pick, Stepper } from '../../panels/ui.tsx';
import {
  changeDraft,
  goOnRecording,
  keepAndProve,
  OFFERED_DELAYS_S,
  openKept,
  saveJob,
  TOLERANCES_S,
  useAuthoring,
} from '../../state/authoring.ts';
import styles from './Author.module.css';
import { Hints, Line, Part } from './fields.tsx';
import { Proofs } from './Proofs.tsx';
import { ToldLines } from './ToldLines.tsx';

export function AuthorSheet({ start }: { start: ClockStart }) {
  const draft = useAuthoring((s) => s.draft);
  if (!draft) return null;
  const clock = (s: number): string => clockAt(Math.round(s * 10), start);
  return (
    <Sheet
      title={authoringWords.title}
      closeText={authoringWords.close}
      onClose={goOnRecording}
      className={styles.sheet}
    >
      <p>{authoringWords.kind}</p>
      <Words draft={draft} />
      <Strip draft={draft} clock={clock} />
      <ToldLines draft={draft} clock={clock} />
      <Hints hints={draft.hints} set={(hints) => changeDraft({ hints })} />
      <Part title={authoringWords.delays}>
        <div className={ui.row}>
          {OFFERED_DELAYS_S.map((s) => (
            <Check
              key={s}
              label={minuteSecond(s)}
              checked={draft.offDelaysS.includes(s)}
              set={(on) =>
                changeDraft({
                  offDelaysS: OFFERED_DELAYS_S.filter((d) => (d === s ? on : draft.offDelaysS.includes(d))),
                })
              }
            />
          ))}
        </div>
      </Part>
      <Proofs
        ready={draft.title.trim() !== ''}
        keepAndProve={() => void keepAndProve()}
        save={saveJob}
        open={openKept}
      />
    </Sheet>
  );
}

function Words({ draft }: { draft: Draft }) {
  const { fields } = authoringWords;
  return (
    <>
      <Line label={fields.title} value={draft.title} most={60} set={(title) => changeDraft({ title })} />
      <Line label={fields.question} value={draft.question} most={100} set={(question) => changeDraft({ question })} />
      <Line label={fields.brief} value={draft.brief} most={400} set={(brief) => changeDraft({ brief })} />
    </>
  );
}

/** The strip's ends move in steps of this, s. Assumed: fine enough for a question about minutes. */
const STEP_S = 10;
const AIDS = (['guided', 'practice', 'test'] as const).map((value) => ({ value, text: jobWords.aids[value] }));
const TOLERANCES = TOLERANCES_S.map((s) => ({ value: String(s), text: spokenLength(s) }));
const OUTPUTS = ['innerRow', 'windowRow', 'airContact'] as const;

function Strip({ draft, clock }: { draft: Draft; clock: (s: number) => string }) {
  const { fromS, toS, outputs } = draft;
  const move = (end: 'fromS' | 'toS', byS: number) => () => changeDraft({ [end]: Math.max(0, draft[end] + byS) });
  return (
    <Part title={authoringWords.window}>
      <div className={ui.row}>
        {(['fromS', 'toS'] as const).map((end) => {
          const label = end === 'fromS' ? authoringWords.begins : authoringWords.ends;
          return (
            <span key={end} className={ui.row}>
              {label}
              <Stepper
                label={label}
                value={clock(draft[end])}
                less={move(end, -STEP_S)}
                more={move(end, STEP_S)}
                canLess={end === 'fromS' ? fromS > 0 : toS - fromS > STEP_S}
                canMore={end === 'toS' || toS - fromS > STEP_S}
              />
            </span>
          );
        })}
      </div>
      <fieldset className={ui.row}>
        <legend>{authoringWords.outputs}</legend>
        {OUTPUTS.map((output) => (
          <Check
            key={output}
            label={outputName[output]}
            checked={outputs.includes(output)}
            set={(on) => changeDraft({ outputs: OUTPUTS.filter((o) => (o === output ? on : outputs.includes(o))) })}
          />
        ))}
      </fieldset>
      <div className={ui.row}>
        <Pick
          label={authoringWords.tolerance}
          value={String(draft.toleranceS)}
          options={TOLERANCES}
          pick={(s) => changeDraft({ toleranceS: Number(s) })}
        />
        <Pick<Aid> label={authoringWords.aid} value={draft.aid} options={AIDS} pick={(aid) => changeDraft({ aid })} />
      </div>
    </Part>
  );
}
