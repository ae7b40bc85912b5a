/** One criterion at a time: what was measured, against which bound, and where it shows. */
import type { TraceEvent } from '../../engine/trace.ts';
import { TICKS_PER_S, wrapDeg } from '../../engine/units.ts';
import { benchScenario } from '../edits.ts';
import { polarOf } from '../reach/polygon.ts';
import { seatShares } from './design.ts';
import type { Evidence, RoomEvidence } from './evidence.ts';
import { graded, NOTHING, type Of } from './judging.ts';
import { isOwn, judgeOwn } from './ownCriteria.ts';
import { ratioAt } from './ratio.ts';
import { allHold, isOn, type Timeline } from './timeline.ts';
import type { Condition, Criterion, Judged, LeftRoom } from './types.ts';

function always({ when, is, exceptS, halfS }: Of<'always'>, days: readonly Timeline[]): Judged {
  let badS = 0;
  let at: Judged['at'] = null;
  for (const day of days) {
    for (let s = 0; s < day.seconds; s++) {
      if (!allHold(day, when, s) || allHold(day, is, s)) continue;
      badS++;
      at ??= { day: day.id, s };
    }
  }
  return { ...NOTHING, verdict: graded(badS, exceptS, halfS), value: badS, limit: exceptS, unit: 's', at };
}

/** First second at which the conditions have held for `forS`; null: never. */
function firstStretch(day: Timeline, is: readonly Condition[], forS: number): number | null {
  let heldS = 0;
  for (let s = 0; s < day.seconds; s++) {
    heldS = allHold(day, is, s) ? heldS + 1 : 0;
    if (heldS > forS) return s;
  }
  return null;
}

function sometime({ is, forS }: Of<'sometime'>, days: readonly Timeline[]): Judged {
  for (const day of days) {
    const s = firstStretch(day, is, forS);
    if (s !== null) return { ...NOTHING, verdict: 'met', at: { day: day.id, s } };
  }
  return NOTHING;
}

/** Seconds at which somebody comes into an empty room, or the last one leaves it. */
function turns(day: Timeline, after: 'entering' | 'leaving'): number[] {
  const found: number[] = [];
  for (let s = 1; s < day.seconds; s++) {
    const before = day.people[s - 1]! > 0;
    const now = day.people[s]! > 0;
    if (before !== now && now === (after === 'entering')) found.push(s);
  }
  return found;
}

/** s from each turn to the output being as asked; the room's end counts for one that never is. */
function responds(c: Of<'respondsWithin'>, days: readonly Timeline[]): Judged {
  let worstS = -1;
  let at: Judged['at'] = null;
  for (const day of days) {
    for (const turnS of turns(day, c.after)) {
      let s = turnS;
      while (s < day.seconds && isOn(day, c.output, s) !== c.on) s++;
      if (s - turnS <= worstS) continue;
      worstS = s - turnS;
      at = { day: day.id, s: turnS };
    }
  }
  if (worstS < 0) return NOTHING;
  return { ...NOTHING, verdict: graded(worstS, c.withinS, c.halfS), value: worstS, limit: c.withinS, unit: 's', at };
}

type OutputEvent = Extract<TraceEvent, { kind: 'output' }>;

function counted(c: Of<'count'>, day: Timeline, event: OutputEvent): boolean {
  if (!c.outputs.includes(event.output) || (c.on !== undefined && event.on !== c.on)) return false;
  if (c.reason !== undefined && event.reason.code !== c.reason) return false;
  // The second before the switching is where its conditions are looked at: afterwards the room is another.
  return allHold(day, c.when, Math.max(0, Math.ceil(event.tick / TICKS_PER_S) - 1));
}

function count(c: Of<'count'>, days: readonly Timeline[]): Judged {
  let times = 0;
  let at: Judged['at'] = null;
  for (const day of days) {
    for (const event of day.events) {
      if (!counted(c, day, event)) continue;
      times++;
      at ??= { day: day.id, s: event.tick / TICKS_PER_S };
    }
  }
  const verdict = graded(times, c.atMost, c.halfAtMost);
  return { ...NOTHING, verdict, value: times, limit: c.atMost, unit: 'times', at };
}

/** Of the time with somebody there, over all desks, the percentage under the demand. */
export function shortPercent(days: readonly Timeline[], demandLx: number): number {
  let all = 0;
  let short = 0;
  for (const day of days) {
    const desks = day.deskIds.length;
    for (let s = 0; s < day.seconds; s++) {
      if (day.people[s] === 0) continue;
      for (let d = 0; d < desks; d++) if (day.deskLx[s * desks + d]! < demandLx) short++;
      all += desks;
    }
  }
  return all === 0 ? 0 : (100 * short) / all;
}

/** Lamps of each row. */
export interface LampCount {
  inner: number;
  window: number;
}

function lampsOf({ exercise }: RoomEvidence, { setup }: LeftRoom): LampCount {
  const lamps = setup.luminaires ?? exercise.scenario.room.luminaires;
  const inner = lamps.filter(({ row }) => row === 'inner').length;
  return { inner, window: lamps.length - inner };
}

/** Hours that lamps burn, summed over the lamps. */
export function lampHours(days: readonly Timeline[], lamps: LampCount): number {
  let s = 0;
  for (const day of days) {
    for (let i = 0; i < day.seconds; i++) {
      s += (day.outputs[i]! & 1) * lamps.inner + ((day.outputs[i]! >> 1) & 1) * lamps.window;
    }
  }
  return s / 3600;
}

function deskShort(c: Of<'deskShort'>, { days, best: stored }: RoomEvidence): Judged {
  const value = shortPercent(days, c.demandLx);
  const best = shortPercent(stored.days(), c.demandLx);
  const verdict = graded(value - best, c.over, c.halfOver);
  return { ...NOTHING, verdict, value, limit: best + c.over, unit: 'percent' };
}

function hours(c: Of<'lampHours'>, room: RoomEvidence): Judged {
  const value = lampHours(room.days, lampsOf(room, room.left));
  const best = lampHours(room.best.days(), lampsOf(room, room.best.left));
  const verdict = graded(value, best * (1 + c.share), c.halfShare === undefined ? undefined : best * (1 + c.halfShare));
  return { ...NOTHING, verdict, value, limit: best * (1 + c.share), unit: 'hours' };
}

function level(c: Of<'level'>, { exercise, seed, left }: RoomEvidence): Judged {
  const { factors } = exercise.commission.best;
  const inner = c.row === 'inner';
  const setpointLx = inner ? left.settings.innerSetpointLx : left.settings.windowSetpointLx;
  if (setpointLx === null || !factors) return { ...NOTHING, limit: c.demandLx, unit: 'lx' };
  const set = inner ? left.settings.innerDeskFactor : left.settings.windowDeskFactor;
  const { factor } = ratioAt(benchScenario(exercise, seed), c.row, factors);
  const deskLx = (setpointLx / set) * factor;
  const off = Math.abs(deskLx / c.demandLx - 1);
  return { ...NOTHING, verdict: graded(off, c.share, c.halfShare), value: deskLx, limit: c.demandLx, unit: 'lx' };
}

const LUX_SETTINGS: readonly string[] = ['innerSetpointLx', 'windowSetpointLx'];

function setting(c: Of<'setting'>, { left }: RoomEvidence): Judged {
  const value = left.settings[c.setting];
  const unit = LUX_SETTINGS.includes(c.setting) ? 'lx' : c.setting.endsWith('S') ? 's' : 'none';
  if (value === null) return { ...NOTHING, limit: c.value, unit };
  const off = Math.abs(value / c.value - 1);
  return { ...NOTHING, verdict: graded(off, c.share, c.halfShare), value, limit: c.value, unit };
}

function shortest(c: Of<'shortest'>, { left, best }: RoomEvidence): Judged {
  const value =
    c.setting === 'windowOffDelayS' && left.settings.delaysCoupled
      ? left.settings.innerOffDelayS
      : left.settings[c.setting];
  const limit = (best.shortestS ?? value) * c.times;
  const verdict = graded(value, limit, c.halfTimes && (best.shortestS ?? value) * c.halfTimes);
  return { ...NOTHING, verdict, value, limit, unit: 's' };
}

function seats(c: Of<'seats'>, { exercise, seed, left }: RoomEvidence): Judged {
  const covered = seatShares(benchScenario(exercise, seed), left, c.seats).filter((share) => share >= SEEN_HALF).length;
  const all = c.seats.length;
  const verdict = covered === all ? 'met' : covered === all - 1 ? 'half' : 'missed';
  return { ...NOTHING, verdict, value: covered, limit: all, unit: 'none' };
}

/** A seat is covered from this share on. Source: the product's own rule for used seats. */
const SEEN_HALF = 0.5;

function clear(c: Of<'clear'>, { left }: RoomEvidence): Judged {
  const { mount, warmThings } = left.setup;
  const thing = warmThings.find(({ id }) => id === c.thing);
  if (!thing) return NOTHING;
  const value = polarOf(mount.atM, thing.atM).radiusM;
  return { ...NOTHING, verdict: graded(-value, -c.atLeastM, -c.halfM), value, limit: c.atLeastM, unit: 'm' };
}

function turned(c: Of<'turned'>, { left }: RoomEvidence): Judged {
  const off = wrapDeg(left.setup.mount.turnDeg - c.bearingDeg);
  const value = Math.min(off, 360 - off);
  return { ...NOTHING, verdict: graded(value, c.withinDeg, c.halfDeg), value, limit: c.withinDeg, unit: 'deg' };
}

/** The same, of some of its days only. */
function lookedAt(evidence: RoomEvidence, ids: readonly string[]): RoomEvidence {
  const some = (days: readonly Timeline[]) => days.filter(({ id }) => ids.includes(id));
  return { ...evidence, days: some(evidence.days), best: { ...evidence.best, days: () => some(evidence.best.days()) } };
}

/** Judged by the room as it is left and by its proving runs; those of the own run are not met here. */
export function judgeRoom(criterion: Criterion, evidence: RoomEvidence): Judged {
  const room = criterion.days ? lookedAt(evidence, criterion.days) : evidence;
  switch (criterion.kind) {
    case 'always':
      return always(criterion, room.days);
    case 'sometime':
      return sometime(criterion, room.days);
    case 'respondsWithin':
      return responds(criterion, room.days);
    case 'count':
      return count(criterion, room.days);
    case 'deskShort':
      return deskShort(criterion, room);
    case 'lampHours':
      return hours(criterion, room);
    case 'level':
      return level(criterion, room);
    case 'setting':
      return setting(criterion, room);
    case 'shortest':
      return shortest(criterion, room);
    case 'seats':
      return seats(criterion, room);
    case 'clear':
      return clear(criterion, room);
    case 'turned':
      return turned(criterion, room);
    default:
      return NOTHING;
  }
}

export function judge(criterion: Criterion, evidence: Evidence): Judged {
  return isOwn(criterion) ? judgeOwn(criterion, evidence) : judgeRoom(criterion, evidence);
}
