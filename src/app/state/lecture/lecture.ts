/**
 * A lecture: questions that a class answers by show of hands, and whether the reason lies open. Nothing of it is a mark or
 * reaches the room. Kept for this visit, so that a reload in front of a class loses nothing. Loaded with the lecture.
 */
import { create } from 'zustand';
import type { Tick } from '../../../engine/types.ts';
import { lectureWords, type QuestionKind } from '../../../report/text/lecture.ts';
import { getApp, setApp } from '../store.ts';
import { send } from '../wire.ts';

/** `asking`: hands are counted, the room waits; `locked`: it may run; `shown`: what happened stands beside the hands. */
export type StepStage = 'asking' | 'locked' | 'shown';

export interface LectureStep {
  /** Story or bench that it was asked of: another room has other instants. */
  room: string;
  kind: QuestionKind;
  question: string;
  options: string[];
  /** One count for each option. */
  hands: number[];
  /** Instants named, one for each option; null: none. */
  guesses: (Tick | null)[];
  /** Where the room stood when it was asked, and where the answers were locked. */
  fromTick: Tick;
  stage: StepStage;
}

export type LecturePanel = 'step' | 'ask' | 'more';

interface Lecture {
  steps: LectureStep[];
  /** Place of the question that is shown; null: none. */
  now: number | null;
  panel: LecturePanel;
  /** The guess that the next tap on the strip places; null: a tap moves the clock. */
  placing: number | null;
  recap: boolean;
  /** Causes that still fitted after each reading of a hidden case, by its room; the first before any reading. */
  trails: Record<string, number[]>;
}

const KEY = 'halflit/lecture';
const EMPTY: Lecture = { steps: [], now: null, panel: 'ask', placing: null, recap: false, trails: {} };

function kept(): Lecture {
  try {
    return { ...EMPTY, ...(JSON.parse(sessionStorage.getItem(KEY) ?? '{}') as Partial<Lecture>) };
  } catch {
    return EMPTY;
  }
}

export const useLecture = create<Lecture>()(kept);
const set = useLecture.setState;
const get = useLecture.getState;

useLecture.subscribe(({ steps, now, panel, trails }) => {
  try {
    sessionStorage.setItem(KEY, JSON.stringify({ steps, now, panel, trails }));
  } catch {
    // The lecture goes on; only a reload would lose its counts.
  }
});

/** The room shown, as steps name it. */
export function roomId(): string {
  return getApp().scenario?.id ?? '';
}

/** The question that is shown, if it was asked of this room; null: none is open. */
export function stepNow({ steps, now }: Lecture = get()): LectureStep | null {
  const step = now === null ? null : (steps[now] ?? null);
  return step?.room === roomId() ? step : null;
}

/** The page at large knows two things: whether reasons are covered, and whether Run waits for the answers. */
function tellPage(change: Partial<NonNullable<ReturnType<typeof getApp>['lecture']>>): void {
  setApp(({ lecture }) => ({ lecture: lecture && { ...lecture, ...change } }));
}

function syncPage(): void {
  tellPage({ armed: stepNow()?.stage !== 'asking' });
}

function change(edit: (step: LectureStep) => Partial<LectureStep>): void {
  const { steps, now } = get();
  const step = stepNow();
  if (!step || now === null) return;
  set({ steps: steps.map((one, i) => (i === now ? { ...step, ...edit(step) } : one)) });
  syncPage();
}

/** A new question covers the reason: the class predicts first. */
export function ask(kind: QuestionKind, question: string, options: string[]): void {
  send({ type: 'pause' });
  const step: LectureStep = {
    room: roomId(),
    kind,
    question,
    options,
    hands: options.map(() => 0),
    guesses: options.map(() => null),
    fromTick: getApp().shownTick,
    stage: 'asking',
  };
  set((s) => ({ steps: [...s.steps, step], now: s.steps.length, panel: 'step', placing: null }));
  tellPage({ covered: true, armed: false });
}

export function askOfRun(kind: Exclude<QuestionKind, 'measure'>): void {
  const own = getApp().scenario?.question ?? '';
  ask(kind, kind === 'own' ? own : lectureWords.questions[kind], lectureWords.options[kind]);
}

/** A question that nobody wants to answer any more goes; the one before is shown. */
export function withdraw(): void {
  const { steps, now } = get();
  if (now === null) return;
  const left = steps.filter((_, i) => i !== now);
  set({ steps: left, now: null, panel: 'ask', placing: null });
  syncPage();
}

/** Most hands in a class that are counted. Assumed: a full lecture hall would not be counted by eye. */
const MOST_HANDS = 99;

export function addHands(option: number, by: 1 | -1): void {
  if (stepNow()?.stage !== 'asking') return;
  change(({ hands }) => ({
    hands: hands.map((n, i) => (i === option ? Math.min(MOST_HANDS, Math.max(0, n + by)) : n)),
  }));
}

export function setPlacing(option: number | null): void {
  set({ placing: option });
}

/** Places a guess at an instant to come; it may be moved until the answers are locked. */
export function placeGuess(option: number, tick: Tick): void {
  if (stepNow()?.stage !== 'asking') return;
  const at = Math.max(stepNow()!.fromTick, Math.round(tick));
  change(({ guesses }) => ({ guesses: guesses.map((old, i) => (i === option ? at : old)) }));
  const { options = [], guesses = [] } = stepNow() ?? {};
  const next = options.findIndex((_, i) => i > option && guesses[i] === null);
  set({ placing: next === -1 ? null : next });
}

export function moveGuess(option: number, byTicks: number): void {
  const from = stepNow()?.guesses[option] ?? getApp().shownTick;
  const { placing } = get();
  placeGuess(option, from + byTicks);
  set({ placing });
}

/** From here on hands and guesses stay; Run is armed. */
export function lock(): void {
  change(() => ({ stage: 'locked', fromTick: getApp().shownTick }));
  set({ placing: null });
}

export function showTruth(): void {
  change(() => ({ stage: 'shown' }));
}

/** Stays as it is while the clock goes back and forth, until the next question. */
export function setCovered(covered: boolean): void {
  tellPage({ covered });
}

export function setPanel(panel: LecturePanel): void {
  set({ panel, placing: null });
}

/** Shows an earlier question with its hands, at the instant it was asked. */
export function goToStep(place: number): void {
  const step = get().steps[place];
  if (!step) return;
  set({ now: place, panel: 'step', placing: null });
  if (step.room === roomId()) send({ type: 'seek', tick: step.fromTick });
  syncPage();
}

/** How many causes still fit after so many readings. */
export function noteTrail(readings: number, fitting: number): void {
  const room = roomId();
  const trail = (get().trails[room] ?? []).slice(0, readings);
  set((s) => ({ trails: { ...s.trails, [room]: [...trail, fitting] } }));
}

export function setRecap(recap: boolean): void {
  if (recap) send({ type: 'pause' });
  set({ recap });
}

/** The page turns into the lecture, or back. */
export function openLecture(): void {
  setApp({ lecture: { covered: true, armed: true, scale: 1 }, screen: 'main', theme: 'day' });
  syncPage();
}

export function leaveLecture(): void {
  setApp({ lecture: null });
}
