/** The cause that is hidden, the complaint that shows it, and the causes that give the same complaint. */
import { causeId, type DiagnosisDraft } from '../../../exercise/authoring/diagnosis.ts';
import { complaintsOf, type FiguresByCause, limitOf, OUTPUTS } from '../../../exercise/authoring/figures.ts';
import type { Complaint, DiagnoseExercise } from '../../../exercise/diagnose/types.ts';
import { amountText, complaintText, diagnosingWords, shownText } from '../../../report/text/diagnosing.ts';
import { clockAt } from '../../../report/text/format.ts';
import ui from '../../panels/ui.module.css';
import { Check, Pick, Stepper } from '../../panels/ui.tsx';
import {
  causeFits,
  changeDiagnosis,
  chooseComplaint,
  chooseComplaintKind,
  chooseTwo,
  moveScene,
  playRooms,
  useDiagnosing,
} from '../../state/diagnosing.ts';
import styles from './Author.module.css';
import { Part } from './fields.tsx';

const NONE = '';
/** Ends of the scene move by this, s; the limit of a time by the other. Assumed: as a client tells it. */
const STEP_S = 60;
const LIMIT_S = 10;

type PartProps = { draft: DiagnosisDraft };

/** Two causes joined are chosen as two. */
function partsOf({ room, cause }: DiagnosisDraft): [string, string] {
  const one = room.offered.find((offered) => causeId(offered) === cause);
  return [one?.card ?? cause, one?.and ?? NONE];
}

export function CausePart({ draft }: PartProps) {
  const exercise = useDiagnosing((s) => s.exercise);
  const single = new Set(draft.room.offered.filter(({ and }) => and === undefined).map(causeId));
  const cards = (exercise?.diagnose.candidates ?? []).map(({ card }) => card).filter(({ id }) => single.has(id));
  const [first, second] = partsOf(draft);
  const options = cards.map(({ id, title, healthy }) => ({
    value: id,
    text: healthy ? `${title} (${diagnosingWords.healthy})` : title,
  }));
  const faults = cards.filter(({ id, healthy }) => !healthy && id !== first);
  const others = [
    { value: NONE, text: diagnosingWords.none },
    ...faults.map(({ id, title }) => ({ value: id, text: title })),
  ];
  const isFault = cards.some(({ id, healthy }) => id === first && !healthy);
  return (
    <Part title={diagnosingWords.hidden}>
      <div className={ui.row}>
        <Pick
          label={diagnosingWords.cause}
          value={first}
          options={options}
          pick={(id) => chooseTwo(id, id === second || second === NONE ? null : second)}
        />
        {isFault && (
          <Pick
            label={diagnosingWords.second}
            value={second}
            options={others}
            pick={(id) => chooseTwo(first, id === NONE ? null : id)}
          />
        )}
      </div>
    </Part>
  );
}

export function ComplaintPart({ draft }: PartProps) {
  const { exercise, figures, share } = useDiagnosing();
  return (
    <Part title={diagnosingWords.scene}>
      {exercise && <SceneEnds draft={draft} exercise={exercise} />}
      <div role="status">{share !== null && <p>{diagnosingWords.playing(share)}</p>}</div>
      {share === null && figures === null && (
        <button type="button" className={ui.plain} onClick={() => void playRooms(true)}>
          {diagnosingWords.play}
        </button>
      )}
      {exercise && figures && (
        <>
          <Kind draft={draft} figures={figures} />
          <Candidates draft={draft} exercise={exercise} />
        </>
      )}
    </Part>
  );
}

function SceneEnds({ draft, exercise }: PartProps & { exercise: DiagnoseExercise }) {
  const { complaint, room } = draft;
  const { start, endS } = exercise.scenario;
  const clock = (s: number): string => clockAt(Math.round(s * 10), start);
  const end = (label: string, s: number, to: (s: number) => void, least: number, most: number) => (
    <span className={ui.row}>
      {label}
      <Stepper
        label={label}
        value={clock(s)}
        less={() => to(Math.max(least, s - STEP_S))}
        more={() => to(Math.min(most, s + STEP_S))}
        canLess={s > least}
        canMore={s < most}
      />
    </span>
  );
  return (
    <div className={ui.row}>
      {end(diagnosingWords.from, complaint.fromS, (fromS) => moveScene({ fromS }), 0, complaint.toS - STEP_S)}
      {end(diagnosingWords.to, complaint.toS, (toS) => moveScene({ toS }), complaint.fromS + STEP_S, endS)}
      {end(diagnosingWords.comes, room.beginS, (beginS) => moveScene({ beginS }), STEP_S, endS)}
    </div>
  );
}

/** What tells one way of complaining from another, without its limit. */
function kindKey(complaint: Complaint): string {
  return complaint.kind === 'time'
    ? `${complaint.output} ${complaint.is} ${complaint.who}`
    : `${complaint.output} switchings`;
}

function Kind({ draft, figures }: PartProps & { figures: FiguresByCause }) {
  const { complaint, cause } = draft;
  const all = OUTPUTS.flatMap((output) => complaintsOf(output, complaint));
  const known = all.some((one) => kindKey(one) === kindKey(complaint));
  const options = known ? all : [complaint, ...all];
  const limit = limitOf(complaint);
  const step = complaint.kind === 'time' ? LIMIT_S : 1;
  const to = (value: number) => (): void => {
    const least = Math.max(0, value);
    chooseComplaint(
      complaint.kind === 'time' ? { ...complaint, longerThanS: least } : { ...complaint, moreThan: least },
    );
  };
  const fits = causeFits(cause);
  return (
    <>
      <div className={ui.row}>
        <Pick
          label={diagnosingWords.kind}
          value={kindKey(complaint)}
          options={options.map((one) => ({ value: kindKey(one), text: complaintText(one) }))}
          pick={(key) => chooseComplaintKind(options.find((one) => kindKey(one) === key)!)}
        />
        <span className={ui.row}>
          {diagnosingWords.limit}
          <Stepper
            label={diagnosingWords.limit}
            value={amountText(complaint, limit)}
            less={to(limit - step)}
            more={to(limit + step)}
            canLess={limit > 0}
          />
        </span>
      </div>
      <p role="status">{fits ? shownText(complaint, figures, cause) : <b>{diagnosingWords.notShown}</b>}</p>
    </>
  );
}

function Candidates({ draft, exercise }: PartProps & { exercise: DiagnoseExercise }) {
  const { candidates, cause } = draft;
  const cards = exercise.diagnose.candidates.map(({ card }) => card);
  const ids = cards.map(({ id }) => id);
  const fitting = cards.filter(({ id }) => id === cause || causeFits(id));
  const others = cards.filter((card) => !fitting.includes(card)).map(({ title }) => title);
  return (
    <fieldset className={styles.part}>
      <legend>{diagnosingWords.candidates}</legend>
      <div className={ui.row}>
        {fitting.map(({ id, title, healthy }) => (
          <Check
            key={id}
            label={healthy ? `${title} (${diagnosingWords.healthy})` : title}
            checked={candidates.includes(id)}
            set={(on) =>
              changeDiagnosis({
                candidates: ids.filter((one) => one === cause || (one === id ? on : candidates.includes(one))),
              })
            }
          />
        ))}
      </div>
      <p className={ui.note}>
        {diagnosingWords.candidatesNote(candidates.length)} {others.length > 0 && diagnosingWords.doNotFit(others)}
      </p>
    </fieldset>
  );
}
