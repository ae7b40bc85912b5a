/**
 * The fault cards as they stand in a room that they were not written for: put back to this room's own settings, measured
 * at its own places, and with what a card leaves to the room. Cards that need a thing the room has not are left out.
 */

import type { ButtonId, PointM, Scenario } from '../../engine/types.ts';
import type { CandidateFile, FaultCardFile } from '../../scenario/schemas/faults.ts';
import { nearest } from '../diagnose/moment.ts';
import type { Place, Requirement, Test } from '../diagnose/types.ts';
import { passedBy } from './passerBy.ts';

/** All causes are as likely until something is read. */
const PRIOR = 0.1;
/** A step inside the door, m. Assumed: past the swing of the door, before the first desk. */
const INSIDE_M = 0.9;
/** Turned round by this, degrees, a detector looks the wrong way. */
const ROUND_DEG = 180;
/** Desk factor that makes a dull desk look bright. Source: the bundled diagnosis that has this card. */
const FACTOR_TOO_HIGH = 6;
/** Presses of people who cannot agree, s after the beginning of the complaint. Assumed: every four minutes or so. */
const PRESSES_S: readonly number[] = [60, 280, 500, 740, 960, 1200];
/** The supply goes off so long before the learner comes, and stays off so long, s. */
const SUPPLY_OFF_S = 200;
const SUPPLY_GAP_S = 5;

const ROWS: readonly ButtonId[] = ['inner', 'window'];

export interface RoomOfCards {
  scenario: Scenario;
  /** The complaint begins here, and the learner comes here, s. */
  fromS: number;
  beginS: number;
}

type Change = Pick<CandidateFile, 'edit' | 'repair' | 'remedy' | 'proof' | 'draws'>;

/** Both rows pressed: which of them the complaint is about is chosen later. */
function press(atS: number) {
  return ROWS.map((input) => ({ atS, input: { kind: 'press' as const, input } }));
}

/** What a card leaves to the room; null: it needs things that this room does not have. Undefined: it leaves nothing. */
function leftToRoom(card: FaultCardFile, { scenario, fromS, beginS }: RoomOfCards): Change | null | undefined {
  switch (card.id) {
    case 'held-off-by-button':
    case 'held-on-by-button':
      return { edit: { script: press(fromS) } };
    case 'pressed-again-and-again':
      return { edit: { script: PRESSES_S.flatMap((s) => press(fromS + s)) } };
    case 'came-on-after-the-supply': {
      const atS = Math.max(1, beginS - SUPPLY_OFF_S);
      const supply = (at: number, on: boolean) => ({ atS: at, input: { kind: 'supply' as const, on } });
      return { edit: { script: [supply(atS, false), supply(atS + SUPPLY_GAP_S, true)] } };
    }
    case 'desk-factor-too-high':
      return { edit: { settings: { innerDeskFactor: FACTOR_TOO_HIGH } } };
    case 'detector-turned':
      return turned(scenario);
    case 'sees-the-corridor':
      return passedBy(scenario);
    case 'bright-enough':
      return {};
    default:
      return Object.keys(card.edit ?? {}).length > 0 || card.draws?.length ? undefined : null;
  }
}

function turned({ mount }: Scenario): Change {
  const arrow = ((mount.turnDeg % 360) + 360) % 360;
  return {
    edit: { mount: { turnDeg: mount.turnDeg > 0 ? mount.turnDeg - ROUND_DEG : mount.turnDeg + ROUND_DEG } },
    remedy: [[{ turnDeg: mount.turnDeg, withinDeg: 20 }]],
    repair: [{ kind: 'moveDetector', mount }],
    proof: {
      test: { instrument: 'look', part: 'arrow' },
      value: 'is',
      is: String((Math.round(arrow / 30) * 30) % 360),
    },
  };
}

function allows(requirement: Requirement, settings: Scenario['settings']): boolean {
  if (!('setting' in requirement)) return true;
  const value = settings[requirement.setting];
  const { atLeast = Number.NEGATIVE_INFINITY, atMost = Number.POSITIVE_INFINITY, is } = requirement;
  if (is !== undefined) return value === is;
  return typeof value === 'number' && value >= atLeast && value <= atMost;
}

/** Settings are put back to what the room had, as far as the card's remedy is met by it. */
function putBack(card: FaultCardFile, { settings }: Scenario): Change {
  if (!card.remedy.some((way) => way.every((requirement) => allows(requirement, settings)))) return {};
  const repair = card.repair.map((input) => {
    if (input.kind !== 'setSettings') return input;
    const keys = Object.keys(input.change) as (keyof typeof input.change)[];
    return { ...input, change: Object.fromEntries(keys.map((key) => [key, settings[key]])) };
  });
  return { repair };
}

/** The card's proof at a place of this room; null: it needs a desk, and there is none. */
function provedHere(card: FaultCardFile, { scenario: { room, mount } }: RoomOfCards): Change | null {
  const { test } = card.proof;
  if (!('place' in test) || room.deskPoints.some(({ id }) => id === test.place)) return {};
  const [desk] = [...room.deskPoints].sort((a, b) => nearest(a.atM, mount.atM) - nearest(b.atM, mount.atM));
  return desk ? { proof: { ...card.proof, test: { ...test, place: desk.id } } } : null;
}

/** Cards that this room can have, as candidates of a file. */
export function roomCards(cards: readonly FaultCardFile[], room: RoomOfCards): CandidateFile[] {
  return cards.flatMap((card): CandidateFile[] => {
    const left = leftToRoom(card, room);
    const proof = provedHere(card, room);
    if (left === null || proof === null) return [];
    return [{ card: card.id, prior: PRIOR, ...putBack(card, room.scenario), ...proof, ...left }];
  });
}

/** Just inside each door, and under the detector. */
export function placesOfRoom({ room, mount }: Scenario): Omit<Place, 'deskPoint'>[] {
  const doors = room.doors.map(({ id, wall, fromM, widthM }, i) => {
    const middle = fromM + widthM / 2;
    const across: Record<typeof wall, PointM> = {
      left: [INSIDE_M, middle],
      right: [room.widthM - INSIDE_M, middle],
      front: [middle, INSIDE_M],
      back: [middle, room.depthM - INSIDE_M],
    };
    const label = i === 0 ? 'just inside the door' : `just inside the door ${id}`;
    return { id: i === 0 ? 'entry' : `entry-${i + 1}`, label, atM: across[wall] };
  });
  return [...doors, { id: 'under', label: 'under the detector', atM: mount.atM }];
}

const SETTINGS_READ = [
  'innerOffDelayS',
  'windowOffDelayS',
  'innerMode',
  'windowMode',
  'innerSetpointLx',
  'windowSetpointLx',
  'innerDeskFactor',
  'windowDeskFactor',
  'lampShare',
  'brightDwellS',
  'airOnDelayS',
  'airGapLimitS',
  'settingsLock',
] as const;
/** Desks that instruments go to. Assumed: enough to tell inside from window, and few enough to choose from. */
const MOST_DESKS = 4;

/** Everything that can be tried in a room, with few parameters each. */
export function testsOfRoom({ room }: Scenario): Test[] {
  const desks = room.deskPoints.slice(0, MOST_DESKS).map(({ id }) => id);
  const places = [...placesIds(room.doors.length), ...desks];
  return [
    { instrument: 'ask' },
    { instrument: 'drawing' },
    { instrument: 'repeat' },
    ...(['clips', 'arrow', 'lightWindows', 'doors', 'lamps'] as const).map((part) => ({
      instrument: 'look' as const,
      part,
    })),
    ...SETTINGS_READ.map((key) => ({ instrument: 'settings' as const, key })),
    ...(['states', 'inner', 'window'] as const).map((page) => ({ instrument: 'handHeld' as const, page })),
    ...desks.map((place) => ({ instrument: 'luxMeter' as const, place })),
    { instrument: 'thermometer' },
    ...places.map((place) => ({ instrument: 'seenAt' as const, place })),
    ...(['inner', 'window', 'air'] as const).map((button) => ({ instrument: 'button' as const, button })),
    { instrument: 'stopwatch', output: 'innerRow', edge: 'off' },
    { instrument: 'stopwatch', output: 'windowRow', edge: 'off' },
    { instrument: 'stopwatch', output: 'airContact', edge: 'on' },
    { instrument: 'log', of: 'presses', lastMin: 60 },
    { instrument: 'log', of: 'pulses', lastMin: 10 },
    { instrument: 'watch', forMin: 5 },
    { instrument: 'cloth', forMin: 1 },
    { instrument: 'torch', side: 'inner', forMin: 1 },
    { instrument: 'torch', side: 'window', forMin: 1 },
  ];
}

function placesIds(doors: number): string[] {
  return [...Array.from({ length: Math.min(1, doors) }, () => 'entry'), 'under'];
}
