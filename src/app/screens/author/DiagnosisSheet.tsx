/** What a diagnosis of one's own needs: its words, the hidden cause, the complaint, candidates, tools, the author's way. */
import type { DiagnosisDraft } from '../../../exercise/authoring/diagnosis.ts';
import type { DiagnoseTask, Instrument } from '../../../exercise/diagnose/types.ts';
import type { Aid } from '../../../exercise/types.ts';
import { skillName } from '../../../report/text/class.ts';
import { diagnosingWords } from '../../../report/text/diagnosing.ts';
import { instrumentName } from '../../../report/text/evidence.ts';
import { jobWords } from '../../../report/text/jobs.ts';
import { Sheet } from '../../panels/Sheet.tsx';
import ui from '../../panels/ui.module.css';
import { Check, Pick } from '../../panels/ui.tsx';
import {
  changeDiagnosis,
  closeDiagnosis,
  openDiagnosisJob,
  proveDiagnosis,
  recordWay,
  saveDiagnosis,
  useDiagnosing,
} from '../../state/diagnosing.ts';
import styles from './Author.module.css';
import { Hints, Line, Part } from './fields.tsx';
import { CausePart, ComplaintPart } from './HiddenCause.tsx';
import { Proofs } from './Proofs.tsx';

const AIDS = (['guided', 'practice', 'test'] as const).map((value) => ({ value, text: jobWords.aids[value] }));
const SKILLS = (['powerUp', 'delays', 'brightness', 'buttons', 'airContact'] as const).map((value) => ({
  value,
  text: skillName[value],
}));
const INSTRUMENTS = Object.keys(instrumentName) as Instrument[];

export function DiagnosisSheet() {
  const draft = useDiagnosing((s) => s.draft);
  if (!draft) return null;
  const ready = draft.title.trim() !== '' && draft.says.trim() !== '' && draft.candidates.length > 0;
  return (
    <Sheet
      title={diagnosingWords.title}
      closeText={diagnosingWords.close}
      onClose={closeDiagnosis}
      className={styles.sheet}
    >
      <CausePart draft={draft} />
      <ComplaintPart draft={draft} />
      <Words draft={draft} />
      <Tools draft={draft} />
      <Hints hints={draft.hints} set={(hints) => changeDiagnosis({ hints })} />
      <Way draft={draft} ready={ready} />
      <Proofs ready={ready} keepAndProve={() => void proveDiagnosis()} save={saveDiagnosis} open={openDiagnosisJob} />
    </Sheet>
  );
}

function Words({ draft }: { draft: DiagnosisDraft }) {
  const { fields } = diagnosingWords;
  return (
    <Part title={diagnosingWords.words}>
      <Line label={fields.title} value={draft.title} most={60} set={(title) => changeDiagnosis({ title })} />
      <Line label={fields.says} value={draft.says} most={160} set={(says) => changeDiagnosis({ says })} />
      <Line
        label={fields.question}
        value={draft.question}
        most={100}
        set={(question) => changeDiagnosis({ question })}
      />
      <Line label={fields.brief} value={draft.brief} most={400} set={(brief) => changeDiagnosis({ brief })} />
    </Part>
  );
}

function Tools({ draft }: { draft: DiagnosisDraft }) {
  const there = INSTRUMENTS.filter((id) => draft.room.tests.some(({ instrument }) => instrument === id));
  return (
    <Part title={diagnosingWords.tools}>
      <div className={ui.row}>
        {there.map((id) => (
          <Check
            key={id}
            label={instrumentName[id]}
            checked={draft.tools.includes(id)}
            set={(on) => changeDiagnosis({ tools: there.filter((t) => (t === id ? on : draft.tools.includes(t))) })}
          />
        ))}
      </div>
      <div className={ui.row}>
        <Pick<Aid>
          label={diagnosingWords.aid}
          value={draft.aid}
          options={AIDS}
          pick={(aid) => changeDiagnosis({ aid })}
        />
        <Pick<DiagnoseTask['skill']>
          label={diagnosingWords.skill}
          value={draft.skill}
          options={SKILLS}
          pick={(skill) => changeDiagnosis({ skill })}
        />
      </div>
    </Part>
  );
}

/** The author's own way through the job: how it is recorded, and what is recorded. */
function Way({ draft, ready }: { draft: DiagnosisDraft; ready: boolean }) {
  const { recorded } = draft;
  return (
    <Part title={diagnosingWords.way}>
      <p>{diagnosingWords.wayNote}</p>
      <div className={ui.row}>
        <button type="button" className={ui.plain} disabled={!ready} onClick={() => void recordWay()}>
          {recorded ? diagnosingWords.recordAgain : diagnosingWords.record}
        </button>
        <p role="status">{recorded ? diagnosingWords.recorded(recorded) : diagnosingWords.notRecorded}</p>
      </div>
    </Part>
  );
}
