/** The stories that came with the app, read by the same loader as everywhere. */
import type { Scenario } from '../../engine/types.ts';
import { idsIn, libraryOf } from '../../scenario/library.ts';
import { loadStory as readStory } from '../../scenario/load.ts';

const files = import.meta.glob<string>('../../../scenarios/**/*.json', {
  eager: true,
  query: '?raw',
  import: 'default',
});
const library = libraryOf(files);

/** The first thing that anybody sees. */
export const FIRST_STORY = 'winter-walk-in';

export interface StoryTitle {
  id: string;
  title: string;
}

const cache = new Map<string, Scenario>();

/** A bundled story; null when there is none of that id or it cannot be read. */
export function storyById(id: string): Scenario | null {
  const known = cache.get(id);
  if (known) return known;
  const loaded = readStory(library, id);
  if (!loaded.ok) return null;
  cache.set(id, loaded.scenario);
  return loaded.scenario;
}

/** Ids and titles in order, the first story first. */
export function storyTitles(): StoryTitle[] {
  const ids = idsIn(library, '');
  const ordered = [...ids.filter((id) => id === FIRST_STORY), ...ids.filter((id) => id !== FIRST_STORY)];
  return ordered.flatMap((id) => {
    const scenario = storyById(id);
    return scenario ? [{ id, title: scenario.title }] : [];
  });
}
