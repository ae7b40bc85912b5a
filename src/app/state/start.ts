/** First steps: what the address asks for, what was left here, which view this machine can show. */
import type { Aid } from '../../exercise/types.ts';
import { en } from '../../report/text/en.ts';
import { tickOfClockIn } from './clock.ts';
import { linkHash, readLink } from './deepLink.ts';
import { live } from './live.ts';
import { writePosition } from './saves.ts';
import { loadStory } from './session.ts';
import { getApp, setApp, useApp } from './store.ts';
import { send } from './wire.ts';

type Stories = typeof import('./stories.ts');

/** Reader and files of the stories: a part of its own, so that the page stands before they are read. */
let stories: Stories | null = null;

const LAST_STORY_KEY = 'halflit/story';

function remembered(): string | null {
  try {
    return localStorage.getItem(LAST_STORY_KEY);
  } catch {
    return null;
  }
}

/** Whether this browser gives a WebGL2 context at all. Asked before anything of the 3D view is loaded. */
function hasWebgl2(): boolean {
  try {
    const context = document.createElement('canvas').getContext('webgl2');
    context?.getExtension('WEBGL_lose_context')?.loseContext();
    return context !== null;
  } catch {
    return false;
  }
}

/** Opens a bundled story and keeps the address in step. */
export function openStory(id: string, options: { at?: string | null; fresh?: boolean } = {}): boolean {
  const scenario = stories?.storyById(id) ?? null;
  if (!scenario) return false;
  const atTick = options.at ? tickOfClockIn(options.at, scenario.start) : null;
  loadStory(scenario, { ...(atTick !== null ? { atTick } : {}), ...(options.fresh ? { fresh: true } : {}) });
  try {
    localStorage.setItem(LAST_STORY_KEY, id);
  } catch {
    // The story is in the address as well.
  }
  keepAddress();
  return true;
}

/** Opens an exercise on a bench; its reader is fetched with the first one. `drawn`: see JobData. */
export async function openJobById(id: string, seed: number, aid?: Aid, drawn?: string): Promise<void> {
  if (!stories) return;
  const { openExercise } = await import('./exercises.ts');
  await openExercise(stories.library, id, seed, aid, drawn);
}

/** The address names story and view, never the instant: a reload goes on where the run was left. */
function keepAddress(): void {
  const hash = linkHash(false);
  if (hash !== location.hash) history.replaceState(null, '', `${location.pathname}${location.search}${hash}`);
}

/** Turns the page towards a class; what belongs to it is fetched first. */
export async function openLecture(): Promise<void> {
  const lecture = await import('./lecture/lecture.ts');
  if (!getApp().lecture) lecture.openLecture();
}

async function openFromAddress(): Promise<void> {
  if (!stories) return;
  const wish = readLink(location.hash, location.search);
  const canShowRoom = getApp().noRoomView === null;
  if (wish.lecture) await openLecture();
  const view = wish.view ?? getApp().view;
  setApp({ view: view === 'room' && !canShowRoom ? 'plan' : view, ...(wish.overlay ? { overlay: wish.overlay } : {}) });
  if (wish.job !== null) {
    openStory(stories.FIRST_STORY);
    void openJobById(wish.job, wish.seed, wish.aid ?? undefined);
    return;
  }
  const id = wish.story ?? remembered() ?? stories.FIRST_STORY;
  if (openStory(id, { at: wish.at })) return;
  if (wish.story) setApp({ notice: en.notices.unknownStory(wish.story) });
  openStory(stories.FIRST_STORY);
}

/** Opens a file of somebody's own; what is wrong with it is said in sentences. */
export async function openFile(file: File): Promise<void> {
  if (!stories) return;
  const text = await file.text();
  const { fileKindOf, openAttempt, takeExercise } = await import('./exercises.ts');
  const kind = fileKindOf(text);
  if (kind === 'attempt' || kind === 'assessment') {
    openAttempt(stories.library, text, file.name);
    return;
  }
  const opened = kind === 'exercise' ? takeExercise(text, file.name) : stories.openStoryFile(text, file.name);
  if (!opened.ok) {
    setApp({ notice: opened.sentences.slice(0, MOST_SENTENCES).join(' ') });
    return;
  }
  if (kind === 'exercise') {
    await openJobById(opened.id, 1);
    return;
  }
  setApp({ storyTitles: stories.storyTitles() });
  openStory(opened.id);
}

/** Sentences about a bad file shown at once. Assumed: mending the first few often mends the rest. */
const MOST_SENTENCES = 4;

async function readStories(): Promise<void> {
  try {
    stories = await import('./stories.ts');
  } catch {
    setApp({ readiness: 'failed', notice: en.notices.storiesFailed });
    return;
  }
  setApp({ storyTitles: stories.storyTitles(), jobTitles: stories.jobTitles() });
  void openFromAddress();
}

/** Called once, before the first render. */
export function start(): void {
  if (!hasWebgl2()) setApp({ noRoomView: 'noWebgl', view: 'plan' });
  void readStories();
  addEventListener('hashchange', () => void openFromAddress());
  useApp.subscribe((now, before) => {
    const otherBench = now.job !== null && (now.job.id !== before.job?.id || now.job.seed !== before.job.seed);
    const otherScreen = now.view !== before.view || now.overlay !== before.overlay || !now.lecture !== !before.lecture;
    if (otherBench || otherScreen) keepAddress();
  });
  document.addEventListener('visibilitychange', () => {
    // Nobody watches: the room waits. Nothing is skipped on return.
    if (document.hidden && getApp().status.running) {
      send({ type: 'pause' });
      setApp({ notice: en.notices.pausedHidden });
    }
  });
  addEventListener('pagehide', () => {
    const { scenario, selection } = getApp();
    if (live.frame) writePosition(scenario, live.frame.tick, selection, true);
  });
}
