/** People among other people, screens and warm things. Trade rules are common practice without a source. */
import { describe, expect, it } from 'vitest';
import { buildMovementTables } from '../../src/engine/detection/sense.ts';
import { bandRadiance8to14 } from '../../src/engine/heat/planck.ts';
import type { WarmThingSpec } from '../../src/engine/types.ts';
import { labPerson, peakWhile, placeAt, switchOnAtS, watchFor } from '../../src/exercise/reach/lab.ts';
import { crossingTriggers, gestureHolds } from '../../src/exercise/reach/measures.ts';
import { bareRoom, bareSetup, createStage, DOME, peakUv, runStage, setRadiance, type TestBody } from './stage.ts';
import { across, lab, median, quiet, sheet } from './walks.ts';

const three = lab();

describe('screens', () => {
  it('of glass show the walker to the eye and not to the detector', () => {
    const glazed = lab(3, 20, {
      furniture: [sheet('a', 'glassScreen', [25, 27], 0, 3.05), sheet('b', 'glassScreen', [27, 25], 90, 3.05)],
    });
    expect(peakWhile(quiet(glazed, [across(glazed, 5, 45)]), 4)).toBe(0);
    expect(peakWhile(quiet(three, [across(three, 5, 45)]), 4)).toBeGreaterThan(100);
  });

  it('of half height hide legs and leave the torso; of full height hide all', () => {
    const peak = (heightM: number) => {
      const l = lab(3, 20, { furniture: [sheet('a', 'screen', [25, 28], 0, heightM)] });
      return median([-20, -10, 0, 10, 20].map((b) => peakWhile(quiet(l, [across(l, 5, b)]), 4)));
    };
    const none = median([-20, -10, 0, 10, 20].map((b) => peakWhile(quiet(three, [across(three, 5, b)]), 4)));
    expect(peak(1.2)).toBeGreaterThan(0.9 * none);
    expect(peak(1.5)).toBeGreaterThan(0.5 * none);
    const high = peak(2.1);
    expect(high).toBeLessThan(0.85 * none);
    expect(high).toBeGreaterThan(0.1 * none);
    expect(peak(3.05)).toBe(0);
  });

  it('of full height hide also whoever walks right behind them', () => {
    const close = lab(3, 20, { furniture: [sheet('a', 'screen', [25, 29.5], 0, 3.05)] });
    expect(peakWhile(quiet(close, [across(close, 5, 0)]), 4)).toBe(0);
  });
});

describe('two people', () => {
  const peakPair = (gapM: number) => {
    const one = across(three, 7, 45);
    const two = across(three, 7 + gapM, 45 + 14 * gapM);
    return peakWhile(quiet(three, gapM === 0 ? [one] : [one, two]), 4, [0]);
  };

  it('in one quadrant interfere: in step they give more or less than one alone', () => {
    const single = peakPair(0);
    const pairs = [0.3, 0.5, 0.7, 0.9, 1.1, 1.3].map(peakPair);
    expect(Math.max(...pairs)).toBeGreaterThan(1.2 * single);
    expect(Math.min(...pairs)).toBeLessThan(0.95 * single);
  });

  it('in different quadrants never do', () => {
    const alone = peakWhile(quiet(three, [across(three, 5, 40)]), 4, [0]);
    const both = peakWhile(quiet(three, [across(three, 5, 40), across(three, 5, 220)]), 4, [0]);
    expect(both).toBe(alone);
  });
});

describe('the mount', () => {
  it('from 3 m up to 4 m gains range for walkers and loses small movements', () => {
    const four = lab(4);
    const bearings = Array.from({ length: 15 }, (_, k) => 24 * k + 5);
    const farShare = (l: typeof three, r: number) => bearings.filter((b, k) => crossingTriggers(l, r, b, 1, k)).length;
    expect(farShare(four, 16)).toBeGreaterThan(farShare(three, 16));
    const reachShare = (l: typeof three) =>
      bearings
        .flatMap((b, k) => [1, 2, 3].map((r) => gestureHolds(l, r, b + 8 * r, (b * 5) % 360, 'type', k)))
        .filter(Boolean).length;
    expect(reachShare(four)).toBeLessThan(reachShare(three));
  });

  it('from 3 m up to 4 m opens gaps between the rings, and loses slow walkers', () => {
    const seen = (l: typeof three, radiusM: number, speedMps: number, walks: number) =>
      Array.from({ length: walks }, (_, k) =>
        crossingTriggers(l, radiusM, (360 / walks) * k + 3.75 * Math.floor((4 * k) / walks), speedMps, k),
      ).filter(Boolean).length;
    /** How many of 24 walkers more are seen further out than where they are seen worst. */
    const gap = (l: typeof three) => {
      const shares = [12, 13.5, 15].map((radiusM) => seen(l, radiusM, 1, 24));
      return Math.max(...shares.map((share, k) => Math.max(...shares.slice(k)) - share));
    };
    const four = lab(4);
    expect(gap(three)).toBeLessThanOrEqual(1);
    expect(gap(four)).toBeGreaterThanOrEqual(4);
    const slow = (l: typeof three) => [5, 6].reduce((sum, radiusM) => sum + seen(l, radiusM, 0.15, 12), 0);
    expect(slow(four)).toBeLessThan(0.8 * slow(three));
  });

  it('turned by 4 degrees changes which marginal walks are seen, not how many', () => {
    const turned = lab(3, 20, { mount: { atM: [25, 25], heightM: 3, turnDeg: 4 } });
    const bearings = Array.from({ length: 24 }, (_, k) => 15 * k + 2);
    const peaks = (l: typeof three) => bearings.map((b) => peakWhile(quiet(l, [across(l, 11, b)]), 4));
    const straight = peaks(three);
    const other = peaks(turned);
    expect(straight.some((uv, k) => Math.abs(uv - other[k]!) > 0.1 * uv)).toBe(true);
    expect(Math.abs(median(other) / median(straight) - 1)).toBeLessThan(0.15);
  });
});

describe('warm things', () => {
  /** A cloth 8 K above the room, 1.0 by 1.6 m, seen at 5 m; sways by 15 cm at .6 Hz. */
  const curtain = (along: 'sideways' | 'inOut', bearingDeg: number) => {
    const stage = createStage();
    setRadiance(stage.radiance, 0, 0);
    stage.radiance[4] = 0.9 * (bandRadiance8to14(28) - bandRadiance8to14(20));
    const b = (bearingDeg * Math.PI) / 180;
    const out = [Math.sin(b), Math.cos(b)] as const;
    return peakUv(
      runStage(stage, 60, (k): TestBody[] => {
        const sway = 0.15 * Math.sin(2 * Math.PI * 0.6 * k * 0.02) * Math.min(1, k / 50);
        const [dx, dy] = along === 'sideways' ? [out[1] * sway, -out[0] * sway] : [out[0] * sway, out[1] * sway];
        return [
          {
            owner: 0,
            atM: [20 + 5 * out[0] + dx, 20 + 5 * out[1] + dy],
            parts: [
              {
                kind: 'thing',
                centreM: [0, 0, 1.2],
                halfM: [0.5 * Math.abs(out[1]) + 0.02, 0.5 * Math.abs(out[0]) + 0.02, 0.8],
              },
            ],
          },
        ];
      }),
    );
  };

  it('swaying across the beams trip the detector; along the line of sight they are over three times weaker', () => {
    // Along the axes, where the cloth is square to the line of sight.
    const bearings = [0, 90, 180, 270];
    const sideways = median(bearings.map((b) => curtain('sideways', b)));
    const inOut = median(bearings.map((b) => curtain('inOut', b)));
    expect(sideways).toBeGreaterThan(60);
    expect(inOut).toBeLessThan(sideways / 3);
  });

  it('that warm slowly never trip it: a floor patch, 6 K in 300 s', () => {
    const stage = createStage(bareRoom(), bareSetup(bareRoom()));
    let peak = 0;
    for (let s = 0; s < 900; s++) {
      stage.radiance[4] = bandRadiance8to14(20 + 6 * (1 - Math.exp(-s / 300))) - bandRadiance8to14(20);
      const patch: TestBody = {
        owner: 0,
        atM: [22.1, 22.1],
        key: 1,
        parts: [{ kind: 'thing', centreM: [0, 0, 0.003], halfM: [0.56, 0.56, 0.002] }],
      };
      peak = Math.max(peak, peakUv(runStage(stage, 10, () => [patch])));
    }
    // Radiance in steps of a second, coarser than it is in truth.
    expect(peak).toBeLessThan(3);
  });

  const dog = (on: boolean): WarmThingSpec[] => [
    {
      id: 'dog',
      kind: 'dog',
      atM: [28, 29],
      heightM: 0.6,
      excessK: 6,
      on,
      pathM: [
        [28, 29],
        [31, 27],
      ],
      speedMps: 1,
    },
  ];

  it('that walk are seen like anybody: a dog trips it', () => {
    const l = lab(3, 20, { warmThings: dog(true) });
    const seen = switchOnAtS(watchFor(quiet(l, []), 6, 'switchOn'));
    expect(seen).not.toBe(null);
    const away = lab(3, 20, { warmThings: dog(false) });
    expect(watchFor(quiet(away, []), 6, 'hold')).toEqual([]);
  });

  it('behind a person matter: a hot radiator hidden by a walker makes the signal smaller', () => {
    const walker = (l: typeof three) => peakWhile(quiet(l, [across(l, 6, 0)]), 4);
    expect(walker(three)).toBeGreaterThan(60);
    const room = bareRoom();
    const patch = {
      minM: [17, 28, 0] as [number, number, number],
      maxM: [23, 28.1, 3] as [number, number, number],
      excessK: 4,
    };
    const plain = createStage(room, bareSetup(room));
    const warm = createStage(room, bareSetup(room));
    warm.tables = buildMovementTables(DOME, room, bareSetup(room), [patch]);
    const at = (k: number): TestBody[] => [
      {
        owner: 0,
        atM: [19 + 0.02 * k, 26.5],
        parts: [{ kind: 'clothing', centreM: [0, 0, 1.5], halfM: [0.2, 0.2, 0.3] }],
      },
    ];
    const without = peakUv(runStage(plain, 20, at));
    const before = peakUv(runStage(warm, 20, at));
    expect(without).toBeGreaterThan(20);
    expect(before).toBeLessThan(0.6 * without);
  });

  it('that blow at the dome raise its noise, and not from where they belong', () => {
    const outlet = (distanceM: number): WarmThingSpec[] => [
      { id: 'o', kind: 'warmAirOutlet', atM: [25 + distanceM, 25], heightM: 3, excessK: 15, on: true },
    ];
    const noise = (things: WarmThingSpec[]) => lab(3, 20, { warmThings: things }).tables.inputNoiseUv;
    const still = noise([]);
    expect(noise(outlet(1)) / still).toBeGreaterThan(3);
    expect(noise(outlet(3)) / still).toBeLessThan(1.1);
  });
});

describe('standing still', () => {
  it('costs nothing: unmoved people are not weighed again', () => {
    const people = Array.from({ length: 8 }, (_, k) =>
      labPerson(three, placeAt(three, 3 + k, 40 * k), [{ act: 'standStill' }]),
    );
    const watch = quiet(three, people);
    watchFor(watch, 5, null);
    const before = JSON.stringify(watch.state.tracks.map((t) => [t.poseKey, t.weights]));
    watchFor(watch, 5, null);
    expect(JSON.stringify(watch.state.tracks.map((t) => [t.poseKey, t.weights]))).toBe(before);
  });
});
