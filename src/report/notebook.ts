/** A card of the case notebook, made from an attempt and its mark: the case in a few lines, as somebody would keep it. */
import type { Scenario } from '../engine/types.ts';
import { complaintLine, placesOf } from '../exercise/diagnose/cards.ts';
import type { DiagnoseExercise, DiagnoseLine } from '../exercise/diagnose/types.ts';
import { benchScenario } from '../exercise/edits.ts';
import type { Attempt, Exercise, LineCode, Mark, PredictExercise } from '../exercise/types.ts';
import { readingText, testLine } from './text/evidence.ts';
import { clockAt, dayMonth, minuteSecond } from './text/format.ts';
import { causeName } from './text/jobs.ts';
import { diagnoseSentence } from './text/marks.ts';
import { outputName } from './text/names.ts';
import { notebookWords } from './text/notebook.ts';

export interface CardPart {
  head: string;
  lines: string[];
}

export interface Card {
  title: string;
  /** Bench, names, points: one line under the title. */
  about: string;
  /** What the case was about, as it was said. */
  said: string;
  parts: CardPart[];
}

type Clock = (s: number) => string;

const linesOf = (mark: Mark): LineCode[] => mark.parts.flatMap(({ lines }) => lines.map(({ say }) => say));

function predictParts(exercise: PredictExercise, room: Scenario, mark: Mark, clock: Clock): CardPart[] {
  const { heads, offDelays } = notebookWords;
  const { innerOffDelayS, windowOffDelayS, airOffDelayS } = room.settings;
  const delays = [innerOffDelayS, windowOffDelayS, airOffDelayS].map((s) => minuteSecond(s)) as [
    string,
    string,
    string,
  ];
  const edges = linesOf(mark).flatMap((say) => ('trueS' in say ? [say] : []));
  const name = (say: (typeof edges)[number]): string => `${outputName[say.output]} ${say.on ? 'on' : 'off'}`;
  return [
    {
      head: heads.given,
      lines: [...exercise.told.map(({ atS, say }) => `${clock(atS)}: ${say}`), offDelays(...delays)],
    },
    { head: heads.did, lines: edges.map((say) => `${clock(say.trueS)}: ${name(say)}`) },
    { head: heads.why, lines: edges.map((say) => `${name(say)} ${clock(say.trueS)}: ${causeName[say.cause]}`) },
  ];
}

/** Which part of a card a line of a diagnosis's mark belongs to. */
const PART_OF: Partial<Record<DiagnoseLine['code'], 'cause' | 'proof'>> = {
  claimRight: 'cause',
  remedyDone: 'cause',
  nothingToRepair: 'cause',
  proofDone: 'proof',
  complaintRemains: 'proof',
};

function diagnoseParts(exercise: DiagnoseExercise, attempt: Attempt, mark: Mark, clock: Clock): CardPart[] {
  const { heads } = notebookWords;
  const places = placesOf(exercise);
  const clips = attempt.answers.diagnose?.clips ?? [];
  const said = (part: 'cause' | 'proof'): string[] =>
    (linesOf(mark) as DiagnoseLine[]).flatMap((say) => (PART_OF[say.code] === part ? [diagnoseSentence(say)] : []));
  return [
    {
      head: heads.measured,
      lines: clips.map(
        ({ tick, test, values }) => `${clock(tick / 10)}: ${testLine(test, places)}. ${readingText(test, values)}`,
      ),
    },
    { head: heads.cause, lines: said('cause') },
    { head: heads.proof, lines: said('proof') },
  ];
}

/** What the client said on a bench; a prediction's question. */
function saidOf(exercise: Exercise, seed: number): string {
  return exercise.kind === 'diagnose' ? complaintLine(exercise, seed) : exercise.question;
}

function partsOf(exercise: Exercise, room: Scenario, attempt: Attempt, mark: Mark, clock: Clock): CardPart[] {
  if (exercise.kind === 'predict') return predictParts(exercise, room, mark, clock);
  return exercise.kind === 'diagnose' ? diagnoseParts(exercise, attempt, mark, clock) : [];
}

export function cardOf(exercise: Exercise, attempt: Attempt, mark: Mark): Card {
  const room = benchScenario(exercise, attempt.seed);
  const clock: Clock = (s) => clockAt(Math.round(s * 10), room.start);
  const about = [notebookWords.room(attempt.seed), dayMonth(room.start.localDate), ...attempt.names];
  return {
    title: exercise.title,
    about: [...about, notebookWords.total(mark.total)].join(' · '),
    said: saidOf(exercise, attempt.seed),
    parts: partsOf(exercise, room, attempt, mark, clock).filter(({ lines }) => lines.length > 0),
  };
}

/** All cards as plain text, for a file or a message. */
export function cardsText(cards: readonly Card[]): string {
  const one = ({ title, about, said, parts }: Card): string =>
    [title, about, said, ...parts.flatMap(({ head, lines }) => ['', head, ...lines.map((line) => `- ${line}`)])].join(
      '\n',
    );
  return `${cards.map(one).join('\n\n---\n\n')}\n`;
}
