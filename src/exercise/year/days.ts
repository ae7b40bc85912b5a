/** Which days stand for a year, and who is in the room on each of them. */
import { formatLocalDate, parseLocalDate } from '../../engine/calendar.ts';
import { clockToSeconds } from '../../engine/skyClock.ts';
import type { DoorSpec, FurnitureSpec, PersonSpec, PlanStep, PointM, RoomSpec, Scenario } from '../../engine/types.ts';
import type { Schedule, YearDay, YearOrder } from './types.ts';

/**
 * Share of the days of every month under each sky. Assumed: a place with as much cloud as sun; more overcast days mean
 * more lit hours, above all in the window row.
 */
export const SKY_SHARES = { clear: 0.25, passingClouds: 0.4, overcast: 0.35 } as const;
/** Share of days that are worked. Assumed: five in seven, no holidays; every figure grows in proportion. */
export const WORKING_SHARE = 5 / 7;
/** Day of the month that stands for it. Assumed: the middle; the sun's noon height is then within 1 degree of the month's mean. */
const MONTH_DAY = 15;

/** A story shorter than this says nothing about a day, s. Assumed: 8 h, a day at work. */
const WHOLE_DAY_S = 8 * 3600;

/** The simple office day, s after midnight. Assumed: ordinary hours; later ones mean more lit hours in winter. */
const COME_S = 8 * 3600;
const LUNCH_S = 12 * 3600;
const BACK_S = 12.75 * 3600;
const GO_S = 17 * 3600;
/** One after another, s. Assumed: nobody comes or goes in step. */
const COME_APART_S = 420;
const LUNCH_APART_S = 90;
const GO_APART_S = 300;
/** A turn to the door and back in the middle of morning and afternoon, s after midnight. Assumed: one each. */
const BREAKS_S = [10 * 3600, 15 * 3600];
/** Walking, m/s. Assumed: an unhurried indoor walk. */
const WALK_MPS = 1.1;
/** A person of the story sits on a chair within this, m. Assumed: an arm's length. */
const CHAIR_REACH_M = 1.2;

function monthDays(year: number, month: number): number {
  if (month === 2) return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 29 : 28;
  return [4, 6, 9, 11].includes(month) ? 30 : 31;
}

/** The 36 days, month by month, of the year in which the story plays. */
export function yearDays(scenario: Scenario): YearDay[] {
  const { year } = parseLocalDate(scenario.start.localDate);
  const skies = Object.keys(SKY_SHARES) as (keyof typeof SKY_SHARES)[];
  return Array.from({ length: 12 }, (_, i) => i + 1).flatMap((month) =>
    skies.map((sky) => ({
      month,
      sky,
      localDate: formatLocalDate({ year, month, day: MONTH_DAY }),
      weightDays: monthDays(year, month) * WORKING_SHARE * SKY_SHARES[sky],
    })),
  );
}

/** In front of a door: outside in the corridor, and a step inside. */
function beforeDoor(door: DoorSpec, room: RoomSpec): { outM: PointM; inM: PointM } {
  const middle = door.fromM + door.widthM / 2;
  const along = (m: number): PointM => {
    if (door.wall === 'left') return [m, middle];
    if (door.wall === 'right') return [room.widthM - m, middle];
    return door.wall === 'front' ? [middle, m] : [middle, room.depthM - m];
  };
  return { outM: along(-0.4), inM: along(0.6) };
}

/** Where somebody of the story ends up: the chair near their last place, or that place. */
function seatOf(person: PersonSpec, chairs: readonly FurnitureSpec[], taken: Set<string>) {
  let atM = person.atM;
  let headingDeg = person.headingDeg;
  const inRoom = person.plan.filter((step) => step.act !== 'leave');
  for (const [i, step] of inRoom.entries()) {
    if (step.act !== 'walk') continue;
    // A way out to the door is not where one sits.
    const next = inRoom[i + 1];
    if (next && next.act !== 'walk') atM = step.toM;
  }
  let bestM = CHAIR_REACH_M;
  let best: FurnitureSpec | null = null;
  for (const chair of chairs) {
    const dx = chair.atM[0] - atM[0];
    const dy = chair.atM[1] - atM[1];
    const farM = Math.sqrt(dx * dx + dy * dy);
    if (farM > bestM || taken.has(chair.id)) continue;
    bestM = farM;
    best = chair;
  }
  if (best) {
    taken.add(best.id);
    atM = best.atM;
    headingDeg = best.turnDeg;
  }
  return { atM, headingDeg };
}

interface Seat {
  atM: PointM;
  headingDeg: number;
}

/** Steps of one person's office day; `atS`: clock to scenario time. */
function officePlan(seat: Seat, door: { outM: PointM; inM: PointM } | null, i: number, startS: number): PlanStep[] {
  const sit: PlanStep = { act: 'type', headingDeg: seat.headingDeg };
  const at = (clockS: number) => clockS - startS;
  const walk = (toM: PointM, clockS?: number): PlanStep => ({
    act: 'walk',
    toM,
    speedMps: WALK_MPS,
    ...(clockS === undefined ? {} : { fromS: at(clockS) }),
  });
  const comeIn = (clockS: number): PlanStep[] =>
    door ? [walk(door.inM, clockS), walk(seat.atM), sit] : [walk(seat.atM, clockS), sit];
  const goOut = (clockS: number): PlanStep[] =>
    door ? [walk(door.inM, clockS), walk(door.outM), { act: 'leave' }] : [{ act: 'leave', fromS: at(clockS) }];
  const turn = (clockS: number): PlanStep[] =>
    door ? [walk(door.inM, clockS), walk(seat.atM), sit] : [walk(seat.atM, clockS), sit];
  return [
    ...comeIn(COME_S + i * COME_APART_S),
    ...turn(BREAKS_S[0]! + i * COME_APART_S),
    ...goOut(LUNCH_S + i * LUNCH_APART_S),
    ...comeIn(BACK_S + i * LUNCH_APART_S),
    ...turn(BREAKS_S[1]! + i * COME_APART_S),
    ...goOut(GO_S + i * GO_APART_S),
  ];
}

/** Lead before the first person, s: Warm-up and every delay that it may have started are over by then. */
function leadS(order: YearOrder): number {
  const { settings } = order;
  const delayS = Math.max(settings.innerOffDelayS, settings.windowOffDelayS, settings.airOffDelayS);
  return Math.ceil((settings.warmUpS + delayS + 60) / 60) * 60;
}

export interface PeopleDay {
  schedule: Schedule;
  people: PersonSpec[];
  /** The day's own clock at tick 0, s after midnight. */
  startS: number;
  /** Ticks before this are not counted, s after the start. */
  countFromS: number;
  /** The day ends when all is off after this, s after the start. */
  lastS: number;
}

/** The story's own people and hours when it lasts a day; otherwise its people in a simple office day. */
export function peopleDay(order: YearOrder): PeopleDay {
  const { scenario, setup } = order;
  const { room, start, endS } = scenario;
  if (endS >= WHOLE_DAY_S) {
    const startS = clockToSeconds(start.localTime);
    const schedule: Schedule = { kind: 'story', people: scenario.people.length, fromS: startS, toS: startS + endS };
    return { schedule, people: scenario.people, startS, countFromS: 0, lastS: endS };
  }
  const lead = leadS(order);
  const startS = Math.max(0, COME_S - lead);
  const chairs = setup.furniture.filter((f) => f.kind === 'chair');
  const door = room.doors[0] ? beforeDoor(room.doors[0], room) : null;
  const taken = new Set<string>();
  const people = scenario.people.map((person, i): PersonSpec => {
    const seat = seatOf(person, chairs, taken);
    const plan = officePlan(seat, door, i, startS);
    return { ...person, atM: door?.outM ?? seat.atM, outsideAtStart: true, plan };
  });
  const toS = GO_S + (people.length - 1) * GO_APART_S;
  const schedule: Schedule = { kind: 'office', people: people.length, fromS: COME_S, toS };
  return { schedule, people, startS, countFromS: COME_S - startS, lastS: toS + 120 - startS };
}
