/** A diagnosis made by a lecturer: a room, a hidden cause, its rivals, the client's words; and what was done to solve it. */

import { checkStory } from '../../scenario/checks.ts';
import type { Library } from '../../scenario/library.ts';
import type { Parsed } from '../../scenario/parse.ts';
import type { EditFile } from '../../scenario/schemas/edit.ts';
import type { CandidateFile } from '../../scenario/schemas/faults.ts';
import { FORMAT } from '../../scenario/schemas/words.ts';
import { both, candidatesOf, cardFiles, loadCards } from '../diagnose/load.ts';
import { isAllowed } from '../diagnose/tests.ts';
import type {
  Complaint,
  DiagnoseExercise,
  DiagnoseTask,
  Instrument,
  Place,
  RecordedWay,
  Test,
} from '../diagnose/types.ts';
import { editOf } from '../editFile.ts';
import { edited } from '../edits.ts';
import { storyOf } from '../load.ts';
import type { Aid } from '../types.ts';
import { type DraftStory, idOfTitle } from './draft.ts';
import { type FiguresByCause, fits } from './figures.ts';
import { placesOfRoom, roomCards, testsOfRoom } from './roomCards.ts';

/** A room that causes can be hidden in, in the terms of a file. */
export interface DiagnosisRoom {
  story: DraftStory;
  change: EditFile | null;
  draws: EditFile[][];
  /** Every cause that it can have. */
  offered: CandidateFile[];
  places: Omit<Place, 'deskPoint'>[];
  tests: Test[];
  beginS: number;
}

/** What the author decides. */
export interface DiagnosisDraft {
  title: string;
  question: string;
  brief: string;
  /** The complaint in the client's words. */
  says: string;
  aid: Aid;
  hints: [string, string, string];
  room: DiagnosisRoom;
  /** Id of the hidden cause; of two joined when two are hidden. */
  cause: string;
  /** Ids of the causes that the learner chooses among. */
  candidates: string[];
  complaint: Complaint;
  tools: Instrument[];
  skill: DiagnoseTask['skill'];
  recorded: RecordedWay | null;
}

/** Candidates of an exercise: at least and at most. Source: the schema of exercises. */
export const FEWEST_CANDIDATES = 4;
export const MOST_CANDIDATES = 12;
/** Chosen for the author unless told otherwise. Assumed: as many as the bundled diagnoses have. */
const USUAL_CANDIDATES = 8;

export function causeId({ card, and }: Pick<CandidateFile, 'card' | 'and'>): string {
  return and === undefined ? card : `${card}-and-${and}`;
}

/** Two causes at once, as this room has each of them. */
export function paired(one: CandidateFile, other: CandidateFile): CandidateFile {
  const { edit, draws: _draws, remedy: _remedy, repair, proof } = other;
  const joined = one.edit && edit ? both(one.edit, edit) : (one.edit ?? edit);
  return {
    card: one.card,
    and: other.card,
    prior: one.prior,
    ...(joined ? { edit: joined } : {}),
    ...(one.repair && repair ? { repair: [...one.repair, ...repair] } : {}),
    ...(proof ? { proof } : {}),
  };
}

/** Where the scene of a complaint begins unless told otherwise, s. Assumed: whoever comes in has been seen by then. */
export function firstComplaintS(beginS: number): number {
  return Math.min(30, Math.floor(beginS / 2));
}

/** The room of a story as it stands at `beginS`; `script`: what was done in it before. */
export function roomOfStory(
  library: Library,
  story: DraftStory,
  script: NonNullable<EditFile['script']>,
  beginS: number,
): Parsed<DiagnosisRoom> {
  const change: EditFile | null = script.length > 0 ? { script } : null;
  const loaded = storyOf('id' in story ? story.id : JSON.parse(story.text), 'story', library);
  const cards = cardFiles(library);
  if (!loaded.ok || !cards.ok) return loaded.ok ? (cards as { ok: false; sentences: string[] }) : loaded;
  const { scenario } = loaded;
  const room: DiagnosisRoom = {
    story,
    change,
    draws: [],
    offered: roomCards(cards.value, { scenario, fromS: firstComplaintS(beginS), beginS }),
    places: placesOfRoom(scenario),
    tests: testsOfRoom(scenario),
    beginS,
  };
  return { ok: true, value: room };
}

/** Parts of a diagnose file that a new one begins with. */
interface DiagnoseFileText {
  kind: string;
  story: string | object;
  change?: EditFile;
  draws?: EditFile[][];
  question: string;
  brief: string;
  hints: [string, string, string];
  aid: Aid;
  diagnose: Pick<DiagnoseTask, 'complaint' | 'truths' | 'beginS' | 'tests' | 'skill'> & {
    candidates: CandidateFile[];
    places?: DiagnosisRoom['places'];
  };
}

/** The room of a diagnosis that stands, with the causes written for it. `text`: a file that has been read. */
export function roomOfDiagnosis(text: string): { room: DiagnosisRoom; like: DiagnoseFileText } {
  const like = JSON.parse(text) as DiagnoseFileText;
  const { candidates, places, tests, beginS } = like.diagnose;
  const story = typeof like.story === 'string' ? { id: like.story } : { text: JSON.stringify(like.story) };
  const { change = null, draws = [] } = like;
  return { room: { story, change, draws, offered: candidates, places: places ?? [], tests, beginS }, like };
}

/** All causes of the room as one exercise, to play each of them; those that make no room are left out. */
export function playable(library: Library, room: DiagnosisRoom, complaint: Complaint): Parsed<DiagnoseExercise> {
  const loaded = storyOf('id' in room.story ? room.story.id : JSON.parse(room.story.text), 'story', library);
  const cards = loadCards(library);
  if (!loaded.ok || !cards.ok) return loaded.ok ? (cards as { ok: false; sentences: string[] }) : loaded;
  const read = candidatesOf(room.offered, 'candidates', cards.value);
  if (!read.ok) return read;
  const scenario = room.change ? edited(loaded.scenario, editOf(room.change)) : loaded.scenario;
  const candidates = read.value.filter(({ card }) => {
    const rooms = [{}, ...card.draws.flat()].map((one) => edited(edited(scenario, card.edit), one));
    return rooms.every((one) => checkStory('', one).length === 0);
  });
  const exercise: DiagnoseExercise = {
    id: 'own',
    kind: 'diagnose',
    job: 0,
    title: scenario.title,
    question: scenario.question,
    brief: scenario.brief,
    aid: 'guided',
    hints: [],
    scenario,
    draws: room.draws.map((list) => list.map(editOf)),
    diagnose: {
      complaint,
      candidates,
      truths: candidates.map(({ card }) => card.id).slice(0, 1),
      beginS: room.beginS,
      places: room.places.map((place) => ({ ...place, deskPoint: false })),
      tests: room.tests,
      skill: 'brightness',
    },
  };
  return { ok: true, value: exercise };
}

/** What a button held can show, whatever it was pressed for. */
const HELD: Record<string, 'on' | 'off'> = { 'held-off-by-button': 'off', 'held-on-by-button': 'on' };

/** Whether the room of a cause gives cause for the complaint, and the cause can be meant by it. */
export function fitsComplaint(cause: string, complaint: Complaint, figures: FiguresByCause): boolean {
  const meant = !HELD[cause] || (complaint.kind === 'time' && complaint.is === HELD[cause]);
  return meant && fits(figures[cause], complaint);
}

/** The cause, and others that fit the complaint: exactly one that is no fault, and no more than are usual. */
export function usualCandidates(
  exercise: DiagnoseExercise,
  cause: string,
  complaint: Complaint,
  figures: FiguresByCause,
): string[] {
  const { candidates } = exercise.diagnose;
  const fitting = candidates
    .map(({ card }) => card)
    .filter(({ id }) => id !== cause && fitsComplaint(id, complaint, figures));
  const healthy = candidates.find(({ card }) => card.id === cause)?.card.healthy
    ? []
    : fitting.filter((card) => card.healthy).slice(0, 1);
  const faults = fitting.filter((card) => !card.healthy);
  const chosen = [...healthy, ...faults].slice(0, USUAL_CANDIDATES - 1).map(({ id }) => id);
  return candidates.map(({ card }) => card.id).filter((id) => id === cause || chosen.includes(id));
}

/** Tests of the tools in the bag, and those by which the causes are proved to be gone. */
function testsOf({ room, tools }: DiagnosisDraft, proofs: readonly Test[]): Test[] {
  const tests = [...room.tests];
  for (const proof of proofs) if (!isAllowed(tests, proof)) tests.push(proof);
  return tests.filter(({ instrument }) => tools.includes(instrument));
}

/**
 * Text of the exercise file. Whether it is a good one is found out by reading it and by its proofs. `proofs`: the tests by
 * which the candidates are proved to be gone.
 */
export function diagnosisText(draft: DiagnosisDraft, proofs: readonly Test[]): string {
  const { title, question, brief, says, aid, hints, room, cause, candidates, complaint, skill, recorded } = draft;
  const chosen = room.offered.filter((one) => candidates.includes(causeId(one)));
  const prior = Math.round(100 / Math.max(1, chosen.length)) / 100;
  const file = {
    format: FORMAT,
    id: idOfTitle(title),
    kind: 'diagnose',
    job: 0,
    title,
    question,
    brief,
    aid,
    hints,
    story: 'id' in room.story ? room.story.id : (JSON.parse(room.story.text) as unknown),
    ...(room.change ? { change: room.change } : {}),
    ...(room.draws.length > 0 ? { draws: room.draws } : {}),
    diagnose: {
      complaint,
      candidates: chosen.map((one) => ({ ...one, prior })),
      truths: [cause],
      beginS: room.beginS,
      places: room.places,
      tests: testsOf(draft, proofs),
      skill,
      says: [says],
      ...(recorded ? { recorded } : {}),
    },
  };
  return `${JSON.stringify(file, null, 2)}\n`;
}
