/** How far the detector sees, as the worker has told it last; which of it is to be drawn; and when it is wanted at all. */
import { create } from 'zustand';
import type { ReachKind, ReachOutlines } from '../../host/messages.ts';
import { invalidateLive } from './live.ts';
import { onAnswer } from './session.ts';
import { type AppState, getApp, useApp } from './store.ts';
import { send } from './wire.ts';

export interface ReachState {
  /** Chosen for the Sight Map. */
  kinds: readonly ReachKind[];
  /** Laid over the learner's own outline. */
  laid: ReachKind | null;
  outlines: ReachOutlines | null;
  /** Share of the work done while the outlines are not those of the present room; null: they are. */
  progress: number | null;
}

export const useReach = create<ReachState>()(() => ({ kinds: [], laid: null, outlines: null, progress: null }));

const ORDER: readonly ReachKind[] = ['across', 'toward', 'seated'];

export function toggleKind(kind: ReachKind): void {
  useReach.setState((s) => ({ kinds: ORDER.filter((k) => s.kinds.includes(k) !== (k === kind)) }));
}

function isClosed({ job }: Pick<AppState, 'job'>): boolean {
  return job?.reachShut === true && job.stage !== 'result';
}

/** Whether outlines may be asked for now. */
export function useReachOpen(): boolean {
  return useApp((s) => !isClosed(s));
}

/** What is drawn now. */
export function shownKinds(s: ReachState, overlaySight: boolean): ReachKind[] {
  if (isClosed(getApp())) return [];
  return ORDER.filter((kind) => kind === s.laid || (overlaySight && s.kinds.includes(kind)));
}

let wanted = false;

/** The work is asked for only while somebody looks at it. */
function keepWanted(): void {
  const app = getApp();
  const { overlay, view } = app;
  const { kinds, laid } = useReach.getState();
  const now = !isClosed(app) && (laid !== null || (kinds.length > 0 && (overlay === 'sight' || view === 'words')));
  if (now === wanted) return;
  wanted = now;
  send({ type: 'wantReach', wanted });
}

useReach.subscribe(() => {
  keepWanted();
  invalidateLive();
});
useApp.subscribe(keepWanted);

onAnswer((message) => {
  switch (message.type) {
    case 'loaded':
      useReach.setState({ outlines: null, progress: wanted ? 0 : null, laid: null });
      return;
    case 'reachProgress':
      useReach.setState({ progress: message.share });
      return;
    case 'reach':
      useReach.setState({ outlines: message.outlines, progress: null });
      return;
  }
});
