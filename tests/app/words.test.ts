import { describe, expect, it } from 'vitest';
import { merged } from '../../src/app/screens/narrationText.ts';
import type { BadgeId, Condition, ConditionId, Explanation, ReasonCode, TraceEvent } from '../../src/engine/trace.ts';
import { badgeWords } from '../../src/report/text/badges.ts';
import { changeClause, conditionSentence } from '../../src/report/text/conditions.ts';
import { eventSentence } from '../../src/report/text/events.ts';
import {
  clockAt,
  luxBeside,
  luxText,
  minuteSecond,
  outsideText,
  shiftDate,
  spokenLength,
} from '../../src/report/text/format.ts';
import { changeSentence, explanationSentences, reasonSentence } from '../../src/report/text/reasons.ts';

const CONDITIONS: ConditionId[] = [
  'occupied',
  'dark',
  'bright',
  'brightDwell',
  'darkDwell',
  'movement',
  'switchOnPair',
  'autoOnMode',
  'lightRequested',
  'reentryGrace',
  'heldByButton',
  'impulsePause',
  'onDelay',
  'gapLimit',
  'airOccupied',
  'supply',
  'warmUp',
  'walkTest',
];
const REASONS: ReasonCode[] = [
  'seenAndDark',
  'seenNotDark',
  'pressed',
  'pressedBothRows',
  'brightLongEnough',
  'darkLongEnough',
  'nobodySeen',
  'warmUpBegan',
  'warmUpEnded',
  'supplyLost',
  'supplyReturned',
  'supplyDipRiddenThrough',
  'walkTestBegan',
  'walkTestEnded',
  'walkTestPulse',
  'walkTestPulseEnded',
  'impulse',
  'impulseEnded',
  'presenceBegan',
  'onDelayOver',
  'gapTooLong',
];
const BADGES: BadgeId[] = [
  'someoneSeen',
  'timing',
  'brightEnough',
  'enoughDaylight',
  'nobodySeen',
  'waitsForButton',
  'heldOn',
  'heldOff',
  'watching',
  'starting',
  'walkTest',
  'deviceOff',
  'notMeasured',
];

function condition(id: ConditionId, part: Partial<Condition> = {}): Condition {
  return { id, holds: true, value: null, limit: null, unit: 'none', sinceTick: null, untilTick: null, ...part };
}

const context = { output: 'innerRow', tick: 1000 } as const;

describe('sentences', () => {
  it('are whole and hold no code, whatever the condition carries', () => {
    for (const id of CONDITIONS) {
      for (const holds of [true, false]) {
        for (const [value, limit] of [
          [null, null],
          [310, 500],
        ] as const) {
          for (const untilTick of [null, 2000]) {
            for (const short of [true, false]) {
              const text = conditionSentence(condition(id, { holds, value, limit, untilTick }), context, short);
              expect(text, id).toMatch(/^[A-Z].*\.$/);
              expect(text, id).not.toMatch(/undefined|NaN|null|[a-z][A-Z]|\.\./);
            }
            const clause = changeClause(condition(id, { holds, value, limit, untilTick }), context);
            if (clause !== null) expect(clause, id).not.toMatch(/undefined|NaN|null|\.$/);
          }
        }
      }
    }
    for (const code of REASONS) {
      const text = reasonSentence({ code, conditions: [] });
      expect(text, code).toMatch(/^[A-Z].*\.$/);
      expect(text, code).not.toMatch(/undefined|NaN|null/);
    }
  });

  it('say "held" for buttons only', () => {
    for (const badge of BADGES) {
      const held = /held/i.test(badgeWords(badge, 100).full);
      expect(held, badge).toBe(badge === 'heldOn' || badge === 'heldOff');
    }
    for (const id of CONDITIONS) {
      if (id === 'heldByButton') continue;
      for (const holds of [true, false])
        expect(conditionSentence(condition(id, { holds }), context)).not.toMatch(/held/i);
    }
  });

  it('never call desks too dark; they say what there is without the lamps', () => {
    const dark = condition('dark', { value: 310, limit: 500, unit: 'lx' });
    expect(conditionSentence(dark, context)).toBe('Without its lamps: 310 lx, under the setpoint of 500 lx.');
    expect(conditionSentence(dark, context, true)).toBe('Without its lamps: 310 lx.');
  });

  it('give every badge its words', () => {
    expect(badgeWords('someoneSeen', 290).full).toBe('ON · someone seen');
    expect(badgeWords('timing', 252).full).toBe('ON · off in 4:12');
    expect(badgeWords('brightEnough', 130).full).toBe('ON · bright enough, off in 2:10');
    expect(badgeWords('enoughDaylight', null).full).toBe('OFF · enough daylight');
    expect(badgeWords('watching', 30).full).toBe('WAITS · on in 0:30');
    expect(badgeWords('starting', 17.6).full).toBe('STARTING · 18 s, not sensing yet');
    expect(badgeWords('walkTest', 520).full).toBe('WALK-TEST · ends in 8:40');
    expect(badgeWords('heldOff', null).full).toBe('HELD OFF · wall button');
  });
});

describe('what would change it', () => {
  const lit: Explanation = {
    output: 'innerRow',
    tick: 1480,
    on: true,
    phase: 'running',
    state: 'litByAutomatic',
    badge: 'timing',
    untilTick: 4000,
    lastSeenTick: 1000,
    decided: null,
    because: [
      condition('occupied', { value: 48, limit: 300, untilTick: 4000 }),
      condition('dark', { value: 310, limit: 500 }),
    ],
    missing: [condition('bright', { holds: false, value: 310, limit: 600 })],
  };

  it('names both roads to off, the second with its dwell', () => {
    expect(changeSentence(lit, { brightDwellS: 300, darkDwellS: 30 })).toBe(
      'It goes off when nobody is seen for another 4:12 or its daylight estimate stays above 600 lx for 5:00.',
    );
  });

  it('asks for everything together to come on', () => {
    const off: Explanation = {
      ...lit,
      on: false,
      state: 'waiting',
      badge: 'nobodySeen',
      because: [condition('occupied', { holds: false, value: 900, limit: 300 })],
      missing: [condition('movement', { holds: false }), condition('dark', { holds: false, value: 700, limit: 500 })],
    };
    expect(changeSentence(off)).toBe('It comes on when someone moves and its daylight estimate is under 500 lx.');
  });

  it('sends who holds it back to the button, and to absence', () => {
    const held: Explanation = {
      ...lit,
      state: 'heldOn',
      badge: 'heldOn',
      because: [condition('heldByButton'), lit.because[0]!],
      missing: [],
    };
    expect(changeSentence(held)).toBe(
      'Its button switches it off; when nobody is seen for another 4:12 it goes back to automatic.',
    );
  });

  it('comes with state, reasons and change in the words of the room', () => {
    const text = explanationSentences(lit, () => '11:24:10').join(' ');
    expect(text).toContain('Inner row: ON · off in 4:12.');
    expect(text).toContain('Someone moved 48 seconds ago.');
  });
});

describe('numbers', () => {
  it('are never rounded onto the other side of their limit', () => {
    expect(luxBeside(498.7, 500)).toBe('498 lx');
    expect(luxBeside(499.9, 500)).toBe('499 lx');
    expect(luxBeside(500, 500)).toBe('500 lx');
    expect(luxBeside(501.2, 500)).toBe('502 lx');
    expect(luxBeside(312, 500)).toBe('310 lx');
  });

  it('carry no more digits than the model holds', () => {
    expect(luxText(7.4)).toBe('7 lx');
    expect(luxText(313)).toBe('315 lx');
    expect(luxText(5474)).toBe('5 470 lx');
    expect(outsideText(38_400)).toBe('38 klx');
    expect(outsideText(4230)).toBe('4.2 klx');
  });

  it('count down without reaching nothing too early', () => {
    expect(minuteSecond(0.1)).toBe('0:01');
    expect(minuteSecond(252)).toBe('4:12');
    expect(minuteSecond(3852)).toBe('1:04:12');
    expect(minuteSecond(59.9, 'down')).toBe('0:59');
    expect(spokenLength(61)).toBe('1 minute 1 second');
  });

  it('tell the clock across midnight', () => {
    const start = { localDate: '2026-11-17', localTime: '23:59:30' };
    expect(clockAt(0, start)).toBe('23:59:30');
    expect(clockAt(450, start)).toBe('00:00:15');
  });

  it('step dates over months and leap days', () => {
    expect(shiftDate('2026-12-31', 1)).toBe('2027-01-01');
    expect(shiftDate('2028-02-28', 1)).toBe('2028-02-29');
    expect(shiftDate('2028-03-01', -1)).toBe('2028-02-29');
    expect(shiftDate('2026-11-17', -30)).toBe('2026-10-18');
  });
});

describe('narration', () => {
  const off = (tick: number): TraceEvent => ({
    tick,
    kind: 'output',
    output: 'innerRow',
    on: false,
    reason: { code: 'nobodySeen', conditions: [] },
  });

  it('merges what happened into one message and counts the rest', () => {
    const text = merged([off(1), off(2), off(3), off(4), off(5)]);
    expect(text).toMatch(/^2 earlier events\./);
    expect(text.match(/Inner row off/g)).toHaveLength(3);
  });

  it('keeps silent about pulses and about a sun that is being dragged', () => {
    const pulse: TraceEvent = { tick: 1, kind: 'seen', by: 'pulse', atM: null };
    const drag: TraceEvent = { tick: 1, kind: 'input', input: { kind: 'moveSun', shiftS: 60, localDate: null } };
    expect(merged([pulse, drag])).toBe('');
  });

  it('speaks the result of an act', () => {
    const text = eventSentence({
      tick: 1,
      kind: 'input',
      input: { kind: 'setSettings', change: { innerOffDelayS: 600 } },
    });
    expect(text).toBe('Set: Inner row off-delay 10:00.');
  });
});
