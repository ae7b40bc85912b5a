/**
 * The learner's notebook of a walk-test: points recorded where a Stand-in was, how it moved, and whether the room
 * answered with a pulse. Kept in this browser beside the run; the run itself does not know of it.
 */
import { create } from 'zustand';
import type { PersonView } from '../../engine/frame.ts';
import type { DetectorMount, PlanStep, PointM } from '../../engine/types.ts';
import { shortestTurnDeg } from '../../engine/units.ts';
import { movementOf } from '../../exercise/reach/movement.ts';
import type { ReachKind } from '../../host/messages.ts';
import { givePlan, insideRoom, placePerson } from './acts.ts';
import { invalidateLive, live, onLive } from './live.ts';
import { placeOf, polarOf } from './reachShape.ts';
import { firstIndexAtOrAfter, record } from './record.ts';
import { getApp, useApp } from './store.ts';

export type Way = ReachKind | 'away' | 'standing';

export interface WalkPoint {
  id: number;
  tick: number;
  personId: string;
  atM: PointM;
  way: Way;
  seen: boolean;
  /** The detector's mount then, as text: points of another mount say nothing about this one. */
  mount: string;
}

export interface Notebook {
  points: readonly WalkPoint[];
  /** Points on the learner's own edge, by movement. */
  edge: Record<ReachKind, readonly number[]>;
}

export interface WalkTestState extends Notebook {
  storyId: string;
  auto: boolean;
  shown: boolean;
  kind: ReachKind;
  personId: string;
  /** False when this browser refuses to keep anything. */
  kept: boolean;
  undoDepth: number;
}

const EMPTY: Notebook = { points: [], edge: { across: [], toward: [], seated: [] } };

export const useWalkTest = create<WalkTestState>()(() => ({
  ...EMPTY,
  storyId: '',
  auto: false,
  shown: true,
  kind: 'across',
  personId: '',
  kept: true,
  undoDepth: 0,
}));

/** A pulse this long ago still belongs to the point, ticks. Assumed: 2 s, two steps of a walker. */
const SEEN_WITHIN_TICKS = 20;
/** Steps back that are remembered, and points on a page. Assumed: more than anybody makes in a lesson. */
const MOST_UNDO = 50;
const MOST_POINTS = 400;

const keyOf = (storyId: string): string => `halflit/walk-test/${storyId}`;

let undo: Notebook[] = [];

function save(): void {
  const { storyId, points, edge, kept } = useWalkTest.getState();
  try {
    localStorage.setItem(keyOf(storyId), JSON.stringify({ format: 1, points, edge }));
    if (!kept) useWalkTest.setState({ kept: true });
  } catch {
    if (kept) useWalkTest.setState({ kept: false });
  }
}

function change(next: Partial<Notebook>): void {
  const { points, edge } = useWalkTest.getState();
  undo = [...undo.slice(1 - MOST_UNDO), { points, edge }];
  useWalkTest.setState({ ...next, undoDepth: undo.length });
  save();
}

export function undoPoint(): void {
  const before = undo.at(-1);
  if (!before) return;
  undo = undo.slice(0, -1);
  useWalkTest.setState({ ...before, undoDepth: undo.length });
  save();
}

export function clearPoints(): void {
  change(EMPTY);
}

export function removePoint(id: number): void {
  const { points, edge } = useWalkTest.getState();
  const without = (ids: readonly number[]) => ids.filter((other) => other !== id);
  change({
    points: points.filter((point) => point.id !== id),
    edge: { across: without(edge.across), toward: without(edge.toward), seated: without(edge.seated) },
  });
}

export function setEdge(kind: ReachKind, id: number, on: boolean): void {
  const { edge } = useWalkTest.getState();
  const others = edge[kind].filter((other) => other !== id);
  change({ edge: { ...edge, [kind]: on ? [...others, id] : others } });
}

const isPoint = (p: WalkPoint): boolean =>
  Number.isInteger(p?.id) && Number.isFinite(p.atM?.[0]) && Number.isFinite(p.atM?.[1]) && typeof p.seen === 'boolean';

/** What was kept for a story; a page that cannot be read is an empty one. */
export function readNotebook(text: string | null): Notebook {
  try {
    const value = JSON.parse(text ?? 'null') as (Notebook & { format: number }) | null;
    if (value?.format !== 1 || !Array.isArray(value.points) || !value.points.every(isPoint)) return EMPTY;
    const ids = new Set(value.points.map((p) => p.id));
    const known = (kind: ReachKind) => (value.edge?.[kind] ?? []).filter((id) => ids.has(id));
    return {
      points: value.points,
      edge: { across: known('across'), toward: known('toward'), seated: known('seated') },
    };
  } catch {
    return EMPTY;
  }
}

/** Another page for the story shown: that of an attempt, or an empty one. */
export function putNotebook(page: Notebook | null): void {
  undo = [];
  useWalkTest.setState({ ...(page ?? EMPTY), undoDepth: 0 });
  save();
}

function openStory(storyId: string): void {
  let text: string | null = null;
  let kept = true;
  try {
    text = localStorage.getItem(keyOf(storyId));
  } catch {
    kept = false;
  }
  undo = [];
  useWalkTest.setState({ ...readNotebook(text), storyId, kept, undoDepth: 0, auto: false, personId: '' });
}

/** Nearer to the line of sight than this is along it, degrees. Assumed: half way between along and across. */
const ALONG_DEG = 45;

/** How somebody moves, as the detector at `mount` sees it. */
export function wayOf(person: Pick<PersonView, 'act' | 'atM' | 'headingDeg'>, mount: DetectorMount): Way {
  const movement = movementOf(person.act);
  if (movement !== 'walking') return movement;
  const outwardDeg = polarOf(mount.atM, person.atM).bearingDeg;
  const off = Math.abs(shortestTurnDeg(outwardDeg, person.headingDeg));
  if (off < ALONG_DEG) return 'away';
  return off > 180 - ALONG_DEG ? 'toward' : 'across';
}

export function mountText(mount: DetectorMount): string {
  return [...mount.atM, mount.heightM, mount.turnDeg].map((n) => Math.round(n * 100) / 100).join(' ');
}

/** Whether the room answered with movement in the last two seconds. */
export function seenLately(tick: number, events: typeof record.events = record.events): boolean {
  const from = firstIndexAtOrAfter(tick - SEEN_WITHIN_TICKS + 1, events);
  for (let i = from; i < events.length && events[i]!.tick <= tick; i++) if (events[i]!.kind === 'seen') return true;
  return false;
}

/** The point of this instant; null when the Stand-in is not there. */
export function recordPoint(): WalkPoint | null {
  const { points, personId } = useWalkTest.getState();
  const mount = getApp().setup?.mount;
  const person = live.frame?.people.find((p) => p.id === personId && p.present);
  if (!person || !mount || !live.frame || points.length >= MOST_POINTS) return null;
  const { tick } = live.frame;
  const point: WalkPoint = {
    id: Math.max(0, ...points.map((p) => p.id)) + 1,
    tick,
    personId,
    atM: [Math.round(person.atM[0] * 100) / 100, Math.round(person.atM[1] * 100) / 100],
    way: wayOf(person, mount),
    seen: seenLately(tick),
    mount: mountText(mount),
  };
  change({ points: [...points, point] });
  return point;
}

let autoSecond = -1;

/** Each second of the room that the Stand-in walks leaves a point. At high speeds: each frame that is shown. */
function recordWhileWalking(): void {
  const { auto, personId } = useWalkTest.getState();
  if (!auto || !live.frame || !getApp().status.running) return;
  const second = Math.floor(live.frame.tick / 10);
  const walking = live.frame.people.some((p) => p.id === personId && p.present && p.act === 'walk');
  if (!walking || second === autoSecond) return;
  autoSecond = second;
  recordPoint();
}

/** Half of a crossing, m. Source: the walk that the outline across is made of. */
const HALF_CROSSING_M = 1.5;
const PACE_MPS = 1;
/** Mean rest between two reaches, s. Assumed: so short that each 2 s have a reach in them. */
const REACH_EVERY_S = 0.3;

/** Lets the chosen Stand-in do the movement of an outline at a bearing and distance from the detector. */
export function letMove(kind: ReachKind, bearingDeg: number, radiusM: number): void {
  const { personId } = useWalkTest.getState();
  const mount = getApp().setup?.mount;
  if (!mount || personId === '') return;
  const at = placeOf(mount.atM, bearingDeg, radiusM);
  const side = (m: number): PointM => insideRoom(placeOf(at, bearingDeg + 90, m));
  const walk = (toM: PointM): PlanStep[] => [{ act: 'walk', toM, speedMps: PACE_MPS }, { act: 'standStill' }];
  placePerson(personId, kind === 'across' ? side(-HALF_CROSSING_M) : insideRoom(at));
  if (kind === 'across') givePlan(personId, walk(side(HALF_CROSSING_M)));
  else if (kind === 'toward') givePlan(personId, walk(mount.atM));
  else givePlan(personId, [{ act: 'reach', headingDeg: (bearingDeg + 180) % 360, gestureEveryS: REACH_EVERY_S }]);
}

onLive(recordWhileWalking);
useWalkTest.subscribe(invalidateLive);
useApp.subscribe((now) => {
  const id = now.scenario?.id ?? '';
  if (id !== '' && id !== useWalkTest.getState().storyId) openStory(id);
});
openStory(getApp().scenario?.id ?? '');
