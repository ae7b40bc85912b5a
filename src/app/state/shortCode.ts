/** Short codes: the name of a bundled story or job and its number, as a lecture shows them and another copy opens them. */
import { readClassCode } from '../../exercise/classCode.ts';
import { openJobById, openStory } from './start.ts';
import { getApp } from './store.ts';
import { storyById } from './stories.ts';

export function shortCodeOf(id: string, seed: number | ''): string {
  return `${id} ${seed}`.trim();
}

export interface ShortCode {
  kind: 'story' | 'job';
  id: string;
  seed: number;
  title: string;
}

/** Why a text opens nothing: no such name, a class code, a job without its number, or a story of another number here. */
export type ShortCodeFault = 'unknown' | 'classCode' | 'noNumber' | 'otherNumber';

/** Highest number of a room. Source: seeds are 32 bits. */
const MOST_SEED = 0xffffffff;

/** Capitals, more blanks, and blanks in place of hyphens will do: it is copied from a screen. */
export function readShortCode(text: string): ShortCode | ShortCodeFault {
  const words = text
    .trim()
    .toLowerCase()
    .split(/[\s_-]+/);
  const last = words.at(-1) ?? '';
  const number = /^\d{1,10}$/.test(last) && Number(last) <= MOST_SEED ? Number(last) : null;
  const names = [words.join('-'), ...(number === null ? [] : [words.slice(0, -1).join('-')])];
  const { storyTitles, jobTitles } = getApp();
  for (const [i, name] of names.entries()) {
    // A name may itself end in a number: the whole text is looked up first.
    const seed = i === 0 ? null : number;
    const job = jobTitles.find(({ id }) => id === name);
    if (job) return seed === null ? 'noNumber' : { kind: 'job', id: name, seed, title: job.title };
    const story = storyTitles.find(({ id }) => id === name);
    if (!story) continue;
    const own = storyById(name)?.seed ?? null;
    if (own === null || (seed !== null && seed !== own)) return 'otherNumber';
    return { kind: 'story', id: name, seed: own, title: story.title };
  }
  return readClassCode(text) ? 'classCode' : 'unknown';
}

export function openShortCode({ kind, id, seed }: ShortCode): void {
  if (kind === 'job') void openJobById(id, seed);
  else openStory(id);
}
