/** Making a job from what somebody does: recorded between two instants, described on a sheet, kept, proved. */
import { create } from 'zustand';
import type { OutputId } from '../../engine/types.ts';
import { TICKS_PER_S } from '../../engine/units.ts';
import { type Draft, draftText, idOfTitle } from '../../exercise/authoring/draft.ts';
import { loadExercise } from '../../exercise/load.ts';
import { authoringWords, toldText } from '../../report/text/authoring.ts';
import { offerFile } from './attempts.ts';
import { live } from './live.ts';
import { freshProof, keepAndProveJob, type OwnJob, useOwnProof } from './ownProof.ts';
import { record } from './record.ts';
import { openJobById } from './start.ts';
import { getApp, setApp } from './store.ts';
import { library, ownStoryText } from './stories.ts';
import { send } from './wire.ts';

/** Off-delays offered for benches to differ in, s. Assumed: short enough that a lesson sees them run out. */
export const OFFERED_DELAYS_S: readonly number[] = [120, 180, 300, 600, 900];
/** Tolerances offered, s. Source: between the smallest and a usual one of the marking rule. */
export const TOLERANCES_S: readonly number[] = [5, 15, 30, 60];
/** Lines told in advance. Source: the schema of exercises. */
export const MOST_TOLD = 12;
const OUTPUTS: readonly OutputId[] = ['innerRow', 'windowRow', 'airContact'];

interface Authoring {
  draft: Draft | null;
}

export const useAuthoring = create<Authoring>()(() => ({ draft: null }));

export function startRecording(): void {
  if (getApp().job) {
    setApp({ notice: authoringWords.notInJob, classOpen: false });
    return;
  }
  useAuthoring.setState({ draft: null });
  freshProof();
  setApp({ authoring: { fromTick: live.frame?.tick ?? 0, toTick: null }, classOpen: false, screen: 'main' });
}

export function giveUp(): void {
  setApp({ authoring: null });
}

/** Ends the recording at the instant shown and brings up the sheet. */
export function stopRecording(): void {
  const { authoring } = getApp();
  const toTick = live.frame?.tick ?? 0;
  if (!authoring) return;
  send({ type: 'pause' });
  if (toTick - authoring.fromTick < TICKS_PER_S) {
    setApp({ notice: authoringWords.tooShort });
    return;
  }
  const { draft } = useAuthoring.getState();
  useAuthoring.setState({ draft: drafted(authoring.fromTick, toTick, draft) });
  freshProof();
  setApp({ authoring: { ...authoring, toTick } });
}

/** Back to the room: the recording goes on, and the sheet keeps its words. */
export function goOnRecording(): void {
  const { authoring } = getApp();
  if (authoring) setApp({ authoring: { ...authoring, toTick: null } });
}

function switchedBetween(fromTick: number, toTick: number): OutputId[] {
  const outputs = OUTPUTS.filter((output) =>
    record.events.some((e) => e.kind === 'output' && e.output === output && e.tick >= fromTick && e.tick <= toTick),
  );
  return outputs.length > 0 ? outputs : [...OUTPUTS];
}

function drafted(fromTick: number, toTick: number, before: Draft | null): Draft {
  const told = live.inputs
    .filter(({ tick }) => tick >= fromTick && tick <= toTick)
    .map(({ tick, input }) => ({ atS: tick / TICKS_PER_S, say: toldText(input) }))
    .slice(0, MOST_TOLD);
  return {
    title: '',
    question: authoringWords.question,
    brief: authoringWords.brief,
    aid: 'guided',
    hints: authoringWords.firstHints,
    toleranceS: 15,
    offDelaysS: [],
    ...before,
    outputs: switchedBetween(fromTick, toTick),
    fromS: fromTick / TICKS_PER_S,
    toS: toTick / TICKS_PER_S,
    told,
  };
}

export function changeDraft(change: Partial<Draft>): void {
  useAuthoring.setState(({ draft }) => ({ draft: draft && { ...draft, ...change } }));
  freshProof();
}

/** The file that the sheet stands for now; null with sentences when it is none. */
function readyText(): OwnJob | null {
  const { draft } = useAuthoring.getState();
  const { scenario } = getApp();
  if (!draft || !scenario) return null;
  const own = ownStoryText(scenario.id);
  const text = draftText(draft, own === null ? { id: scenario.id } : { text: own }, live.inputs);
  const id = idOfTitle(draft.title);
  const read = loadExercise(text, `${id}.json`, library);
  if (read.ok) return { id, text };
  useOwnProof.setState({ sentences: read.sentences });
  return null;
}

export function saveJob(): void {
  const ready = readyText();
  if (ready) offerFile(`${ready.id}.json`, ready.text, 'application/json');
}

export async function keepAndProve(): Promise<void> {
  const ready = readyText();
  const { draft } = useAuthoring.getState();
  if (ready) await keepAndProveJob(ready, () => useAuthoring.getState().draft === draft);
}

export function openKept(): void {
  const { draft } = useAuthoring.getState();
  if (draft) void openJobById(idOfTitle(draft.title), 1);
}
