/** Links: what the address asks for, and the address of what is shown. Everything in the fragment, nothing sent anywhere. */
import type { Aid } from '../../exercise/types.ts';
import { hourMinuteSecond, localSeconds } from '../../report/text/format.ts';
import { getApp, type Overlay, type View } from './store.ts';

export interface LinkWish {
  story: string | null;
  /** An exercise by its id, and the seed of the bench. */
  job: string | null;
  seed: number;
  /** Level of aid; null: the exercise's own. */
  aid: Aid | null;
  at: string | null;
  view: View | null;
  overlay: Overlay | null;
  /** In front of a class. */
  lecture: boolean;
}

const VIEWS: readonly string[] = ['room', 'plan', 'words'];
const AIDS: readonly string[] = ['guided', 'practice', 'test'];
const OVERLAYS: readonly string[] = ['none', 'sight', 'warmth', 'light'];

/** Reads `#story=…&at=HH:MM&view=plan`; `?view=plan` counts too, for who cannot reach a fragment. */
export function readLink(hash: string, query: string): LinkWish {
  const wish = new URLSearchParams(hash.replace(/^#/, ''));
  const view = wish.get('view') ?? new URLSearchParams(query).get('view');
  const overlay = wish.get('floor');
  const aid = wish.get('aid');
  return {
    story: wish.get('story'),
    job: wish.get('job'),
    seed: seedOf(wish.get('seed')),
    aid: aid !== null && AIDS.includes(aid) ? (aid as Aid) : null,
    at: wish.get('at'),
    lecture: wish.has('lecture'),
    view: view !== null && VIEWS.includes(view) ? (view as View) : null,
    overlay: overlay !== null && OVERLAYS.includes(overlay) ? (overlay as Overlay) : null,
  };
}

/** A bench without a number is bench 1. */
function seedOf(text: string | null): number {
  const seed = Number(text ?? 1);
  return Number.isInteger(seed) && seed >= 0 && seed <= 0xffffffff ? seed : 1;
}

/** Fragment for the story and view shown; with the instant, it is a link to hand on. */
export function linkHash(withInstant: boolean): string {
  const { scenario, shownTick, view, overlay, job, lecture } = getApp();
  if (!scenario) return '';
  const parts = job
    ? [`job=${job.id}`, `seed=${job.seed}`, `aid=${job.aid}`]
    : [`story=${encodeURIComponent(scenario.id)}`];
  if (!job && withInstant && shownTick > 0)
    parts.push(`at=${hourMinuteSecond(localSeconds(shownTick, scenario.start))}`);
  if (view !== 'room') parts.push(`view=${view}`);
  if (overlay !== 'none') parts.push(`floor=${overlay}`);
  if (lecture) parts.push('lecture');
  return `#${parts.join('&')}`;
}
