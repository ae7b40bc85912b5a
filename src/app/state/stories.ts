/** Stories that came with the app, and files that somebody opened; all read by the same loader as everywhere. */
import type { Scenario } from '../../engine/types.ts';
import { en } from '../../report/text/en.ts';
import { idsIn, libraryOf } from '../../scenario/library.ts';
import { loadScenario, loadStory as readStory } from '../../scenario/load.ts';

const files = import.meta.glob<string>('../../../scenarios/**/*.json', {
  eager: true,
  query: '?raw',
  import: 'default',
});
export const library = libraryOf(files);
const bundledPaths: readonly string[] = [...library.texts.keys()];

/** The first thing that anybody sees. */
export const FIRST_STORY = 'winter-walk-in';

export interface StoryTitle {
  id: string;
  title: string;
}

const cache = new Map<string, Scenario>();
/** Texts of stories opened from files on this visit: this browser may refuse to keep them. */
const openedNow = new Map<string, string>();

/** Texts of opened files by id, kept in this browser so that a reload finds them again. */
const FILES_KEY = 'halflit/files';

/** Jobs of somebody's own, kept the same way. */
const JOBS_KEY = 'halflit/jobs';

function openedFiles(key = FILES_KEY): Record<string, string> {
  try {
    return JSON.parse(localStorage.getItem(key) ?? '{}') as Record<string, string>;
  } catch {
    return {};
  }
}

export type Opened = { ok: true; id: string } | { ok: false; sentences: string[] };

/** Reads a story file of somebody's own. It may use the rooms and detectors that came with the app. */
export function openStoryFile(text: string, fileName: string): Opened {
  const loaded = loadScenario(text, fileName, library);
  if (!loaded.ok) return loaded;
  const { id } = loaded.scenario;
  if (idsIn(library, '').includes(id)) return { ok: false, sentences: [en.notices.idTaken(fileName, id)] };
  cache.set(id, loaded.scenario);
  openedNow.set(id, text);
  try {
    localStorage.setItem(FILES_KEY, JSON.stringify({ ...openedFiles(), [id]: text }));
  } catch {
    // It is open all the same; only a reload would need the file again.
  }
  return { ok: true, id };
}

const jobPath = (id: string): string => `exercises/${id}.json`;

// From here on jobs of somebody's own are found like those that came with the app.
for (const [id, text] of Object.entries(openedFiles(JOBS_KEY))) {
  if (!bundledPaths.includes(jobPath(id))) library.texts.set(jobPath(id), text);
}

/** Puts an exercise that has been read among the jobs. */
export function keepJobText(id: string, text: string, fileName: string): Opened {
  if (bundledPaths.includes(jobPath(id))) return { ok: false, sentences: [en.notices.idTaken(fileName, id)] };
  library.texts.set(jobPath(id), text);
  try {
    localStorage.setItem(JOBS_KEY, JSON.stringify({ ...openedFiles(JOBS_KEY), [id]: text }));
  } catch {
    // It is listed all the same; only a reload would need the file again.
  }
  return { ok: true, id };
}

/** Text of a story of somebody's own; null: it came with the app. */
export function ownStoryText(id: string): string | null {
  return openedNow.get(id) ?? openedFiles()[id] ?? null;
}

/** A story by id; null when there is none of that id or it cannot be read. */
export function storyById(id: string): Scenario | null {
  const known = cache.get(id);
  if (known) return known;
  const own = openedFiles()[id];
  const loaded = own === undefined ? readStory(library, id) : loadScenario(own, `${id}.json`, library);
  if (!loaded.ok) return null;
  cache.set(id, loaded.scenario);
  return loaded.scenario;
}

/** Ids and titles of the exercises in the advised order; whether they can be worked is found out when one is opened. */
export function jobTitles(): StoryTitle[] {
  const heads = idsIn(library, 'exercises').flatMap((id) => {
    const text = library.texts.get(`exercises/${id}.json`) ?? '{}';
    const { job, title } = JSON.parse(text) as { job?: number; title?: string };
    return job !== undefined && title ? [{ id, title, job }] : [];
  });
  // Own ones have no number and come last.
  const place = ({ job }: { job: number }): number => job || Number.POSITIVE_INFINITY;
  return heads
    .sort((a, b) => (place(a) === place(b) ? 0 : place(a) - place(b)))
    .map(({ id, title, job }) => ({ id, title: job === 0 ? title : `${job} ${title}` }));
}

/** Ids and titles in order, the first story first. */
export function storyTitles(): StoryTitle[] {
  const ids = idsIn(library, '');
  const ordered = [...ids.filter((id) => id === FIRST_STORY), ...ids.filter((id) => id !== FIRST_STORY)];
  return [...ordered, ...Object.keys(openedFiles())].flatMap((id) => {
    const scenario = storyById(id);
    return scenario ? [{ id, title: scenario.title }] : [];
  });
}
