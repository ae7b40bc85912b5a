/** Outlines against the ranges of the command line, and against what screens, masks, height and warmth must do to them. */
import { describe, expect, it } from 'vitest';
import type { FurnitureSpec, Setup } from '../../../src/engine/types.ts';
import { detectionRangeM, medianTowardM } from '../../../src/exercise/reach/measures.ts';
import { createReachJob, type ReachWish, reachKey, reachOutlines } from '../../../src/exercise/reach/outlines.ts';
import type { FurnishedRoom } from '../../../src/exercise/reach/roomLab.ts';
import type { ReachKind, ReachOutline } from '../../../src/exercise/reach/types.ts';
import { bareRoom, bareSetup, DOME } from '../../detection/stage.ts';

interface Made {
  sizeM?: [number, number];
  heightM?: number;
  roomC?: number;
  turnDeg?: number;
  masked?: number[];
  reduced?: boolean;
  furniture?: FurnitureSpec[];
}

function made(m: Made = {}): FurnishedRoom {
  const [widthM, depthM] = m.sizeM ?? [10, 10];
  const heightM = m.heightM ?? 3;
  const roomC = m.roomC ?? 20;
  const room = {
    ...bareRoom([widthM, depthM, heightM + 0.05]),
    airTemperatureC: roomC,
    radiantTemperatureC: roomC,
  };
  const setup: Setup = {
    ...bareSetup(room),
    mount: { atM: [widthM / 2, depthM / 2], heightM, turnDeg: m.turnDeg ?? 0 },
    airTemperatureC: roomC,
    radiantTemperatureC: roomC,
    furniture: m.furniture ?? [],
  };
  return {
    model: DOME,
    room,
    setup,
    settings: { maskedSectors: m.masked ?? [], reducedSensitivity: m.reduced ?? false },
  };
}

/** Outlines asked for more than once are worked out once. */
const known = new Map<string, ReachOutline>();

function outline(m: Made, kind: ReachKind, wish: Omit<ReachWish, 'kinds'> = {}): ReachOutline {
  const key = JSON.stringify([m, kind, wish]);
  const found = known.get(key) ?? reachOutlines(made(m), { directions: 12, ...wish, kinds: [kind] }).outlines[0]!;
  known.set(key, found);
  return found;
}

function median(values: number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return (sorted[Math.floor((sorted.length - 1) / 2)]! + sorted[Math.floor(sorted.length / 2)]!) / 2;
}

const half = (o: ReachOutline) => median(o.rays.map((ray) => ray.halfM ?? 0));

/** Largest distance up to which 90 % of the tries in all directions were seen at every place: what a range states. */
function statedM(o: ReachOutline): number {
  let reachedM = 0;
  o.rays[0]!.triedM.every((radiusM, k) => {
    const share = o.rays.reduce((sum, ray) => sum + ray.share[k]!, 0) / o.rays.length;
    if (share >= 0.9) reachedM = radiusM;
    return share >= 0.9;
  });
  return reachedM;
}

const BIG: Made = { sizeM: [50, 50] };
const CONDITIONS = { model: DOME, mountingHeightM: 3, roomTemperatureC: 20 };

describe('in an empty room', () => {
  const across = () => outline(BIG, 'across', { stepM: 1, furthestM: 16 });
  const toward = () => outline(BIG, 'toward');
  const seated = () => outline(BIG, 'seated', { furthestM: 6 });

  it('the outline across is the stated range, within a step of a metre', () => {
    const stated = detectionRangeM({ ...CONDITIONS, movement: 'walkingAcross' }) / 2;
    expect(Math.abs(statedM(across()) - stated)).toBeLessThanOrEqual(1);
  });

  it('the outline toward is the stated distance, within half a metre', () => {
    expect(Math.abs(half(toward()) - medianTowardM(CONDITIONS, 'switchOn'))).toBeLessThan(0.5);
  });

  it('the outline seated is the stated range, within a step of half a metre', () => {
    const stated = detectionRangeM({ ...CONDITIONS, movement: 'seated' }) / 2;
    expect(Math.abs(statedM(seated()) - stated)).toBeLessThanOrEqual(0.5);
  });

  it('three movements have three outlines: across beyond seated beyond toward', () => {
    expect(half(across())).toBeGreaterThan(half(seated()) + 2);
    expect(half(seated())).toBeGreaterThan(half(toward()));
  });
});

const COARSE = { directions: 8, stepM: 2 };

describe('a furnished room', () => {
  const glass: FurnitureSpec = {
    id: 'glass',
    kind: 'glassScreen',
    atM: [7, 5],
    turnDeg: 90,
    widthM: 5,
    depthM: 0.05,
    heightM: 3.05,
    reflectance: 0.1,
  };

  it('lies in the shadow of a glass screen behind it, and is as before on the other side', () => {
    const free = outline({}, 'across', { stepM: 1 });
    const glazed = outline({ furniture: [glass] }, 'across', { stepM: 1 });
    const at = (o: ReachOutline, bearingDeg: number) => o.rays.find((ray) => ray.bearingDeg === bearingDeg)!;
    for (const bearing of [75, 105]) {
      expect(at(free, bearing).halfM).toBeCloseTo(at(free, bearing).limitM, 6);
      // 2.1 m to the glass; a walk at the edge of the slice slants through its plane by 1.5 m x sin 30; half a step.
      expect(at(glazed, bearing).halfM!).toBeLessThan(2.1 + 0.75 + 0.5);
    }
    for (const bearing of [225, 255, 285, 315]) expect(at(glazed, bearing)).toEqual(at(free, bearing));
    const beyond = glazed.linesM.flatMap((line) =>
      line.filter((x, i) => i % 2 === 0 && x > 8.4 && Math.abs(line[i + 1]! - 5) < 0.9),
    );
    expect(beyond).toEqual([]);
  });

  it('is cut where sectors are masked, and turns with the detector', () => {
    const masked = [2, 3, 4, 5];
    const open = outline({}, 'seated', { furthestM: 3 });
    const cut = outline({ masked }, 'seated', { furthestM: 3 });
    const turned = outline({ masked, turnDeg: 90 }, 'seated', { furthestM: 3 });
    const at = (o: ReachOutline, bearingDeg: number) => o.rays.find((ray) => ray.bearingDeg === bearingDeg)!;
    for (const bearing of [105, 135]) {
      expect(at(open, bearing).halfM!).toBeGreaterThan(2);
      expect(at(cut, bearing).halfM ?? 0).toBeLessThan(1);
      expect(at(turned, bearing + 90).halfM ?? 0).toBeLessThan(1);
    }
    for (const bearing of [255, 285]) expect(at(cut, bearing)).toEqual(at(open, bearing));
    expect(at(turned, 75).halfM!).toBeGreaterThan(2);
  });

  it('is smaller in a warm room, with reduced sensitivity, and for small movements under a higher ceiling', () => {
    const wide: Made = { sizeM: [34, 34] };
    const across = (m: Made) => half(outline({ ...wide, ...m }, 'across', COARSE));
    const cool = across({});
    expect(across({ roomC: 30 })).toBeLessThan(cool - 1);
    expect(across({ reduced: true })).toBeLessThan(0.85 * cool);
    const seated = (heightM: number) => half(outline({ ...wide, heightM }, 'seated', { directions: 8, furthestM: 6 }));
    expect(seated(4)).toBeLessThan(seated(2.5));
    const [low, high] = [2.5, 4].map((heightM) => half(outline({ ...wide, heightM }, 'across', COARSE)));
    expect(high!).toBeGreaterThan(low! + 1);
  });

  it('never reaches through a wall', () => {
    for (const kind of ['across', 'toward', 'seated'] as const) {
      const o = outline({ sizeM: [5, 4] }, kind);
      for (const ray of o.rays) expect(ray.halfM ?? 0).toBeLessThanOrEqual(ray.limitM + 1e-9);
      for (const line of o.linesM) {
        for (let i = 0; i < line.length; i += 2) {
          expect(line[i]! > 0 && line[i]! < 5 && line[i + 1]! > 0 && line[i + 1]! < 4).toBe(true);
        }
      }
    }
  });
});

describe('the work', () => {
  it('gives the same outlines however it is cut into steps', () => {
    const room = made({ sizeM: [5, 4] });
    const wish: ReachWish = { kinds: ['across', 'seated'], directions: 12 };
    const [one, other] = [createReachJob(room, wish), createReachJob(room, wish)];
    for (let k = 0; k < 100; k++) one.step();
    while (!other.result) {
      other.step();
      if (!one.result) one.step();
    }
    while (!one.result) one.step();
    expect(one.result).toEqual(other.result);
    expect(one.done).toBe(one.total);
  });

  it('is known by all that changes it, and by nothing else', () => {
    const desk: FurnitureSpec = {
      id: 'desk',
      kind: 'desk',
      atM: [3, 3],
      turnDeg: 0,
      widthM: 1.6,
      depthM: 0.8,
      heightM: 0.74,
      reflectance: 0.5,
    };
    const base = reachKey(made({ furniture: [desk] }));
    const others: Made[] = [
      { furniture: [{ ...desk, atM: [3.25, 3] }] },
      { furniture: [desk], heightM: 2.8 },
      { furniture: [desk], turnDeg: 15 },
      { furniture: [desk], roomC: 21 },
      { furniture: [desk], masked: [3] },
      { furniture: [desk], reduced: true },
    ];
    expect(new Set([base, ...others.map((m) => reachKey(made(m)))]).size).toBe(others.length + 1);
    expect(reachKey(made({ furniture: [{ ...desk, reflectance: 0.8 }] }))).toBe(base);
  });
});
