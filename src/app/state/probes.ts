/** Lux meters that lie in the room, and what the light instruments read last. They are the viewer's, not the run's. */
import { create } from 'zustand';
import type { ProbeReading } from '../../engine/light/probePlace.ts';
import type { PointM } from '../../engine/types.ts';
import type { FromWorker } from '../../host/messages.ts';

export interface Probe {
  /** Its number, as text: "1" to "4". */
  id: string;
  /** A meter lies somewhere; an eye is held upright at eye level and looks along its heading. */
  kind: 'meter' | 'eye';
  atM: PointM;
  heightM: number;
  /** From straight up, towards the heading (clockwise from the room's +y), deg. */
  tiltDeg: number;
  headingDeg: number;
}

type Photometers = Extract<FromWorker, { type: 'photometers' }>;

export interface ProbesState {
  probes: Probe[];
  chosen: string | null;
  readings: Record<string, ProbeReading>;
  /** A row is being worked out: the old numbers stand greyed. */
  measuring: boolean;
  photometers: Photometers | null;
}

export const NO_PROBES: ProbesState = { probes: [], chosen: null, readings: {}, measuring: false, photometers: null };

export const useProbes = create<ProbesState>()(() => NO_PROBES);
export const getProbes = useProbes.getState;
export const setProbes = useProbes.setState;

let asked = 0;

/** Number of the next question about the places of all meters. */
export function nextAsk(): number {
  return ++asked;
}

/** An answer to an older question would put a number at a place where it was not read. */
export function takeProbed({ requestId, readings }: Extract<FromWorker, { type: 'probed' }>): void {
  if (requestId !== asked) return;
  setProbes({ readings: Object.fromEntries(readings.map((r) => [r.id, r])), measuring: false });
}

let watchers = 0;

/** Whether anybody looks at what the photometers see. */
export function photometersWanted(): boolean {
  return watchers > 0;
}

/** One more (or less) who looks. Returns whether that changed what the worker must know. */
export function countWatchers(by: 1 | -1): boolean {
  watchers += by;
  if (watchers === 0) setProbes({ photometers: null });
  return watchers === 0 || (by === 1 && watchers === 1);
}

export function takePhotometers(message: Photometers): void {
  if (watchers > 0) setProbes({ photometers: message });
}
