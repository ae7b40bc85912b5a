/** Instruments in the room: lux meters, and what the photometers see. They only look. */
import { photometersOf, probesOf } from '../engine/instruments.ts';
import type { ProbePlace } from '../engine/light/probePlace.ts';
import type { HostState } from './hostState.ts';
import type { ToWorker } from './messages.ts';
import type { Session } from './session.ts';

/** Least time between two readings of lux meters while the clock runs, ms. Source: the product's ten readouts a second. */
const PROBES_EVERY_MS = 100;
/** Least time between two pictures of what the photometers see, ms. Assumed: light seen at this pace still seems to move. */
const VIEW_EVERY_MS = 500;

export interface Instruments {
  requestId: number;
  places: readonly ProbePlace[];
  probesAtMs: number;
  wantsView: boolean;
  viewAtMs: number;
  /** What the last posted picture was a picture of. */
  viewKey: string;
}

export function createInstruments(): Instruments {
  const never = Number.NEGATIVE_INFINITY;
  return { requestId: 0, places: [], probesAtMs: never, wantsView: false, viewAtMs: never, viewKey: '' };
}

export type InstrumentMessage = Extract<ToWorker, { type: 'probe' | 'wantPhotometers' }>;

/** What the page wants to be told from now on; answered at once when there is a room. */
export function takeInstrument(host: HostState, message: InstrumentMessage): void {
  const { instruments, session } = host;
  if (message.type === 'probe') {
    instruments.requestId = message.requestId;
    instruments.places = message.places;
    instruments.probesAtMs = Number.NEGATIVE_INFINITY;
  } else {
    instruments.wantsView = message.wanted;
    instruments.viewKey = '';
    instruments.viewAtMs = Number.NEGATIVE_INFINITY;
  }
  if (session && host.doing.kind !== 'loading') postInstruments(host, session);
}

/** With every frame: what the instruments read at its instant, each at its own pace while the clock runs. */
export function postInstruments(host: HostState, session: Session): void {
  postProbes(host, session);
  postPhotometers(host, session);
}

function postProbes(host: HostState, session: Session): void {
  const { instruments } = host;
  const nowMs = host.around.clock();
  const moving = host.doing.kind !== 'standing';
  if (instruments.places.length === 0 || (moving && nowMs - instruments.probesAtMs < PROBES_EVERY_MS)) return;
  instruments.probesAtMs = nowMs;
  const tick = Math.max(0, session.sim.state.tick - 1);
  const readings = probesOf(session.sim, session.lastStep, instruments.places);
  host.around.post({ type: 'probed', requestId: instruments.requestId, tick, readings });
}

function postPhotometers(host: HostState, session: Session): void {
  const { instruments } = host;
  if (!instruments.wantsView) return;
  const nowMs = host.around.clock();
  const { state } = session.sim;
  const moving = host.doing.kind !== 'standing';
  if (moving && nowMs - instruments.viewAtMs < VIEW_EVERY_MS) return;
  const key = JSON.stringify([state.tick, session.lastStep?.lamps ?? null, state.setup]);
  if (key === instruments.viewKey) return;
  instruments.viewKey = key;
  instruments.viewAtMs = nowMs;
  const seen = photometersOf(session.sim, session.lastStep);
  const buffers = [seen.inner, seen.window].map(({ view }) => view.luminance.buffer as ArrayBuffer);
  host.around.post({ type: 'photometers', tick: Math.max(0, state.tick - 1), ...seen }, buffers);
}
