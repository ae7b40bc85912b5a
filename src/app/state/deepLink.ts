/** Links: what the address asks for, and the address of what is shown. Everything in the fragment, nothing sent anywhere. */
import { hourMinuteSecond, localSeconds } from '../../report/text/format.ts';
import { getApp, type Overlay, type View } from './store.ts';

export interface LinkWish {
  story: string | null;
  at: string | null;
  view: View | null;
  overlay: Overlay | null;
}

const VIEWS: readonly string[] = ['room', 'plan', 'words'];
const OVERLAYS: readonly string[] = ['none', 'sight', 'warmth', 'light'];

/** Reads `#story=…&at=HH:MM&view=plan`; `?view=plan` counts too, for who cannot reach a fragment. */
export function readLink(hash: string, query: string): LinkWish {
  const wish = new URLSearchParams(hash.replace(/^#/, ''));
  const view = wish.get('view') ?? new URLSearchParams(query).get('view');
  const overlay = wish.get('floor');
  return {
    story: wish.get('story'),
    at: wish.get('at'),
    view: view !== null && VIEWS.includes(view) ? (view as View) : null,
    overlay: overlay !== null && OVERLAYS.includes(overlay) ? (overlay as Overlay) : null,
  };
}

/** Fragment for the story and view shown; with the instant, it is a link to hand on. */
export function linkHash(withInstant: boolean): string {
  const { scenario, shownTick, view, overlay } = getApp();
  if (!scenario) return '';
  const parts = [`story=${encodeURIComponent(scenario.id)}`];
  if (withInstant && shownTick > 0) parts.push(`at=${hourMinuteSecond(localSeconds(shownTick, scenario.start))}`);
  if (view !== 'room') parts.push(`view=${view}`);
  if (overlay !== 'none') parts.push(`floor=${overlay}`);
  return `#${parts.join('&')}`;
}
