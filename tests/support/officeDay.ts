/** Twenty-four hours in the drawing office from half past seven: three people come, work, go to lunch, and leave. */
import { storyFrom } from '../../src/cli/stories.ts';
import type { PersonSpec, PlanStep, PointM, Scenario } from '../../src/engine/types.ts';

/** Inside and outside the door in the left wall, m. */
const DOOR_M: PointM = [0.6, 1.1];
const CORRIDOR_M: PointM = [-0.5, 1.1];
/** The day begins at 07:30; instants of people count from there, s. */
const at = (clockH: number) => (clockH - 7.5) * 3600;
const LUNCH_S = at(12.25);

/** At the desk until `toS`: quiet typing and reading, now and then a reach or a lean. */
function work(fromS: number, toS: number, headingDeg: number): PlanStep[] {
  const steps: PlanStep[] = [];
  for (let s = fromS; s < toS; s += 1500) {
    steps.push(
      { act: 'type', forS: 600, headingDeg, gestureEveryS: 50 },
      { act: 'reach', forS: 60, headingDeg, gestureEveryS: 30 },
      { act: 'read', forS: 800, headingDeg, gestureEveryS: 70 },
      { act: 'lean', forS: 40, headingDeg, gestureEveryS: 20 },
    );
  }
  return steps;
}

function visit(seatM: PointM, fromS: number, toS: number, headingDeg: number): PlanStep[] {
  return [
    { act: 'walk', toM: DOOR_M, speedMps: 1.1, fromS },
    { act: 'walk', toM: seatM, speedMps: 1 },
    ...work(fromS, toS - 60, headingDeg),
    { act: 'walk', toM: DOOR_M, speedMps: 1.2, fromS: toS },
    { act: 'walk', toM: CORRIDOR_M, speedMps: 1.2 },
    { act: 'leave' },
  ];
}

function worker(id: string, seatM: PointM, comesS: number, goesS: number): PersonSpec {
  const morning = visit(seatM, comesS, Math.min(goesS, LUNCH_S + comesS / 20), 0);
  const afternoon = visit(seatM, LUNCH_S + 2700 + comesS / 20, goesS, 0);
  return {
    id,
    heightM: 1.7,
    clothingClo: 0.9,
    cameFromC: 12,
    atM: CORRIDOR_M,
    headingDeg: 90,
    outsideAtStart: true,
    plan: goesS > LUNCH_S + 3600 ? [...morning, ...afternoon] : morning,
  };
}

export function officeDay(): Scenario {
  const base = storyFrom('scenarios/sun-comes-round.json')!;
  const [a, b, c] = base.people.map((person) => person.atM);
  return {
    ...base,
    id: 'office-day',
    start: { ...base.start, localTime: '07:30:00' },
    endS: 86400,
    people: [worker('A', a!, at(8.1), at(16.1)), worker('B', b!, at(8.4), at(12)), worker('C', c!, at(9.0), at(11.2))],
    script: [{ atS: 60, input: { kind: 'setDoor', doorId: 'door', open: true } }],
  };
}
