import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { PersonAnswer } from '../../src/engine/personSight.ts';
import { quadrantName, sightSentence, signalWords, uvBeside } from '../../src/report/text/signal.ts';

const VIEW = {
  silhouetteSr: 0.04,
  inBeams: 0.4,
  betweenBeams: 0.6,
  masked: 0,
  behindThings: 0,
  behindPeople: 0,
  outOfReach: 0,
  hiderBox: null,
  contrast: 3,
};

function answer(change: Partial<PersonAnswer>): PersonAnswer {
  return {
    personId: 'B',
    act: 'type',
    present: true,
    overTicks: 600,
    largest: { uv: -14.2, channel: 1, tick: 100 },
    needed: { rule: 'hold', uv: 25, reduced: false },
    movedTick: 1000,
    view: VIEW,
    hider: null,
    contrastK: 4,
    cause: 'tooWeak',
    lastSeenTick: 100,
    ...change,
  };
}

describe('who is not seen, in words', () => {
  it('says for how long, by how much the signal misses, and which threshold it misses', () => {
    expect(sightSentence(answer({}), 2000)).toBe(
      'Not seen for 3:10; largest signal 14 µV in the last minute, 25 needed to hold: 11 µV short.',
    );
    const empty = answer({ needed: { rule: 'switchOn', uv: 102, reduced: true }, lastSeenTick: null });
    expect(sightSentence(empty, 2000)).toBe(
      'Not seen yet; largest signal 14 µV in the last minute, 102 needed to switch on in reduced sensitivity: 88 µV short.',
    );
  });

  it('names what stands in the way', () => {
    const behind = answer({ cause: 'hidden', hider: 'glassScreen', view: { ...VIEW, inBeams: 0, behindThings: 1 } });
    expect(sightSentence(behind, 2000)).toBe('Not seen for 3:10; behind the glass screen: nothing of B in view.');
    const half = answer({ hider: 'desk', view: { ...VIEW, inBeams: 0.2, betweenBeams: 0.3, behindThings: 0.5 } });
    expect(sightSentence(half, 2000)).toContain('11 µV short; 50 % of B is behind a desk.');
    expect(sightSentence(answer({ cause: 'littleContrast', contrastK: 0.3 }), 2000)).toContain(
      'too little contrast: skin and clothes 0.3 K above the background; largest signal 14 µV',
    );
  });

  it('never rounds a signal over a threshold that it missed, or under one that it passed', () => {
    fc.assert(
      fc.property(fc.double({ min: -200, max: 200, noNaN: true }), fc.constantFrom(25, 42.5, 60, 102), (uv, limit) => {
        const told = uvBeside(uv, limit);
        expect(told < limit).toBe(Math.abs(uv) < limit);
        expect(Math.abs(told - Math.abs(uv))).toBeLessThanOrEqual(1);
      }),
    );
  });
});

describe('the signal in words', () => {
  it('names a quadrant by the way it looks, and turns with the detector', () => {
    expect([0, 1, 2, 3].map((c) => quadrantName(c, 0))).toEqual([
      'back right',
      'front right',
      'front left',
      'back left',
    ]);
    expect([0, 1, 2, 3].map((c) => quadrantName(c, 90))).toEqual([
      'front right',
      'front left',
      'back left',
      'back right',
    ]);
    expect(quadrantName(0, -45)).toBe('back');
    expect(quadrantName(3, 315)).toBe('left');
  });

  it('tells the largest beside both thresholds', () => {
    const tell = (uv: number) => signalWords.largest(uv, 'back left', '08:40:12', 25, 60);
    expect(tell(-20)).toBe('Largest here 20 µV, back left, 08:40:12: 5 µV short of hold 25 µV');
    expect(tell(41)).toBe('Largest here 41 µV, back left, 08:40:12: over hold 25 µV, 19 µV short of switch on 60 µV');
    expect(tell(164)).toBe('Largest here 164 µV, back left, 08:40:12: over switch on 60 µV');
  });
});
