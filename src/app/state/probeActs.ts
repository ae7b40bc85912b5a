/** What can be done with lux meters: lay down, move, tilt, take away. None of it is an act of the run. */
import { type ProbePlace, probeNormal, restingHeightM } from '../../engine/light/probePlace.ts';
import { roomBoxes } from '../../engine/room/boxes.ts';
import type { PointM } from '../../engine/types.ts';
import { countWatchers, getProbes, nextAsk, type Probe, setProbes } from './probes.ts';
import { getApp, setApp } from './store.ts';
import { send } from './wire.ts';

/** How many meters may lie about at once. Assumed: 4; more would cover the room with tags. */
export const MOST_PROBES = 4;
/** Step of a meter along the floor and upwards, m. Source: the product's own step of the arrow keys. */
export const PROBE_STEP_M = 0.25;
/** Steps of tilt and heading, deg. Assumed: finer is not seen on a tag, coarser misses a window's edge. */
export const PROBE_TURN_DEG = 15;
/** Eye heights, m: seated and standing. Assumed: a person of 1.75 m on an office chair, and on the feet. */
export const EYE_M = { seated: 1.2, standing: 1.65 } as const;

function placeOf({ id, atM, heightM, tiltDeg, headingDeg }: Probe): ProbePlace {
  return { id, positionM: [atM[0], atM[1], heightM], normal: probeNormal(tiltDeg, headingDeg) };
}

/** Lays all meters and tells the worker where they are; the answer comes as `probed`. */
export function layMeters(probes: Probe[], chosen: string | null): void {
  setProbes({ probes, chosen, measuring: probes.length > 0 });
  send({ type: 'probe', requestId: nextAsk(), places: probes.map(placeOf) });
}

function change(id: string, by: (probe: Probe) => Partial<Probe>): void {
  const { probes } = getProbes();
  layMeters(
    probes.map((probe) => (probe.id === id ? { ...probe, ...by(probe) } : probe)),
    id,
  );
}

/** Height of what stands under a place: a desk, a cabinet, else the floor, m. */
export function restingAt(atM: PointM): number {
  const { scenario, setup } = getApp();
  if (!scenario) return 0;
  return restingHeightM(roomBoxes(scenario.room, setup?.furniture ?? scenario.room.furniture), atM);
}

const hundredth = (m: number): number => Math.round(m * 100) / 100;

function inRoom([x, y]: PointM): PointM {
  const room = getApp().scenario?.room;
  if (!room) return [x, y];
  return [hundredth(Math.min(room.widthM, Math.max(0, x))), hundredth(Math.min(room.depthM, Math.max(0, y)))];
}

function freeId(probes: readonly Probe[]): string | null {
  return ['1', '2', '3', '4'].slice(0, MOST_PROBES).find((id) => !probes.some((p) => p.id === id)) ?? null;
}

/** The middle of the room, or beside it where meters lie already, half a metre on for each. */
function freeMiddle(probes: readonly Probe[], room: { widthM: number; depthM: number }): PointM {
  const at: PointM = [room.widthM / 2, room.depthM / 2];
  while (probes.some((p) => Math.hypot(p.atM[0] - at[0], p.atM[1] - at[1]) < PROBE_STEP_M)) at[0] += 2 * PROBE_STEP_M;
  return at;
}

/** Lays one more meter down: at `atM`, or in the middle of the room. Returns its number, null when all are out. */
export function addMeter(atM?: PointM): string | null {
  const { probes } = getProbes();
  const { scenario } = getApp();
  const id = freeId(probes);
  if (!scenario || id === null) return null;
  const at = inRoom(atM ?? freeMiddle(probes, scenario.room));
  layMeters([...probes, { id, kind: 'meter', atM: at, heightM: restingAt(at), tiltDeg: 0, headingDeg: 0 }], id);
  return id;
}

/** An eye at the first seat that has none yet, looking as the chair does; without chairs in the middle of the room. */
export function addEye(): string | null {
  const { probes } = getProbes();
  const { scenario, setup } = getApp();
  const id = freeId(probes);
  if (!scenario || id === null) return null;
  const chairs = (setup?.furniture ?? scenario.room.furniture).filter((f) => f.kind === 'chair');
  const taken = (at: PointM) =>
    probes.some((p) => p.kind === 'eye' && Math.hypot(p.atM[0] - at[0], p.atM[1] - at[1]) < 0.3);
  const chair = chairs.find((c) => !taken(c.atM));
  const atM = inRoom(chair?.atM ?? [scenario.room.widthM / 2, scenario.room.depthM / 2]);
  const headingDeg = chair?.turnDeg ?? 0;
  layMeters([...probes, { id, kind: 'eye', atM, heightM: EYE_M.seated, tiltDeg: 90, headingDeg }], id);
  return id;
}

/** Puts a meter somewhere else; it comes to lie at `heightM`, or on what is there; an eye keeps its height. */
export function placeProbe(id: string, toM: PointM, heightM?: number): void {
  const atM = inRoom(toM);
  change(id, (probe) => ({ atM, ...(probe.kind === 'meter' ? { heightM: heightM ?? restingAt(atM) } : {}) }));
}

export function nudgeProbe(id: string, [dx, dy]: PointM): void {
  const probe = getProbes().probes.find((p) => p.id === id);
  if (probe) placeProbe(id, [probe.atM[0] + dx, probe.atM[1] + dy]);
}

const ARROWS: Record<string, PointM> = {
  ArrowLeft: [-PROBE_STEP_M, 0],
  ArrowRight: [PROBE_STEP_M, 0],
  ArrowUp: [0, PROBE_STEP_M],
  ArrowDown: [0, -PROBE_STEP_M],
};

/** Moves a meter by a key: arrows along the floor, Page Up and Page Down in height. True when the key was one. */
export function keyProbe(id: string, key: string): boolean {
  const by = ARROWS[key];
  if (by) nudgeProbe(id, by);
  else if (key === 'PageUp' || key === 'PageDown') liftProbe(id, key === 'PageUp' ? 1 : -1);
  else return false;
  return true;
}

/** Up or down by one step, landing on whole quarters. */
export function liftProbe(id: string, steps: number): void {
  const heightLimit = getApp().scenario?.room.heightM ?? 3;
  change(id, ({ heightM }) => {
    const quarters = heightM / PROBE_STEP_M;
    const next = (steps > 0 ? Math.floor(quarters + 1e-6) : Math.ceil(quarters - 1e-6)) + steps;
    return { heightM: Math.min(heightLimit, Math.max(0, next * PROBE_STEP_M)) };
  });
}

export function setProbeHeight(id: string, heightM: number): void {
  change(id, () => ({ heightM }));
}

/** Lays it on what is under it, looking straight up. */
export function layDown(id: string): void {
  change(id, ({ atM }) => ({ kind: 'meter', heightM: restingAt(atM), tiltDeg: 0 }));
}

export function tiltProbe(id: string, steps: number): void {
  change(id, ({ tiltDeg }) => ({ tiltDeg: Math.min(180, Math.max(0, tiltDeg + steps * PROBE_TURN_DEG)) }));
}

export function turnProbe(id: string, steps: number): void {
  change(id, ({ headingDeg }) => ({ headingDeg: (headingDeg + steps * PROBE_TURN_DEG + 360) % 360 }));
}

export function chooseProbe(id: string): void {
  setProbes({ chosen: id });
  const { floorTool } = getApp();
  if (floorTool.kind === 'probe') setApp({ floorTool: { kind: 'probe', probeId: id } });
}

export function removeProbe(id: string): void {
  const { floorTool } = getApp();
  if (floorTool.kind === 'probe' && floorTool.probeId === id) setApp({ floorTool: { kind: 'none' } });
  const probes = getProbes().probes.filter((p) => p.id !== id);
  layMeters(probes, probes.at(-1)?.id ?? null);
}

/** Somebody looks at what the photometers see; returns the way to stop. The worker draws only while somebody does. */
export function watchPhotometers(): () => void {
  if (countWatchers(1)) send({ type: 'wantPhotometers', wanted: true });
  return () => {
    if (countWatchers(-1)) send({ type: 'wantPhotometers', wanted: false });
  };
}
