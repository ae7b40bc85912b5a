/** Making a diagnosis: a cause hidden in a room, its rivals played, the way of the author recorded, kept and proved. */
import { create } from 'zustand';
import { TICKS_PER_S } from '../../engine/units.ts';
import {
  causeId,
  type DiagnosisDraft,
  type DiagnosisRoom,
  diagnosisText,
  firstComplaintS,
  fitsComplaint,
  paired,
  playable,
  roomOfDiagnosis,
  roomOfStory,
  usualCandidates,
} from '../../exercise/authoring/diagnosis.ts';
import { idOfTitle, recordedScript } from '../../exercise/authoring/draft.ts';
import { clearestComplaint, type FiguresByCause, limited } from '../../exercise/authoring/figures.ts';
import type { Complaint, DiagnoseExercise } from '../../exercise/diagnose/types.ts';
import { loadExercise } from '../../exercise/load.ts';
import { diagnosingWords } from '../../report/text/diagnosing.ts';
import { forgetAttempt, offerFile } from './attempts.ts';
import { takeExercise } from './exercises.ts';
import { openJob, presentAttempt, setJob } from './job/job.ts';
import { ask } from './job/worker.ts';
import { live } from './live.ts';
import { freshProof, keepAndProveJob, type OwnJob, useOwnProof } from './ownProof.ts';
import { openJobById } from './start.ts';
import { getApp, setApp } from './store.ts';
import { library, ownStoryText } from './stories.ts';

const KEY = 'halflit/diagnosis';
/** The bench that the author works on. Source: files are opened on bench 1. */
const BENCH = 1;
/** A story left at its first instant gives the client so long to see something, s. Assumed: an off-delay and a visit. */
const FIRST_SCENE_S = 600;
const SHORTEST_SCENE_S = 60;

interface Diagnosing {
  draft: DiagnosisDraft | null;
  /** The sheet lies open. */
  open: boolean;
  /** Every cause of the room, as one exercise. */
  exercise: DiagnoseExercise | null;
  /** What each cause does on the scene; null: not played as it stands. */
  figures: FiguresByCause | null;
  /** How far the playing is, 0-1; null: nothing is played. */
  share: number | null;
}

const EMPTY = { exercise: null, figures: null, share: null };

/** A draft that was begun on another visit. */
function kept(): DiagnosisDraft | null {
  try {
    return JSON.parse(localStorage.getItem(KEY) ?? 'null') as DiagnosisDraft | null;
  } catch {
    return null;
  }
}

export const useDiagnosing = create<Diagnosing>()(() => ({ draft: kept(), open: false, ...EMPTY }));
const get = useDiagnosing.getState;
const set = useDiagnosing.setState;

function setDraft(draft: DiagnosisDraft): void {
  const before = get().draft;
  // What was worked in another room belongs to no recording of this one.
  const sameRoom = before?.room === draft.room && before.cause === draft.cause && before.tools === draft.tools;
  if (!sameRoom) forgetAttempt(idOfTitle(draft.title), BENCH);
  set({ draft });
  freshProof();
  try {
    localStorage.setItem(KEY, JSON.stringify(draft));
  } catch {
    // It stands until the page is left; the file can be saved.
  }
}

export function changeDiagnosis(change: Partial<DiagnosisDraft>): void {
  const { draft } = get();
  if (draft) setDraft({ ...draft, ...change });
}

function tell(sentences: readonly string[]): void {
  setApp({ notice: sentences.join(' ') });
}

function draftIn(room: DiagnosisRoom, cause: string, complaint: Complaint): DiagnosisDraft {
  return {
    ...diagnosingWords.first,
    aid: 'practice',
    room,
    cause,
    candidates: [],
    complaint,
    tools: [...new Set(room.tests.map(({ instrument }) => instrument))],
    skill: 'brightness',
    recorded: null,
  };
}

/** A room for causes: the story as it is shown, or a bundled diagnosis by its id. */
export function beginDiagnosis(base: string | null): void {
  const draft = base === null ? inStory() : likeJob(base);
  if (!draft) return;
  set({ ...EMPTY, open: true });
  setDraft(draft);
  void playRooms(base === null);
}

function inStory(): DiagnosisDraft | null {
  const { scenario, job } = getApp();
  if (!scenario || job) {
    tell([diagnosingWords.notInJob]);
    return null;
  }
  const tick = live.frame?.tick ?? 0;
  const shownS = tick / TICKS_PER_S;
  const beginS = shownS >= SHORTEST_SCENE_S ? Math.floor(shownS) : Math.min(FIRST_SCENE_S, scenario.endS);
  const own = ownStoryText(scenario.id);
  const script = recordedScript(live.inputs, tick);
  const room = roomOfStory(library, own === null ? { id: scenario.id } : { text: own }, script, beginS);
  if (!room.ok) {
    tell(room.sentences);
    return null;
  }
  const scene = { fromS: firstComplaintS(beginS), toS: beginS };
  const complaint = { ...scene, kind: 'time', output: 'innerRow', is: 'off', who: 'someone', longerThanS: 60 } as const;
  return draftIn(room.value, causeId(room.value.offered[0]!), complaint);
}

function likeJob(id: string): DiagnosisDraft | null {
  const text = library.texts.get(`exercises/${id}.json`);
  if (text === undefined) return null;
  const { room, like } = roomOfDiagnosis(text);
  const { truths, complaint, skill } = like.diagnose;
  return { ...draftIn(room, truths[0]!, complaint), brief: like.brief, hints: like.hints, aid: like.aid, skill };
}

export function openDiagnosis(): void {
  const { draft, exercise } = get();
  set({ open: true });
  if (draft && !exercise) void playRooms(false);
}

export function closeDiagnosis(): void {
  set({ open: false });
}

/** Plays the room of every cause on the complaint's scene. `choose`: the complaint and the causes are chosen by it. */
export async function playRooms(choose: boolean): Promise<void> {
  const { draft } = get();
  if (!draft) return;
  const { room, complaint } = draft;
  const read = playable(library, room, complaint);
  if (!read.ok) {
    tell(read.sentences);
    return;
  }
  const exercise = read.value;
  set({ exercise, figures: null, share: 0 });
  const isMine = (): boolean => get().exercise === exercise;
  try {
    const answer = await ask({ type: 'figures', exercise, seed: BENCH, scene: complaint }, (share) => {
      if (isMine()) set({ share });
    });
    if (!isMine() || answer.type !== 'figured') return;
    set({ figures: answer.figures, share: null });
    const now = get().draft!;
    if (choose) chooseCause(now.cause);
    else if (now.candidates.length === 0) chooseComplaint(now.complaint);
  } catch (error) {
    if (!isMine()) return;
    set({ share: null });
    tell([error instanceof Error ? error.message : String(error)]);
  }
}

/** The cause, with the complaint that shows it most clearly; where it shows nowhere the complaint stays. */
export function chooseCause(cause: string): void {
  const { draft, exercise, figures } = get();
  if (!draft) return;
  const card = exercise?.diagnose.candidates.find((one) => one.card.id === cause)?.card;
  const clearest = figures && card ? clearestComplaint(figures, cause, card.healthy, draft.complaint) : null;
  setDraft({ ...draft, cause });
  chooseComplaint(clearest ?? draft.complaint);
}

/** Two causes at once; `other` null: the first alone. */
export function chooseTwo(first: string, other: string | null): void {
  const { draft } = get();
  if (!draft) return;
  const { room } = draft;
  const of = (id: string) => room.offered.find((one) => causeId(one) === id);
  const [one, two] = [of(first), other === null ? undefined : of(other)];
  if (!one) return;
  if (!two) {
    chooseCause(first);
    return;
  }
  const pair = paired(one, two);
  const cause = causeId(pair);
  const offered = of(cause) ? room.offered : [...room.offered, pair];
  setDraft({ ...draft, room: { ...room, offered }, cause });
  void playRooms(true);
}

/** The complaint, with the causes that fit it. */
export function chooseComplaint(complaint: Complaint): void {
  const { draft, exercise, figures } = get();
  if (!draft) return;
  const candidates = exercise && figures ? usualCandidates(exercise, draft.cause, complaint, figures) : [];
  setDraft({ ...draft, complaint, candidates });
}

/** Another kind of complaint, with the limit that tells the cause from the sound room. */
export function chooseComplaintKind(complaint: Complaint): void {
  const { draft, figures } = get();
  if (draft && figures) chooseComplaint(limited(complaint, figures, draft.cause));
}

/** The scene changes: what was played was another one. */
export function moveScene(change: Partial<Pick<Complaint, 'fromS' | 'toS'>> & { beginS?: number }): void {
  const { draft } = get();
  if (!draft) return;
  const { beginS = draft.room.beginS, ...ends } = change;
  set({ figures: null });
  setDraft({ ...draft, room: { ...draft.room, beginS }, complaint: { ...draft.complaint, ...ends } });
}

export function causeFits(cause: string): boolean {
  const { draft, figures } = get();
  return draft !== null && figures !== null && fitsComplaint(cause, draft.complaint, figures);
}

/** The file that the sheet stands for now; null with sentences when it is none. */
function readyJob(withRecording: boolean): { job: OwnJob; exercise: DiagnoseExercise } | null {
  const { draft, exercise } = get();
  if (!draft || !exercise) return null;
  const chosen = exercise.diagnose.candidates.filter(({ card }) => draft.candidates.includes(card.id));
  const proofs = chosen.map(({ card }) => card.proof.test);
  const text = diagnosisText(withRecording ? draft : { ...draft, recorded: null }, proofs);
  const id = idOfTitle(draft.title);
  const read = loadExercise(text, `${id}.json`, library);
  if (read.ok && read.value.kind === 'diagnose') return { job: { id, text }, exercise: read.value };
  useOwnProof.setState({ sentences: read.ok ? [] : read.sentences });
  return null;
}

export function saveDiagnosis(): void {
  const ready = readyJob(true);
  if (ready) offerFile(`${ready.job.id}.json`, ready.job.text, 'application/json');
}

export async function proveDiagnosis(): Promise<void> {
  const ready = readyJob(true);
  const { draft } = get();
  if (ready) await keepAndProveJob(ready.job, () => get().draft === draft);
}

export function openDiagnosisJob(): void {
  const { draft } = get();
  set({ open: false });
  setApp({ classOpen: false });
  if (draft) void openJobById(idOfTitle(draft.title), BENCH);
}

/** The job is opened as a learner finds it; what the author does there can be kept as its solution. */
export async function recordWay(): Promise<void> {
  const ready = readyJob(false);
  if (!ready) return;
  const { job, exercise } = ready;
  if (!takeExercise(job.text, `${job.id}.json`).ok) return;
  // A way that is kept is not gone on with; one that was left is.
  if (get().draft?.recorded) forgetAttempt(job.id, BENCH);
  set({ open: false });
  setApp({ classOpen: false });
  await openJob(exercise, BENCH);
  setJob({ authored: true });
}

/** Back to the sheet; `keep`: what was done is the way from now on. */
export function endRecording(keep: boolean): void {
  const attempt = presentAttempt();
  const answers = attempt?.answers.diagnose;
  if (keep && attempt && answers) {
    const { seed, inputs, headTick } = attempt;
    changeDiagnosis({ recorded: { seed, inputs, headTick: Math.max(1, headTick), answers } });
  }
  setApp({ classOpen: true });
  openDiagnosis();
}
