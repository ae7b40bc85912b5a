/** Stories that came with the app, and files that somebody opened; all read by the same loader as everywhere. */
import type { Scenario } from '../../engine/types.ts';
import type { ExerciseKind } from '../../exercise/types.ts';
import { en } from '../../report/text/en.ts';
import { idsIn, libraryOf } from '../../scenario/library.ts';
import { loadScenario, loadStory as readStory } from '../../scenario/load.ts';

const files = import.meta.glob<string>('../../../scenarios/**/*.json', {
  eager: true,
  query: '?raw',
  import: 'default',
});
export const library = libraryOf(files);

/** The first thing that anybody sees. */
export const FIRST_STORY = 'winter-walk-in';

export interface StoryTitle {
  id: string;
  title: string;
}

const cache = new Map<string, Scenario>();

/** Texts of opened files by id, kept in this browser so that a reload finds them again. */
const FILES_KEY = 'halflit/files';

function openedFiles(): Record<string, string> {
  try {
    return JSON.parse(localStorage.getItem(FILES_KEY) ?? '{}') as Record<string, string>;
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
  try {
    localStorage.setItem(FILES_KEY, JSON.stringify({ ...openedFiles(), [id]: text }));
  } catch {
    // It is open all the same; only a reload would need the file again.
  }
  return { ok: true, id };
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

/** Kinds of exercise that can be worked on the screen. */
const WORKED: readonly (string | undefined)[] = [
  'predict',
  'observe',
  'diagnose',
  'commission',
  'design',
] satisfies ExerciseKind[];

/** Ids and titles of the exercises in the advised order; whether they can be worked is found out when one is opened. */
export function jobTitles(): StoryTitle[] {
  const heads = idsIn(library, 'exercises').flatMap((id) => {
    const text = library.texts.get(`exercises/${id}.json`) ?? '{}';
    const { job, title, kind } = JSON.parse(text) as { job?: number; title?: string; kind?: string };
    return job !== undefined && title && WORKED.includes(kind) ? [{ id, title, job }] : [];
  });
  return heads.sort((a, b) => a.job - b.job).map(({ id, title, job }) => ({ id, title: `${job} ${title}` }));
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
