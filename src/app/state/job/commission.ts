/** A commissioning being worked: settings made in the room, proved, shown by clips, handed in. */
import { create } from 'zustand';
import { secondsToTicks } from '../../../engine/units.ts';
import { foundChoice, hungScenario } from '../../../exercise/commission/design.ts';
import { lastChangeOf } from '../../../exercise/commission/evidence.ts';
import type {
  ClipAnswer,
  CommissionAnswers,
  CommissionExercise,
  CommissionLine,
  DayFigures,
  DesignChoice,
  WalkAnswer,
} from '../../../exercise/commission/types.ts';
import { benchScenario } from '../../../exercise/edits.ts';
import type { Attempt, Exercise } from '../../../exercise/types.ts';
import { live } from '../live.ts';
import { loadStory, onAnswer } from '../session.ts';
import { getApp, setApp } from '../store.ts';
import { mountText, putNotebook, useWalkTest } from '../walkTest.ts';
import { getJob, isOpen, type JobKind, keep, savedRun, tell } from './job.ts';
import { ask } from './worker.ts';

export interface CommissioningData {
  exercise: CommissionExercise | null;
  seed: number;
  clips: ClipAnswer[];
  proved: CommissionAnswers['proved'];
  /** How far the proving run is; null: none is under way. */
  share: number | null;
  /** What the last proving run told, and whether settings have been changed since. */
  result: { days: DayFigures[]; lines: CommissionLine[] } | null;
  outdated: boolean;
  /** What is chosen on the plan, and what hangs in the room that is shown; null: no design. */
  design: DesignChoice | null;
  hung: DesignChoice | null;
  /** Text for the client. */
  handover: string;
}

const EMPTY = {
  clips: [],
  proved: [],
  share: null,
  result: null,
  outdated: false,
  design: null,
  hung: null,
  handover: '',
};

export const useCommissioning = create<CommissioningData>()(() => ({ exercise: null, seed: 1, ...EMPTY }));
const setWork = useCommissioning.setState;
const getWork = useCommissioning.getState;

async function openCommissioning(exercise: Exercise, seed: number, kept: Attempt | null): Promise<void> {
  if (exercise.kind !== 'commission' && exercise.kind !== 'design') return;
  const saved = kept && !exercise.design ? savedRun(benchScenario(exercise, seed), kept) : null;
  const design = exercise.design ? (kept?.answers.commission?.design ?? foundChoice(exercise, seed)) : null;
  const scenario = design ? hungScenario(exercise, seed, design) : benchScenario(exercise, seed);
  loadStory(scenario, saved ? { saved } : { atTick: 1, fresh: true });
  live.inputs = saved?.recording?.inputs ?? [];
  live.digests = saved?.recording?.digests ?? [];
  const { proved = [], clips = [], handover = '' } = kept?.answers.commission ?? {};
  setWork({ ...EMPTY, exercise, seed, proved, clips, design, hung: design, handover });
  if (asksWalkTest(exercise)) putWalkTest(exercise, seed, kept?.answers.commission?.walkTest);
  const { allows, settings } = exercise.commission;
  setApp({
    screen: 'main',
    // Walking is looked at as it goes; days are not.
    speed: asksWalkTest(exercise) ? 1 : 60,
    job: {
      id: exercise.id,
      kind: exercise.kind,
      seed,
      aid: exercise.aid,
      stage: 'working',
      untilTick: secondsToTicks(benchScenario(exercise, seed).endS),
      allows,
      settings,
      reachShut: asksWalkTest(exercise),
      ...(design && exercise.design ? { points: exercise.design.points, chosenPoint: design.point } : {}),
    },
  });
}

/** Whether the notebook of the walk-test belongs to what is handed in. */
export function asksWalkTest({ commission }: CommissionExercise): boolean {
  return commission.criteria.some(({ kind }) => kind === 'walkPoints' || kind === 'outline');
}

function notebook(): WalkAnswer {
  const { points, edge } = useWalkTest.getState();
  return {
    points: points.map(({ mount: _mount, ...point }) => point),
    edge: { across: [...edge.across], toward: [...edge.toward], seated: [...edge.seated] },
  };
}

/** The notebook of the attempt, for the detector as it hangs. */
function putWalkTest(exercise: CommissionExercise, seed: number, answer: WalkAnswer | undefined): void {
  const mount = mountText(benchScenario(exercise, seed).mount);
  putNotebook(answer ? { points: answer.points.map((point) => ({ ...point, mount })), edge: answer.edge } : null);
}

export const commissionKind: JobKind = {
  open: openCommissioning,
  // On paper nothing runs: what somebody tries in the room of a design is not part of it.
  begun: () => getWork().design === null,
  answers: () => {
    const { proved, clips, exercise, design, handover } = getWork();
    const walks = exercise ? asksWalkTest(exercise) : false;
    return {
      commission: {
        proved,
        clips,
        ...(walks ? { walkTest: notebook() } : {}),
        ...(design ? { design } : {}),
        ...(handover === '' ? {} : { handover }),
      },
    };
  },
  inputs: () => (getWork().design ? [] : live.inputs),
  unmarked: 'working',
  busy: () => getWork().share !== null,
};

/** Whether a proving run has been looked at since the last change. */
export function isProved({ proved }: Pick<CommissioningData, 'proved'>): boolean {
  const lastChange = lastChangeOf(live.inputs);
  const last = proved.at(-1);
  return last !== undefined && (lastChange === null || last.serial > lastChange.serial);
}

/**
 * Whether handing in comes next: proved since the last change, found good where the paper tells so, every clip taken and
 * the client written to. Handing in is never shut; it only stops being what the paper puts first.
 */
export function isReady(work: Omit<CommissioningData, 'seed' | 'share' | 'design' | 'hung'>): boolean {
  const { exercise, clips, handover, result } = work;
  if (!exercise) return false;
  const { days, criteria } = exercise.commission;
  if (days.length > 0 && !isProved(work)) return false;
  if (exercise.aid !== 'test' && result?.lines.some(({ verdict }) => verdict !== 'met')) return false;
  return criteria.every(({ kind, id }) => {
    if (kind === 'clip') return clips.some(({ criterion }) => criterion === id);
    return kind !== 'handover' || handover !== '';
  });
}

// The run is saved after every act: what was proved before it is proved no longer.
onAnswer((message) => {
  // A worked example on the stage has a run of its own.
  if (getJob().aside || message.type !== 'recording' || getWork().exercise?.id !== getApp().job?.id) return;
  // The session has taken the message after its listeners: the inputs are looked at one turn later.
  queueMicrotask(() => {
    const work = getWork();
    setWork({ outdated: work.result !== null && !isProved(work) });
    keep();
  });
});

useWalkTest.subscribe((now, before) => {
  const { exercise } = getWork();
  const changed = now.points !== before.points || now.edge !== before.edge;
  if (changed && exercise && asksWalkTest(exercise) && now.storyId === getApp().scenario?.id) keep();
});

export async function prove(): Promise<void> {
  const { exercise, seed, share, design } = getWork();
  const { settings, setup } = getApp();
  if (!exercise || !settings || !setup || share !== null) return;
  const act = { tick: live.frame?.tick ?? 0, serial: (live.inputs.at(-1)?.serial ?? -1) + 1 };
  setWork({ share: 0 });
  try {
    const answer = await ask({ type: 'prove', exercise, seed, left: design ?? { settings, setup } }, (done) =>
      setWork({ share: done }),
    );
    if (!isOpen(exercise, seed) || answer.type !== 'proved') return;
    // A plan that was changed meanwhile is another one.
    if (getWork().design !== design) return;
    const proved = [...getWork().proved, act];
    setWork({ proved, result: answer, outdated: !isProved({ proved }) });
    keep();
  } catch (error) {
    tell(error);
  } finally {
    setWork({ share: null });
  }
}

/** Keeps the shown instant as evidence for a criterion; a later one takes its place. */
export function takeClip(criterion: string): void {
  const tick = live.frame?.tick;
  if (tick === undefined) return;
  setWork((s) => ({ clips: [...s.clips.filter((clip) => clip.criterion !== criterion), { criterion, tick }] }));
  keep();
}

export function setHandover(text: string): void {
  setWork({ handover: text.slice(0, MOST_TEXT) });
  keep();
}

/** Longest text for the client. Assumed: two pages; nobody reads more. */
const MOST_TEXT = 4000;

/** Chooses on the plan; what was proved was another plan. */
export function choose(change: Partial<DesignChoice>): void {
  const { design, result } = getWork();
  const { job } = getApp();
  if (!design || job?.stage !== 'working') return;
  const chosen = { ...design, ...change };
  setWork({ design: chosen, proved: [], outdated: result !== null });
  setApp({ job: { ...job, chosenPoint: chosen.point } });
  keep();
}

/** Shows the room as it is on the plan now. */
export function hang(): void {
  const { exercise, seed, design } = getWork();
  const { job } = getApp();
  if (!exercise || !design) return;
  loadStory(hungScenario(exercise, seed, design), { atTick: 1, fresh: true });
  setApp({ screen: 'main', job });
  setWork({ hung: design });
}
