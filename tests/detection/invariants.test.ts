import { describe, expect, it } from 'vitest';
import type { FurnitureSpec } from '../../src/engine/types.ts';
import { mulberry } from './random.ts';
import { bareRoom, bareSetup, createStage, MANIKIN, peakUv, runStage, setRadiance, type TestBody } from './stage.ts';

/** A figure gliding along y at `xM`, 1 m/s, from `fromM`; centre of the room is (20, 20). */
const gliding =
  (owner: number, xM: number, fromM: number, speedMps = 1) =>
  (step: number): TestBody => ({ owner, atM: [xM, fromM + step * 0.02 * speedMps], parts: MANIKIN });

const first = gliding(0, 24.5, 21);
const SIXTY = 30;

describe('the signal', () => {
  it('is nothing at all from a body at the radiance of its background, at any speed', () => {
    for (const speed of [0.3, 1, 3]) {
      const stage = createStage();
      setRadiance(stage.radiance, 0, 0);
      expect(peakUv(runStage(stage, SIXTY, (k) => [gliding(0, 24.5, 21, speed)(k)]))).toBe(0);
    }
  });

  it('turns over, and nothing else, when the contrast turns over', () => {
    const warm = runStage(createStage(), SIXTY, (k) => [first(k)]);
    const cold = createStage();
    setRadiance(cold.radiance, 0, -1);
    const mirrored = runStage(cold, SIXTY, (k) => [first(k)]);
    for (let c = 0; c < 4; c++) {
      expect(mirrored.signalUv[c]).toEqual(warm.signalUv[c]!.map((uv) => (uv === 0 ? uv : -uv)));
    }
    expect(mirrored.pulses.map((p) => [p.tick, p.polarity])).toEqual(
      warm.pulses.map((p) => [p.tick, p.polarity === 1 ? -1 : 1]),
    );
    expect(warm.pulses.length).toBeGreaterThan(4);
  });

  it('of two people who do not hide each other is the sum of their signals, to 1e-9 of its peak', () => {
    const second = gliding(1, 20.5, 26);
    const a = runStage(createStage(), SIXTY, (k) => [first(k)]);
    const b = runStage(createStage(), SIXTY, (k) => [second(k)]);
    const both = runStage(createStage(), SIXTY, (k) => [first(k), second(k)]);
    const peak = peakUv(both);
    expect(peak).toBeGreaterThan(50);
    for (let c = 0; c < 4; c++) {
      both.signalUv[c]!.forEach((uv, k) => {
        // The stage stores signals as 32-bit numbers: 6e-8 of their size.
        expect(Math.abs(uv - a.signalUv[c]![k]! - b.signalUv[c]![k]!)).toBeLessThan(3e-7 * peak);
      });
    }
    const state = (run: TestBody[]) => {
      const stage = createStage();
      runStage(stage, 1, () => run);
      return stage.state.tracks.map((t) => t.fluxW);
    };
    const together = state([first(9), second(9)]);
    [state([first(9)])[0]!, state([second(9)])[0]!].forEach((alone, i) => {
      alone.forEach((w, c) => {
        expect(Math.abs(w - together[i]![c]!)).toBeLessThanOrEqual(1e-9 * Math.abs(w));
      });
    });
  });

  it('of somebody hidden behind another is less than when alone', () => {
    const alone = createStage();
    const hidden = createStage();
    const back: TestBody = { owner: 1, atM: [26, 23], parts: MANIKIN };
    const front: TestBody = { owner: 0, atM: [25.4, 22.7], parts: MANIKIN };
    runStage(alone, 1, () => [back]);
    runStage(hidden, 1, () => [front, back]);
    const seen = (stage: typeof alone, i: number) =>
      stage.state.tracks[i]!.weights.reduce((sum, w) => sum + Math.abs(w), 0);
    expect(seen(hidden, 1)).toBeLessThan(0.9 * seen(alone, 0));
  });

  it('of somebody behind the end of something wide is nothing', () => {
    const stage = createStage();
    const back: TestBody = { owner: 1, atM: [26, 20], parts: MANIKIN };
    const wide: TestBody = {
      owner: 0,
      atM: [24.6, 20],
      parts: [{ ...MANIKIN[0]!, centreM: [0, 1.6, 1.2], halfM: [0.1, 2.6, 1.8] }],
    };
    runStage(stage, 1, () => [wide, back]);
    expect(stage.state.tracks[1]!.weights.filter((w) => w !== 0)).toEqual([]);
  });

  it('does not come through glass, and comes over a low screen', () => {
    const room = bareRoom();
    const sheet = (kind: 'glassScreen' | 'screen', heightM: number): FurnitureSpec => ({
      id: 's',
      kind,
      atM: [22, 20],
      turnDeg: 90,
      widthM: 30,
      depthM: 0.04,
      heightM,
      reflectance: 0.5,
    });
    const peakBehind = (furniture: FurnitureSpec[]) =>
      peakUv(runStage(createStage(room, bareSetup(room, { furniture })), SIXTY, (k) => [first(k)]));
    const open = peakBehind([]);
    expect(peakBehind([sheet('glassScreen', 3.2)])).toBe(0);
    expect(peakBehind([sheet('screen', 3.2)])).toBe(0);
    expect(peakBehind([sheet('screen', 1.2)])).toBeGreaterThan(0.6 * open);
    expect(peakBehind([sheet('screen', 2.2)])).toBeLessThan(0.8 * open);
  });

  it('stays the same when room and detector turn together', () => {
    // The same figure glides at four quarter turns; the channel moves on with it.
    const turned = [0, 90, 180, 270].map((deg) => {
      const room = bareRoom();
      const setup = bareSetup(room, { mount: { atM: [20, 20], heightM: 3, turnDeg: deg } });
      const s = Math.round(Math.sin((deg * Math.PI) / 180));
      const c = Math.round(Math.cos((deg * Math.PI) / 180));
      const ball = [
        {
          kind: 'clothing' as const,
          centreM: [0, 0, 1] as [number, number, number],
          halfM: [0.2, 0.2, 0.2] as [number, number, number],
        },
      ];
      return runStage(createStage(room, setup), SIXTY, (k) => {
        const [x, y] = [4.5, 1 + k * 0.02];
        return [{ owner: 0, atM: [20 + x * c + y * s, 20 - x * s + y * c], parts: ball }];
      });
    });
    const peak = peakUv(turned[0]!);
    expect(peak).toBeGreaterThan(20);
    for (const run of turned) {
      for (let c = 0; c < 4; c++) {
        run.signalUv[c]!.forEach((uv, k) => {
          expect(Math.abs(uv - turned[0]!.signalUv[c]![k]!)).toBeLessThan(1e-3 * peak);
        });
      }
    }
  });
});

describe('masks', () => {
  it('blind their own sector and no other', () => {
    // Bearing 45-60 degrees from the arrow: sector 1 (30-60).
    const at = (k: number): TestBody => {
      const bearing = ((35 + k * 0.12) * Math.PI) / 180;
      return { owner: 0, atM: [20 + 5 * Math.sin(bearing), 20 + 5 * Math.cos(bearing)], parts: MANIKIN };
    };
    const with_ = (maskedSectors: number[]) => {
      const stage = createStage();
      stage.maskedSectors = maskedSectors;
      return peakUv(runStage(stage, SIXTY, (k) => [at(k)]));
    };
    const open = with_([]);
    expect(open).toBeGreaterThan(100);
    expect(with_([1])).toBe(0);
    expect(with_([0, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11])).toBeCloseTo(open, 3);
  });

  it('share the view without loss: what twelve single sectors see adds up to the whole, wherever the body is', () => {
    for (const at of [
      [20.2, 20.1],
      [20, 25],
      [24, 20.3],
      [16, 23],
      [23, 15],
    ] as [number, number][]) {
      const weigh = (maskedSectors: number[]) => {
        const stage = createStage();
        stage.maskedSectors = maskedSectors;
        runStage(stage, 1, () => [{ owner: 0, atM: at, parts: MANIKIN }]);
        return stage.state.tracks[0]!.weights;
      };
      const all = Array.from({ length: 12 }, (_, k) => k);
      const sum = new Array<number>(24).fill(0);
      for (const open of all)
        weigh(all.filter((k) => k !== open)).forEach((w, k) => {
          sum[k]! += w;
        });
      const whole = weigh([]);
      const size = Math.max(...whole.map(Math.abs));
      expect(size).toBeGreaterThan(0);
      for (let k = 0; k < 24; k++) expect(Math.abs(whole[k]! - sum[k]!)).toBeLessThan(1e-9 * size);
    }
  });

  it('turn with the detector', () => {
    const room = bareRoom();
    const setup = bareSetup(room, { mount: { atM: [20, 20], heightM: 3, turnDeg: 90 } });
    const seenAt = (bearingDeg: number) => {
      const stage = createStage(room, setup);
      stage.maskedSectors = [0];
      const b = (bearingDeg * Math.PI) / 180;
      return peakUv(
        runStage(stage, SIXTY, (k) => [
          { owner: 0, atM: [20 + (4 + k * 0.005) * Math.sin(b), 20 + (4 + k * 0.005) * Math.cos(b)], parts: MANIKIN },
        ]),
      );
    };
    // Sector 0 covers bearings 0-30 from the arrow, which points to 90 in the room.
    expect(seenAt(105)).toBe(0);
    expect(seenAt(15)).toBeGreaterThan(0);
  });
});

describe('the hand of the stage manager', () => {
  const standing = (x: number): TestBody => ({ owner: 0, atM: [x, 24], parts: MANIKIN, key: x });

  it('makes no pulse when it sets somebody down elsewhere', () => {
    const move = (k: number) => [standing(k < 50 ? 22 : 24)];
    expect(peakUv(runStage(createStage(), SIXTY, move, { placedOwners: (tick) => (tick === 10 ? [0] : []) }))).toBe(0);
    expect(peakUv(runStage(createStage(), SIXTY, move))).toBeGreaterThan(25);
  });

  it('makes no pulse when somebody is added, is taken out, or was there from the start', () => {
    const stage = createStage();
    const run = runStage(stage, SIXTY, (k) => (k < 40 || k > 90 ? [] : [standing(22)]));
    expect(peakUv(run)).toBeLessThan(1e-6);
    expect(peakUv(runStage(createStage(), SIXTY, () => [standing(22)]))).toBe(0);
  });

  it('makes no pulse when it sets another temperature, though the contrast jumps', () => {
    const warmed = (told: boolean) => {
      const stage = createStage();
      runStage(stage, 5, () => [standing(22)]);
      setRadiance(stage.radiance, 0, 3);
      return peakUv(runStage(stage, 20, () => [standing(22)], { sceneChanged: (tick) => told && tick === 0 }));
    };
    expect(warmed(true)).toBeLessThan(1e-6);
    expect(warmed(false)).toBeGreaterThan(10);
  });

  it('makes no pulse when masks are clipped on or off', () => {
    const stage = createStage();
    runStage(stage, 5, () => [standing(22)]);
    stage.maskedSectors = [0, 1, 2];
    expect(peakUv(runStage(stage, 20, () => [standing(22)]))).toBeLessThan(1e-6);
  });
});

describe('the state', () => {
  it('continues identically after a trip through JSON', () => {
    const body = (k: number) => [first(k), gliding(1, 17, 25, -0.7)(k)];
    const keyed = (k: number) => body(k).map((b, i) => ({ ...b, key: k * 2 + i }));
    const whole = createStage();
    const uninterrupted = runStage(whole, 60, keyed, { noise: true });
    const cut = createStage();
    runStage(cut, 25, keyed, { noise: true });
    const resumed = { ...createStage(), state: JSON.parse(JSON.stringify(cut.state)) };
    const rest = runStage(resumed, 35, (k) => keyed(k + 125), { noise: true });
    for (let c = 0; c < 4; c++) expect(rest.signalUv[c]).toEqual(uninterrupted.signalUv[c]!.slice(125));
    expect(JSON.stringify(resumed.state)).toBe(JSON.stringify(whole.state));
  });

  it('names the body that moved as the cause of a pulse, where it is, by bearing from the arrow', () => {
    const room = bareRoom();
    const setup = bareSetup(room, { mount: { atM: [20, 20], heightM: 3, turnDeg: 30 } });
    const still: TestBody = { owner: 0, atM: [25, 21], parts: MANIKIN, key: 1 };
    const run = runStage(createStage(room, setup), 30, (k) => [still, gliding(1, 24.5, 23)(k)]);
    expect(run.pulses.length).toBeGreaterThan(0);
    for (const pulse of run.pulses) {
      const at = gliding(1, 24.5, 23)(pulse.tick * 5 + pulse.subStep).atM;
      expect(Math.hypot(pulse.atM![0] - at[0], pulse.atM![1] - at[1])).toBeLessThan(0.15);
      const bearing = (Math.atan2(at[0] - 20, at[1] - 20) * 180) / Math.PI - 30;
      expect(Math.abs(pulse.bearingDeg! - bearing)).toBeLessThan(3);
    }
  });
});

describe('odd places', () => {
  it('never give anything but finite weights: on a ladder, head beside the lens, behind a wall, straight below (seed 3)', () => {
    const next = mulberry(3);
    const stage = createStage(bareRoom([6, 5, 3.1]));
    for (let k = 0; k < 400; k++) {
      const upM = 2.2 * next();
      const parts = MANIKIN.map((p) => ({ ...p, centreM: [p.centreM[0], p.centreM[1], p.centreM[2] + upM] as const }));
      const spread = k % 3 === 0 ? 0.2 : 8;
      const atM: [number, number] = [3 + spread * (next() - 0.5), 2.5 + spread * (next() - 0.5)];
      runStage(stage, 1, () => [{ owner: 0, atM, parts: parts as unknown as TestBody['parts'] }]);
      expect(stage.state.tracks[0]!.weights.every(Number.isFinite)).toBe(true);
      // No cell can weigh more than the whole lens.
      expect(Math.max(...stage.state.tracks[0]!.weights.map(Math.abs))).toBeLessThan(5e-3);
    }
  });
});
