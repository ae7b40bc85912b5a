/** Criteria over time, on timelines written by hand: what counts, when, and where it is shown. */
import { describe, expect, it } from 'vitest';
import type { Reason } from '../../../src/engine/trace.ts';
import { judgeRoom, lampHours, shortPercent } from '../../../src/exercise/commission/criteria.ts';
import type { RoomEvidence } from '../../../src/exercise/commission/evidence.ts';
import { longestStillS, type Timeline } from '../../../src/exercise/commission/timeline.ts';
import type { Criterion } from '../../../src/exercise/commission/types.ts';

const REASON: Reason = { code: 'nobodySeen', conditions: [] };

/** One character a second: I, W, A (outputs on), letters joined by the maps below. */
interface Written {
  /** People in the room. */
  people: string;
  /** '#' on. */
  inner?: string;
  /** Light on the one desk, hundreds of lux. */
  desk?: string;
  seenS?: number[];
}

function timeline({ people, inner = '', desk = '', seenS = [] }: Written): Timeline {
  const n = people.length;
  const outputs = Uint8Array.from({ length: n }, (_, s) => (inner[s] === '#' ? 1 : 0));
  const events = [...outputs].flatMap((on, s) =>
    s > 0 && on !== outputs[s - 1]
      ? [{ tick: s * 10, kind: 'output' as const, output: 'innerRow' as const, on: on === 1, reason: REASON }]
      : [],
  );
  return {
    id: 'day',
    deskIds: ['desk'],
    seconds: n,
    outputs,
    inner: new Uint8Array(n),
    window: new Uint8Array(n),
    air: new Uint8Array(n),
    people: Uint8Array.from({ length: n }, (_, s) => Number(people[s])),
    deskLx: Float32Array.from({ length: n }, (_, s) => 100 * Number(desk[s] ?? 0)),
    seenS,
    events,
  };
}

type Asked<K extends Criterion['kind']> = Omit<
  Extract<Criterion, { kind: K }>,
  'id' | 'part' | 'points' | 'title' | 'next'
>;

function judged<K extends Criterion['kind']>(asked: Asked<K>, ...days: Timeline[]) {
  const criterion = {
    id: 'c',
    part: 'functional',
    points: 10,
    title: 't',
    next: 'n',
    ...asked,
  } as unknown as Criterion;
  return judgeRoom(criterion, { days } as unknown as RoomEvidence);
}

describe('always', () => {
  const lit = { kind: 'always', when: [{ someone: true }], is: [{ output: 'innerRow', on: true }] } as const;
  const day = timeline({ people: '0011110011', inner: '..####..##' });
  const gap = timeline({ people: '0011110011', inner: '..#..#..##' });

  it('is met when what is asked holds at every second at which it is asked', () => {
    expect(judged<'always'>({ ...lit, when: [...lit.when], is: [...lit.is], exceptS: 0 }, day).verdict).toBe('met');
  });

  it('counts the seconds missed and names the first', () => {
    const result = judged<'always'>({ ...lit, when: [...lit.when], is: [...lit.is], exceptS: 0 }, day, gap);
    expect(result).toMatchObject({ verdict: 'missed', value: 2, limit: 0, at: { day: 'day', s: 3 } });
  });

  it('gives half within its half bound and full within its own', () => {
    const ask = { ...lit, when: [...lit.when], is: [...lit.is] };
    expect(judged<'always'>({ ...ask, exceptS: 1, halfS: 2 }, gap).verdict).toBe('half');
    expect(judged<'always'>({ ...ask, exceptS: 2, halfS: 4 }, gap).verdict).toBe('met');
  });
});

describe('sometime', () => {
  it('asks for one unbroken stretch', () => {
    const day = timeline({ people: '0101011100', inner: '' });
    expect(judged<'sometime'>({ kind: 'sometime', is: [{ someone: true }], forS: 2 }, day)).toMatchObject({
      verdict: 'met',
      at: { s: 7 },
    });
    expect(judged<'sometime'>({ kind: 'sometime', is: [{ someone: true }], forS: 3 }, day).verdict).toBe('missed');
  });
});

describe('responds within', () => {
  const ask = { kind: 'respondsWithin', output: 'innerRow' } as const;
  it('takes the slowest answer to anybody coming into the empty room', () => {
    const day = timeline({ people: '0111001112', inner: '..##....##' });
    const result = judged<'respondsWithin'>({ ...ask, after: 'entering', on: true, withinS: 1, halfS: 2 }, day);
    expect(result).toMatchObject({ verdict: 'half', value: 2, at: { s: 6 } });
  });

  it('counts to the end of the run when no answer comes', () => {
    const day = timeline({ people: '1100000000', inner: '##########' });
    const result = judged<'respondsWithin'>({ ...ask, after: 'leaving', on: false, withinS: 5 }, day);
    expect(result).toMatchObject({ verdict: 'missed', value: 8 });
  });

  it('is not met where nobody ever comes', () => {
    const day = timeline({ people: '0000' });
    expect(judged<'respondsWithin'>({ ...ask, after: 'entering', on: true, withinS: 5 }, day).verdict).toBe('missed');
  });
});

describe('count', () => {
  const ask = { kind: 'count', outputs: ['innerRow' as const], on: false } as const;
  it('counts only switchings in the direction asked, while the conditions held before them', () => {
    const day = timeline({ people: '1111111000', inner: '##..##..#.' });
    const dark = judged<'count'>({ ...ask, outputs: [...ask.outputs], when: [{ someone: true }], atMost: 0 }, day);
    expect(dark).toMatchObject({ verdict: 'missed', value: 2, at: { s: 2 } });
    const all = judged<'count'>({ kind: 'count', outputs: ['innerRow'], when: [], atMost: 5 }, day);
    expect(all).toMatchObject({ verdict: 'met', value: 5 });
  });

  it('looks only at the days that it names', () => {
    const bad = { ...timeline({ people: '11', inner: '#.' }), id: 'bad' };
    const day = timeline({ people: '11', inner: '##' });
    const asked = { ...ask, outputs: [...ask.outputs], when: [], atMost: 0 };
    expect(judged<'count'>({ ...asked, days: ['day'] }, bad, day).verdict).toBe('met');
    expect(judged<'count'>({ ...asked, days: ['bad'] }, bad, day).verdict).toBe('missed');
  });
});

describe('sums of a day', () => {
  it('take desks as short only while somebody is there', () => {
    const day = timeline({ people: '0011110000', desk: '1146640000' });
    expect(shortPercent([day], 500)).toBe(50);
  });

  it('add the hours of all lamps of a lit row', () => {
    const day = timeline({ people: '1'.repeat(3600), inner: '#'.repeat(3600) });
    expect(lampHours([day, day], { inner: 3, window: 4 })).toBe(6);
  });

  it('find the longest stillness of somebody there, from the first movement on', () => {
    const day = timeline({ people: '1111111110000000001111', seenS: [2, 3, 20] });
    expect(longestStillS(day)).toBe(5);
  });
});
