/** Making a job from what somebody does: recorded between two instants, described on a sheet, kept, proved. */
import { create } from 'zustand';
import type { OutputId } from '../../engine/types.ts';
import { TICKS_PER_S } from '../../engine/units.ts';
import { type Draft, draftText, idOfTitle } from '../../exercise/authoring/draft.ts';
import { loadExercise } from '../../exercise/load.ts';
import { PROOF_SEEDS } from '../../exercise/proofs.ts';
import type { ProofResult } from '../../exercise/types.ts';
import { authoringWords, toldText } from '../../report/text/authoring.ts';
import { offerFile } from './attempts.ts';
import { takeExercise } from './exercises.ts';
import { ask } from './job/worker.ts';
import { live } from './live.ts';
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
/** Random answers tried on each bench. Assumed: as many as the command line tries. */
const RANDOMS = 20;
const OUTPUTS: readonly OutputId[] = ['innerRow', 'windowRow', 'airContact'];

interface Authoring {
  draft: Draft | null;
  /** What is wrong with the draft, in sentences. */
  sentences: string[];
  results: ProofResult[];
  /** Bench being proved, counting from 0; null: none. */
  provingBench: number | null;
  /** The draft as it stands has been kept and proved. */
  settled: boolean;
}

const FRESH = { sentences: [], results: [], provingBench: null, settled: false };
export const useAuthoring = create<Authoring>()(() => ({ draft: null, ...FRESH }));

export function startRecording(): void {
  if (getApp().job) {
    setApp({ notice: authoringWords.notInJob, classOpen: false });
    return;
  }
  useAuthoring.setState({ draft: null, ...FRESH });
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
  useAuthoring.setState({ draft: drafted(authoring.fromTick, toTick, draft), ...FRESH });
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
  useAuthoring.setState(({ draft }) => ({ draft: draft && { ...draft, ...change }, ...FRESH }));
}

/** The file that the sheet stands for now; null with sentences when it is none. */
function readyText(): { id: string; text: string } | null {
  const { draft } = useAuthoring.getState();
  const { scenario } = getApp();
  if (!draft || !scenario) return null;
  const own = ownStoryText(scenario.id);
  const text = draftText(draft, own === null ? { id: scenario.id } : { text: own }, live.inputs);
  const id = idOfTitle(draft.title);
  const read = loadExercise(text, `${id}.json`, library);
  if (read.ok) return { id, text };
  useAuthoring.setState({ sentences: read.sentences });
  return null;
}

export function saveJob(): void {
  const ready = readyText();
  if (ready) offerFile(`${ready.id}.json`, ready.text, 'application/json');
}

/** Lists the job and plays its proofs, bench by bench, as the command line does. */
export async function keepAndProve(): Promise<void> {
  const ready = readyText();
  if (!ready) return;
  const kept = takeExercise(ready.text, `${ready.id}.json`);
  const read = loadExercise(ready.text, `${ready.id}.json`, library);
  if (!kept.ok || !read.ok) return;
  const { draft } = useAuthoring.getState();
  const stands = (): boolean => useAuthoring.getState().draft === draft;
  try {
    for (const [i, seed] of PROOF_SEEDS.entries()) {
      useAuthoring.setState({ provingBench: i, sentences: [] });
      const answer = await ask({ type: 'selfProof', exercise: read.value, seed, randoms: RANDOMS });
      if (!stands() || answer.type !== 'selfProved') return;
      useAuthoring.setState((s) => ({ results: i === 0 ? answer.results : [...s.results, ...answer.results] }));
    }
    useAuthoring.setState({ provingBench: null, settled: true });
  } catch (error) {
    const said = error instanceof Error ? error.message : String(error);
    if (stands()) useAuthoring.setState({ ...FRESH, sentences: [said] });
  }
}

export function openKept(): void {
  const { draft } = useAuthoring.getState();
  if (draft) void openJobById(idOfTitle(draft.title), 1);
}
