/** What a shape cannot say: ids that must exist, places that must lie in the room, dates that must be dates. */
import {
  CORRIDOR_M,
  corridorAt,
  corridorWalls,
  isInRoom,
  WALL_CLEAR_M,
  wallInTheWay,
} from '../engine/room/corridor.ts';
import type { Input, PersonSpec, PlanStep, PointM, RoomSpec, Scenario } from '../engine/types.ts';
import { MOST_STEPS, type WrittenStep, writtenOut } from './plans.ts';
import { FACES } from './schemas/room.ts';
import { MAX_PEOPLE, type StoryFile } from './schemas/story.ts';
import { sentence } from './sentences.ts';

type Path = (string | number)[];

/** Collects sentences about one file. `at` is the path of the thing judged. */
export interface Faults {
  fileName: string;
  sentences: string[];
}

function report(faults: Faults, at: Path, expected: string, found: unknown): void {
  faults.sentences.push(sentence(faults.fileName, at, expected, found));
}

/** Furthest that a clock may be from its longitude's mean time, h. Source: no inhabited zone is more than 3.5 h off. */
const MAX_ZONE_ERROR_H = 3.5;
/** Most words in the question over the picture. Source: it must be read from the last row in one glance. */
const MAX_QUESTION_WORDS = 9;

export function checkUnique(faults: Faults, at: Path, ids: readonly string[], key = 'id'): void {
  ids.forEach((id, i) => {
    const first = ids.indexOf(id);
    if (first < i) report(faults, [...at, i, key], `an id of its own (${at.join('.')}[${first}] has it too)`, id);
  });
}

function inside(room: RoomSpec, p: PointM, marginM = 0): boolean {
  return p[0] >= -marginM && p[1] >= -marginM && p[0] <= room.widthM + marginM && p[1] <= room.depthM + marginM;
}

export function checkInside(faults: Faults, at: Path, room: RoomSpec, p: PointM, marginM = 0): void {
  if (inside(room, p, marginM)) return;
  const where = marginM === 0 ? 'inside the room' : `inside the room or within ${marginM} m of it`;
  report(faults, at, `a point ${where} (x 0 to ${room.widthM} m, y 0 to ${room.depthM} m)`, p);
}

/** Where people may stand and walk: between the walls and in the corridor. */
function checkStand(faults: Faults, at: Path, room: RoomSpec, p: PointM): boolean {
  if (isInRoom(room, p) || corridorAt(room, p) !== null) return true;
  const walls = corridorWalls(room).join(' or ');
  const corridor = walls ? `, or in the corridor ${WALL_CLEAR_M} to ${CORRIDOR_M} m outside the ${walls} wall` : '';
  report(faults, at, `a point inside the room (x 0 to ${room.widthM} m, y 0 to ${room.depthM} m)${corridor}`, p);
  return false;
}

/** Nobody walks through a wall. `fromM` null: it is not known where the walk begins. */
function checkWay(faults: Faults, at: Path, room: RoomSpec, fromM: PointM | null, toM: PointM): void {
  const wall = fromM && wallInTheWay(room, fromM, toM);
  if (wall) report(faults, at, `a point that can be walked to through a door: the ${wall} wall is in the way`, toM);
}

function checkDate(faults: Faults, at: Path, date: string): void {
  const [year = 0, month = 0, day = 0] = date.split('-').map(Number);
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  const days = [31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1] ?? 0;
  if (year < 1950 || year > 2100 || day < 1 || day > days) {
    report(faults, at, 'a date that exists, from 1950 to 2100', date);
  }
}

function checkTime(faults: Faults, at: Path, time: string): void {
  const [h = 99, m = 99, s = 0] = time.split(':').map(Number);
  if (h > 23 || m > 59 || s > 59) report(faults, at, 'a time from 00:00 to 23:59:59', time);
}

/** `written` is the plan with each step's place in its file; `fromM` where it begins, null: not known, or out of sight. */
function checkSteps(
  faults: Faults,
  at: Path,
  room: RoomSpec,
  written: readonly WrittenStep[],
  fromM: PointM | null,
): void {
  let latestS = 0;
  let hereM = fromM;
  written.forEach(({ step, at: below }, i) => {
    const here = [...at, ...below];
    if (step.act === 'walk') {
      const stands = checkStand(faults, [...here, 'toM'], room, step.toM);
      if (stands) checkWay(faults, [...here, 'toM'], room, hereM, step.toM);
      hereM = stands ? step.toM : null;
    }
    if (step.fromS !== undefined) {
      if (step.fromS < latestS) {
        report(faults, [...here, 'fromS'], `a moment not before the ${latestS} s of an earlier step`, step.fromS);
      }
      latestS = Math.max(latestS, step.fromS);
    }
    const next = written[i + 1]?.step;
    const endless = step.act !== 'walk' && step.act !== 'leave' && step.forS === undefined;
    if (endless && next !== undefined && next.fromS === undefined) {
      report(
        faults,
        [...here, 'forS'],
        'a length in s, or a fromS in the next step, which is never reached',
        undefined,
      );
    }
  });
}

function checkPlan(faults: Faults, at: Path, room: RoomSpec, plan: readonly PlanStep[], fromM: PointM | null): void {
  const written = plan.map((step, i): WrittenStep => ({ step, at: [i] }));
  checkSteps(faults, at, room, written, fromM);
}

/** Whoever is not there yet may come from anywhere about: the first walk is not followed back. */
function startOf({ atM, outsideAtStart }: Pick<PersonSpec, 'atM' | 'outsideAtStart'>): PointM | null {
  return outsideAtStart ? null : atM;
}

function checkStartingPlace(faults: Faults, at: Path, room: RoomSpec, person: Omit<PersonSpec, 'plan'>): void {
  if (person.outsideAtStart) checkInside(faults, [...at, 'atM'], room, person.atM, CORRIDOR_M);
  else checkStand(faults, [...at, 'atM'], room, person.atM);
}

function checkPerson(faults: Faults, at: Path, room: RoomSpec, person: PersonSpec): void {
  checkStartingPlace(faults, at, room, person);
  checkPlan(faults, [...at, 'plan'], room, person.plan, startOf(person));
}

/** People as the file writes them; a fault inside a repeat is said once. */
export function checkStoryPeople(fileName: string, room: RoomSpec, people: StoryFile['people']): string[] {
  const faults: Faults = { fileName, sentences: [] };
  checkUnique(faults, ['people'], idsOf(people));
  people.forEach((person, i) => {
    checkStartingPlace(faults, ['people', i], room, person);
    const written = writtenOut(person.plan);
    const at = ['people', i, 'plan'];
    if (written.length > MOST_STEPS)
      report(faults, at, `at most ${MOST_STEPS} steps with repeats written out`, written.length);
    else checkSteps(faults, at, room, written, startOf(person));
  });
  return [...new Set(faults.sentences)];
}

/** Ids that inputs may name. `people` grows with addPerson in the script's order. */
interface Known {
  room: RoomSpec;
  people: string[];
  things: string[];
}

function checkRef(faults: Faults, at: Path, what: string, known: readonly string[], id: string): void {
  if (!known.includes(id)) report(faults, at, `the id of ${what} (${known.join(', ') || 'there is none'})`, id);
}

function checkInput(faults: Faults, at: Path, known: Known, input: Input): void {
  const { room } = known;
  switch (input.kind) {
    case 'addPerson':
      checkPerson(faults, [...at, 'person'], room, input.person);
      if (known.people.includes(input.person.id)) {
        report(faults, [...at, 'person', 'id'], 'a letter that nobody in the room has', input.person.id);
      } else if (known.people.length >= MAX_PEOPLE) {
        report(faults, [...at, 'person'], `nobody more, as ${MAX_PEOPLE} people are in the room`, input.person.id);
      } else known.people.push(input.person.id);
      return;
    case 'removePerson':
      checkRef(faults, [...at, 'personId'], 'a person', known.people, input.personId);
      known.people = known.people.filter((id) => id !== input.personId);
      return;
    case 'placePerson':
      checkRef(faults, [...at, 'personId'], 'a person', known.people, input.personId);
      checkStand(faults, [...at, 'atM'], room, input.atM);
      return;
    case 'setPlan':
      checkRef(faults, [...at, 'personId'], 'a person', known.people, input.personId);
      checkPlan(faults, [...at, 'plan'], room, input.plan, null);
      return;
    case 'moveSun':
      if (input.localDate !== null) checkDate(faults, [...at, 'localDate'], input.localDate);
      return;
    case 'setBlind':
      checkRef(faults, [...at, 'windowId'], 'a window', idsOf(room.windows), input.windowId);
      return;
    case 'setDoor':
      checkRef(faults, [...at, 'doorId'], 'a door', idsOf(room.doors), input.doorId);
      return;
    case 'moveDetector':
      checkMount(faults, [...at, 'mount'], room, input.mount);
      return;
    case 'setWarmThing':
      checkRef(faults, [...at, 'thingId'], 'a warm or moving thing', known.things, input.thingId);
      return;
    case 'moveFurniture':
      checkRef(faults, [...at, 'furnitureId'], 'a piece of furniture', idsOf(room.furniture), input.furnitureId);
      checkInside(faults, [...at, 'atM'], room, input.atM);
      return;
    case 'moveLuminaire':
      checkRef(faults, [...at, 'luminaireId'], 'a luminaire', idsOf(room.luminaires), input.luminaireId);
      checkInside(faults, [...at, 'atM'], room, input.atM);
      return;
    case 'setReflectance':
      checkRef(faults, [...at, 'target'], 'a face or furniture', [...FACES, ...idsOf(room.furniture)], input.target);
      return;
    default:
      return;
  }
}

function idsOf(things: readonly { id: string }[]): string[] {
  return things.map((thing) => thing.id);
}

function checkMount(faults: Faults, at: Path, room: RoomSpec, mount: Scenario['mount']): void {
  checkInside(faults, [...at, 'atM'], room, mount.atM);
  if (mount.heightM > room.heightM) {
    report(faults, [...at, 'heightM'], `at most the room's height, ${room.heightM} m`, mount.heightM);
  }
}

function checkStart(faults: Faults, scenario: Scenario): void {
  const { start, site } = scenario;
  checkDate(faults, ['start', 'localDate'], start.localDate);
  checkTime(faults, ['start', 'localTime'], start.localTime);
  const meanH = site.longitudeDeg / 15;
  // Zones on both sides of the date line name the same hour 24 h apart.
  const errorH = Math.min(...[-24, 0, 24].map((dayH) => Math.abs(start.utcOffsetH - meanH + dayH)));
  if (errorH > MAX_ZONE_ERROR_H) {
    const expected = `within ${MAX_ZONE_ERROR_H} h of the longitude's own ${meanH.toFixed(1)} h`;
    report(faults, ['start', 'utcOffsetH'], expected, start.utcOffsetH);
  }
}

/** A place where people stand, as an exercise names it. */
export function checkPlace(fileName: string, at: Path, room: RoomSpec, p: PointM): string[] {
  const faults: Faults = { fileName, sentences: [] };
  checkStand(faults, at, room, p);
  return faults.sentences;
}

export function checkStory(fileName: string, scenario: Scenario): string[] {
  const faults: Faults = { fileName, sentences: [] };
  const { room } = scenario;
  const words = scenario.question.trim().split(/\s+/).length;
  if (words > MAX_QUESTION_WORDS) {
    report(faults, ['question'], `at most ${MAX_QUESTION_WORDS} words (there are ${words})`, scenario.question);
  }
  checkStart(faults, scenario);
  checkMount(faults, ['mount'], room, scenario.mount);
  checkUnique(faults, ['warmThings'], idsOf(scenario.warmThings));
  scenario.warmThings.forEach((thing, i) => {
    checkInside(faults, ['warmThings', i, 'atM'], room, thing.atM);
    (thing.pathM ?? []).forEach((p, j) => {
      checkInside(faults, ['warmThings', i, 'pathM', j], room, p);
    });
  });
  const known: Known = { room, people: idsOf(scenario.people), things: idsOf(scenario.warmThings) };
  let latestS = 0;
  scenario.script.forEach((line, i) => {
    if (line.atS < latestS) {
      report(faults, ['script', i, 'atS'], `a moment not before the ${latestS} s of an earlier line`, line.atS);
    }
    latestS = Math.max(latestS, line.atS);
    checkInput(faults, ['script', i, 'input'], known, line.input);
  });
  (scenario.suggested ?? []).forEach((suggestion, i) => {
    if (suggestion.input) checkInput(faults, ['suggested', i, 'input'], known, suggestion.input);
  });
  return faults.sentences;
}

/** For files of inputs: judged against the story they are meant for. */
export function checkInputs(fileName: string, scenario: Scenario, inputs: readonly Input[]): string[] {
  const faults: Faults = { fileName, sentences: [] };
  const known: Known = { room: scenario.room, people: idsOf(scenario.people), things: idsOf(scenario.warmThings) };
  for (const line of scenario.script) {
    if (line.input.kind === 'addPerson') known.people.push(line.input.person.id);
  }
  inputs.forEach((input, i) => {
    checkInput(faults, ['inputs', i, 'input'], known, input);
  });
  return faults.sentences;
}
