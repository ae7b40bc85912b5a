/** Finding the platform's object, as SCORM 1.2 says: up the frames, then from the window that opened this one. */
import type { ScormApi } from '../../../exercise/scorm/visit.ts';

/** What is asked of a window; a real one has more. */
export interface PlatformWindow {
  API?: ScormApi;
  parent: PlatformWindow | null;
  opener?: PlatformWindow | null;
}

/** Frames in frames that are looked through. Assumed: platforms need two or three; a circle of windows must end. */
const DEEPEST = 20;

/** Null: no platform, or a window of somebody else's that may not be looked into. */
export function findApi(from: PlatformWindow): ScormApi | null {
  let at = from;
  for (let depth = 0; depth < DEEPEST; depth++) {
    try {
      if (at.API) return at.API;
      const isTop = at.parent === null || at.parent === at;
      const next = isTop ? at.opener : at.parent;
      if (!next) return null;
      at = next;
    } catch {
      return null;
    }
  }
  return null;
}
