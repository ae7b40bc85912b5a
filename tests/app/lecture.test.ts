/** A lecture: hands, locks, the covered reason; and the way home from it. */
import { beforeEach, describe, expect, it } from 'vitest';
import { takesHome } from '../../src/app/screens/lecture/address.ts';
import { qrPath } from '../../src/app/screens/lecture/qr.ts';
import { linkHash, readLink } from '../../src/app/state/deepLink.ts';
import {
  addHands,
  askOfRun,
  goToStep,
  lock,
  openLecture,
  placeGuess,
  setCovered,
  showTruth,
  stepNow,
  useLecture,
  withdraw,
} from '../../src/app/state/lecture/lecture.ts';
import { getApp, reasonsClosed, setApp } from '../../src/app/state/store.ts';
import { storyFrom } from '../../src/cli/stories.ts';

beforeEach(() => {
  useLecture.setState({ steps: [], now: null, panel: 'ask', placing: null, recap: false, trails: {} });
  setApp({ scenario: storyFrom('winter-walk-in')!, shownTick: 50, job: null, lecture: null });
  openLecture();
});

describe('a question', () => {
  it('holds Run back until its answers are locked, and covers the reason', () => {
    setCovered(false);
    askOfRun('first');
    expect(getApp().lecture).toMatchObject({ armed: false, covered: true });
    lock();
    expect(getApp().lecture).toMatchObject({ armed: true, covered: true });
  });

  it('counts hands between none and ninety-nine, and no more once locked', () => {
    askOfRun('first');
    addHands(1, -1);
    for (let i = 0; i < 120; i++) addHands(2, 1);
    expect(stepNow()!.hands).toEqual([0, 0, 99, 0]);
    lock();
    addHands(1, 1);
    expect(stepNow()!.hands).toEqual([0, 0, 99, 0]);
  });

  it('leaves Run free when it is taken back', () => {
    askOfRun('own');
    expect(stepNow()!.question).toBe(getApp().scenario!.question);
    withdraw();
    expect(stepNow()).toBeNull();
    expect(getApp().lecture!.armed).toBe(true);
  });

  it('keeps guesses at or after the instant it was asked, and offers the next', () => {
    askOfRun('dark');
    useLecture.setState({ placing: 0 });
    placeGuess(0, 10);
    expect(stepNow()!.guesses).toEqual([50, null, null]);
    expect(useLecture.getState().placing).toBe(1);
  });

  it('belongs to its room: another story shows none of its hands', () => {
    askOfRun('first');
    setApp({ scenario: storyFrom('quiet-reader')! });
    expect(stepNow()).toBeNull();
  });
});

describe('the covered reason', () => {
  it('stays revealed when an earlier question is looked at, until the next one is asked', () => {
    askOfRun('first');
    lock();
    showTruth();
    setCovered(false);
    goToStep(0);
    expect(getApp().lecture!.covered).toBe(false);
    askOfRun('dark');
    expect(getApp().lecture!.covered).toBe(true);
  });

  it('closes reasons in words and in narration as well', () => {
    expect(reasonsClosed(getApp())).toBe(true);
    setCovered(false);
    expect(reasonsClosed(getApp())).toBe(false);
  });
});

describe('the way home', () => {
  it('is a link that opens the lecture, and a room that opens without it', () => {
    const hash = linkHash(false);
    expect(readLink(hash, '')).toMatchObject({ story: 'winter-walk-in', lecture: true });
    expect(readLink('#story=winter-walk-in', '').lecture).toBe(false);
  });

  it('is offered as a code only where another machine could follow it', () => {
    expect(takesHome({ protocol: 'https:', hostname: 'lessons.test' })).toBe(true);
    for (const hostname of ['localhost', '127.0.0.1', ''])
      expect(takesHome({ protocol: 'http:', hostname })).toBe(false);
    expect(takesHome({ protocol: 'file:', hostname: '' })).toBe(false);
  });

  /** Source: ISO/IEC 18004: 17 + 4 v modules, finder patterns of 7 modules in three corners, four light modules around. */
  it('has the shape of a QR code', () => {
    const { size, d } = qrPath('https://lessons.test/halflit/#story=winter-walk-in');
    expect((size - 8 - 17) % 4).toBe(0);
    const dark = new Set([...d.matchAll(/M(\d+) (\d+)h/g)].map((m) => `${m[1]} ${m[2]}`));
    for (const [x, y] of [
      [4, 4],
      [size - 11, 4],
      [4, size - 11],
    ] as const) {
      for (let i = 0; i < 7; i++) expect(dark.has(`${x + i} ${y}`) && dark.has(`${x} ${y + i}`)).toBe(true);
      expect(dark.has(`${x + 1} ${y + 1}`)).toBe(false);
    }
    expect([...dark].every((at) => at.split(' ').every((n) => Number(n) >= 4 && Number(n) < size - 4))).toBe(true);
  });
});
