/**
 * Repairs judged by the room that they leave. What hangs, stands, turns or blows can be put right in more ways than a
 * card can list: there the complaint's own scene decides, and what it does not need was changed in vain.
 */
import type { Scenario, SimState } from '../../engine/types.ts';
import { losesNobody } from './clipsPutOn.ts';
import { type ComplaintResult, repeatComplaint, type SetUp, setUpOf } from './complaint.ts';
import { changesLeft, judgeRepair, type RepairJudged, settingsOf } from './repair.ts';
import type { Complaint, FaultCard, Requirement } from './types.ts';

/** About the place of things and what they do, not about what is set. */
function isSiting(requirement: Requirement): boolean {
  return !('setting' in requirement || 'phase' in requirement || 'lightWindowsClean' in requirement);
}

/** Whether a change can be a way of its own: places, things, doors; and clips, if those put on blind the room to nobody. */
function mayCount(name: string, scenario: Scenario, begin: SimState, end: SimState): boolean {
  if (name === 'mount' || /^(thing|door|furniture) /.test(name)) return true;
  if (name !== 'maskedSectors') return false;
  const [was, now] = [settingsOf(begin).maskedSectors, settingsOf(end).maskedSectors];
  return now.every((sector) => was.includes(sector)) || losesNobody(scenario, begin, end);
}

/** `setUp` with one change put back as it was in `begin`. */
function without(name: string, setUp: SetUp, begin: SetUp): SetUp {
  if (name === 'mount') return { ...setUp, mount: begin.mount };
  if (name === 'maskedSectors') {
    return { ...setUp, settings: { ...setUp.settings, maskedSectors: begin.settings.maskedSectors } };
  }
  const id = name.slice(name.indexOf(' ') + 1);
  const back = <T>(now: readonly T[], was: readonly T[], idOf: (one: T) => string): T[] =>
    now.map((one) => (idOf(one) === id ? (was.find((other) => idOf(other) === id) ?? one) : one));
  if (name.startsWith('thing ')) return { ...setUp, things: back(setUp.things, begin.things, (thing) => thing.id) };
  if (name.startsWith('door ')) return { ...setUp, doors: back(setUp.doors, begin.doors, (door) => door.doorId) };
  return { ...setUp, furniture: back(setUp.furniture, begin.furniture, (piece) => piece.id) };
}

export interface JudgedByRoom extends RepairJudged {
  /** The complaint played again in the room as it is left. */
  scene: ComplaintResult;
}

/** `scenario`: the room with its fault, as its story begins; `begin` and `end`: as it was found and as it is left. */
export function judgeByRoom(
  { remedy }: Pick<FaultCard, 'remedy'>,
  scenario: Scenario,
  complaint: Complaint,
  begin: SimState,
  end: SimState,
): JudgedByRoom {
  const listed = judgeRepair(remedy, begin, end);
  const setUp = setUpOf(end);
  const scene = repeatComplaint(scenario, setUp, complaint);
  // A way that is met by its numbers and leaves the client where he was puts nothing right.
  if (scene.holds) return { ...listed, done: false, scene };
  if (listed.done || !remedy.some((way) => way.length > 0 && way.every(isSiting))) return { ...listed, scene };
  const found = setUpOf(begin);
  const left = changesLeft(begin, end);
  const counting = left.filter((name) => mayCount(name, scenario, begin, end));
  if (counting.length === 0) return { ...listed, scene };
  let needed = setUp;
  const vain = counting.filter((name) => {
    const less = without(name, needed, found);
    if (repeatComplaint(scenario, less, complaint).holds) return false;
    needed = less;
    return true;
  });
  // The complaint would be gone without any of them: then it is not they that put it right.
  if (vain.length === counting.length) return { ...listed, scene };
  return { done: true, needless: left.filter((name) => vain.includes(name) || !counting.includes(name)), scene };
}
