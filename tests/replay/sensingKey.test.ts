/** Which fields of a story reach the detector's lens: each changes the key, or is shown not to matter. */
import { describe, expect, it } from 'vitest';
import { sensingKey, touchesSensing } from '../../src/engine/sensingKey.ts';
import type { ControllerSettings, Scenario } from '../../src/engine/types.ts';
import { runStored } from '../../src/exercise/storedRun.ts';
import { smallStory } from '../support/smallStory.ts';

/** A story that has one of everything, the optional fields too. */
function fullStory(): Scenario {
  const small = smallStory();
  return {
    ...small,
    settings: { ...small.settings, maskedSectors: [5], releaseMarginLx: 50 },
    warmThings: [
      {
        id: 'dog',
        kind: 'dog',
        atM: [1, 3],
        heightM: 0.4,
        excessK: 6,
        on: true,
        pathM: [
          [1, 3],
          [1.6, 3.4],
        ],
        speedMps: 0.6,
        turnDeg: 0,
      },
      { id: 'radiator', kind: 'radiator', atM: [2, 3.9], heightM: 0.6, excessK: 25, on: true },
    ],
    people: [
      ...small.people,
      {
        ...small.people[0]!,
        id: 'B',
        outsideAtStart: false,
        atM: [3, 1],
        plan: [{ act: 'type', fromS: 1, forS: 200, headingDeg: 10, gestureEveryS: 9 }],
      },
    ],
    script: [{ atS: 30, input: { kind: 'press', input: 'inner' } }],
    suggested: [{ say: 'Look.', input: { kind: 'press', input: 'window' } }],
  };
}

type Path = string;

/** Every leaf as a path such as room.windows.0.widthM; empty lists and nulls are leaves. */
function leavesOf(value: unknown, path: Path = ''): Path[] {
  if (value === null || typeof value !== 'object') return [path];
  const entries = Object.entries(value);
  if (entries.length === 0) return [path];
  return entries.flatMap(([key, member]) => leavesOf(member, path === '' ? key : `${path}.${key}`));
}

function leafAt(value: unknown, path: Path): unknown {
  return path.split('.').reduce((at, key) => (at as Record<string, unknown>)[key], value);
}

/** A copy with one leaf made different. */
function changedAt(scenario: Scenario, path: Path): Scenario {
  const copy = structuredClone(scenario) as unknown as Record<string, unknown>;
  const keys = path.split('.');
  const last = keys.pop()!;
  const holder = keys.reduce((at, key) => at[key] as Record<string, unknown>, copy);
  const old = holder[last];
  if (typeof old === 'number') holder[last] = old + 0.125;
  else if (typeof old === 'boolean') holder[last] = !old;
  else holder[last] = typeof old === 'string' ? `${old} other` : 'other';
  return copy as unknown as Scenario;
}

/** Free of the lens, by the reader's own list; everything else must change the key. */
const FREE: RegExp[] = [
  /^(id|title|question|brief|seed|endS|speed|supplyAtStart)$/,
  /^(settings|script|suggested)\./,
  /^room\.maintenanceFactor$/,
  /^room\.reflectance\.(front|back|left|right|ceiling)$/,
  /^room\.(luminaires|deskPoints)\./,
  /^room\.doors\.\d+\.corridorLx$/,
  /^detectorModel\.(id|photometerTiltDeg|photometerHalfAngleDeg)$/,
];

/** Free as well where there is no window: the sun warms nothing, and no glass is cold. */
const FREE_IN_THE_DARK: RegExp[] = [
  ...FREE,
  /^(sky|room\.backWallFacesDeg|room\.reflectance\.floor)$/,
  /^(start|site)\./,
  /^room\.furniture\.\d+\.reflectance$/,
];

/** Free in the key, but compared tick by tick while the pulses are read (storedPulses.test.ts). */
const WATCHED: RegExp[] = [/^settings\.maskedSectors\./, /^script\./];

const isWatched = (path: Path) => WATCHED.some((pattern) => pattern.test(path));

/** The same room with every free field another: lamps, paint, words, settings; without windows also date and weather. */
function freelyChanged(scenario: Scenario): Scenario {
  const { room, site, detectorModel } = scenario;
  const dark = room.windows.length === 0;
  const otherSettings = Object.fromEntries(
    Object.entries(scenario.settings).map(([name, value]) => {
      if (typeof value === 'boolean') return [name, !value];
      return [name, typeof value === 'number' ? value * 1.5 + 1 : value];
    }),
  ) as unknown as ControllerSettings;
  return {
    ...scenario,
    id: 'other',
    title: 'Other',
    question: 'Other?',
    brief: 'Other.',
    seed: 77,
    endS: 200,
    speed: 3,
    supplyAtStart: !scenario.supplyAtStart,
    ...(dark && {
      sky: 'clear' as const,
      start: { localDate: '2026-07-01', localTime: '19:50', utcOffsetH: -3 },
      site: Object.fromEntries(Object.entries(site).map(([k, v]) => [k, v + 0.07])) as unknown as typeof site,
    }),
    settings: {
      ...otherSettings,
      innerMode: 'manualOn',
      windowMode: 'shortImpulse',
      innerSetpointLx: 150,
      windowSetpointLx: null,
      lampShare: 'off',
      buttonPolicy: 'onOnly',
      settingsLock: 'dialsOnly',
      maskedSectors: scenario.settings.maskedSectors,
    },
    suggested: [{ say: 'Other.', input: { kind: 'walkTest', action: 'start' } }],
    room: {
      ...room,
      backWallFacesDeg: dark ? 20 : room.backWallFacesDeg,
      maintenanceFactor: 0.6,
      reflectance: {
        ...{ front: 0.3, back: 0.31, left: 0.32, right: 0.33, ceiling: 0.5 },
        floor: dark ? 0.1 : room.reflectance.floor,
      },
      luminaires: room.luminaires.map((l) => ({
        id: `${l.id}-other`,
        row: l.row === 'inner' ? ('window' as const) : ('inner' as const),
        atM: [l.atM[0] + 0.3, l.atM[1] + 0.2] as [number, number],
        heightM: 2.2,
        lengthM: 1,
        widthM: 0.2,
        turnDeg: 90 as const,
        fluxLm: 1234,
        distribution: 'batwing' as const,
        upShare: 0.5,
      })),
      deskPoints: room.deskPoints.map((d) => ({
        id: `${d.id}-other`,
        label: 'Other',
        row: 'inner' as const,
        atM: [d.atM[0] - 0.2, d.atM[1] + 0.1] as [number, number],
        heightM: 0.9,
      })),
      doors: room.doors.map((door) => ({ ...door, corridorLx: 900 })),
      furniture: dark ? room.furniture.map((piece) => ({ ...piece, reflectance: 0.9 })) : room.furniture,
    },
    detectorModel: { ...detectorModel, id: 'other', photometerTiltDeg: 20, photometerHalfAngleDeg: 25 },
  };
}

const FULL = fullStory();
const DARK: Scenario = { ...FULL, room: { ...FULL.room, windows: [] } };

describe.each([
  ['a room with a window', FULL, FREE],
  ['a room without', DARK, FREE_IN_THE_DARK],
])('the key of what sensing depends on, in %s,', (_name, scenario, free) => {
  const key = sensingKey(scenario, 7);
  const leaves = leavesOf(scenario);
  const isFree = (path: Path) => free.some((pattern) => pattern.test(path));

  it('is asked about every field of a story that has one of everything', () => {
    expect(leaves.length).toBeGreaterThan(150);
    for (const path of ['warmThings.0.pathM.1.0', 'people.1.plan.0.gestureEveryS', 'room.doors.0.openAtStart']) {
      expect(leaves).toContain(path);
    }
  });

  it('changes with every field that is not shown to be free, and with the seed', () => {
    // A window where there was none is another room.
    const asked = leaves.filter((path) => path !== 'room.windows');
    const wrong = asked.filter((path) => (sensingKey(changedAt(scenario, path), 7) === key) !== isFree(path));
    expect(wrong).toEqual([]);
    expect(sensingKey(scenario, 8)).not.toBe(key);
  });

  it('changes with a field that nobody has thought of yet', () => {
    expect(sensingKey({ ...scenario, draughts: 1 } as Scenario, 7)).not.toBe(key);
    expect(sensingKey({ ...scenario, room: { ...scenario.room, mirrors: 1 } } as Scenario, 7)).not.toBe(key);
  });

  it('leaves free only what gives the same pulses, every free field changed at once', () => {
    const other = freelyChanged(scenario);
    const kept = leaves.filter(
      (path) => isFree(path) && !isWatched(path) && leafAt(other, path) === leafAt(scenario, path),
    );
    expect(kept).toEqual([]);
    expect(sensingKey(other, 7)).toBe(key);
    const stored = runStored(scenario, null, 70, [], undefined, 7);
    const again = runStored(other, null, 70, [], undefined, 7);
    expect(stored.store.pulses.tick.length).toBeGreaterThan(100);
    expect(again.store.pulses).toEqual(stored.store.pulses);
    expect(again.events).not.toEqual(stored.events);
  });
});

describe('an input', () => {
  it('is free only when it is the controller, its supply or a wall that hears of it', () => {
    expect(touchesSensing({ kind: 'walkTest', action: 'start' })).toBe(false);
    expect(touchesSensing({ kind: 'supply', on: false })).toBe(false);
    expect(touchesSensing({ kind: 'setReflectance', target: 'back', reflectance: 0.1 })).toBe(false);
    expect(touchesSensing({ kind: 'setReflectance', target: 'floor', reflectance: 0.1 })).toBe(true);
    expect(touchesSensing({ kind: 'setReflectance', target: 'desk', reflectance: 0.1 })).toBe(true);
    expect(touchesSensing({ kind: 'setBlind', windowId: 'window', closedShare: 1 })).toBe(true);
    expect(touchesSensing({ kind: 'moveSun', shiftS: 60, localDate: null })).toBe(true);
    expect(touchesSensing({ kind: 'setSky', sky: 'clear' })).toBe(true);
    expect(touchesSensing({ kind: 'unheardOf' } as never)).toBe(true);
  });
});
