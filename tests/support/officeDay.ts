/** A whole day in the drawing office, midnight to midnight: three people come, work, go to lunch, and leave. */
import { storyFrom } from '../../src/cli/stories.ts';
import type { PersonSpec, PlanStep, PointM, Scenario } from '../../src/engine/types.ts';

/** Inside and outside the door in the left wall, m. */
const DOOR_M: PointM = [0.6, 1.1];
const CORRIDOR_M: PointM = [-0.5, 1.1];
const LUNCH_S = 12.25 * 3600;

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

function worker(id: string, seatM: PointM, comesS: number, goesS: number, headingDeg: number): PersonSpec {
  return {
    id,
    heightM: 1.7,
    clothingClo: 0.9,
    cameFromC: 12,
    atM: CORRIDOR_M,
    headingDeg: 90,
    outsideAtStart: true,
    plan: [
      ...visit(seatM, comesS, LUNCH_S + comesS / 100, headingDeg),
      ...visit(seatM, LUNCH_S + 2700 + comesS / 80, goesS, headingDeg),
    ],
  };
}

export function officeDay(): Scenario {
  const base = storyFrom('scenarios/sun-comes-round.json')!;
  const [a, b, c] = base.people.map((person) => person.atM);
  return {
    ...base,
    id: 'office-day',
    start: { ...base.start, localTime: '00:00:00' },
    endS: 86400,
    people: [
      worker('A', a!, 8.1 * 3600, 17.1 * 3600, 0),
      worker('B', b!, 8.4 * 3600, 16.5 * 3600, 0),
      worker('C', c!, 9.0 * 3600, 18.2 * 3600, 0),
    ],
    script: [{ atS: 7 * 3600, input: { kind: 'setDoor', doorId: 'door', open: true } }],
  };
}
