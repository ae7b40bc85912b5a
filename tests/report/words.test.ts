import { describe, expect, it } from 'vitest';
import { momentOf, runTo } from '../../src/cli/moment.ts';
import { storyFrom } from '../../src/cli/stories.ts';
import { roomInWords } from '../../src/report/words.ts';

const scenario = storyFrom('scenarios/winter-walk-in.json')!;
const text = roomInWords(momentOf(runTo(scenario, 200))).join('\n');

describe('the room in words', () => {
  it('says the time, the phase and when movement was last seen', () => {
    expect(text).toMatch(/Clock: 06:50:20\. Detector: running\. Movement (is seen now|was last seen .* ago)\./);
  });

  it('says of every output whether it is on, why, and what would change it', () => {
    expect(text).toMatch(/Inner row: ON · .*setpoint of 500 lx.*goes off when nobody is seen/);
    expect(text).toMatch(/Window row: ON · /);
    expect(text).toMatch(/Air contact: WAITS · on in 0:1\d/);
  });

  it('says what happens at the clock that it names', () => {
    expect(text).toMatch(/Inner row: ON · someone seen, off at 07:00:1\d\./);
    expect(text).toMatch(/Air contact: WAITS · on in 0:1\d, at 06:50:32\./);
  });

  it('tells a switching of the air contact once, not also as a change of its state', () => {
    const later = roomInWords(momentOf(runTo(scenario, 400))).join('\n');
    expect(later).toContain('06:50:32  Air contact on. ');
    expect(later).not.toContain('Air contact: Air on');
    expect(later).toContain('Air contact: Watching.');
  });

  it('names people with what they do and where', () => {
    expect(text).toMatch(/A .*, .*\d m from the left wall, .*\d m from the front wall\./);
  });

  it('says who is in the corridor, and that they are there', () => {
    const [one] = scenario.people;
    const atM: [number, number] = [-1, 0.9];
    const outside = { ...scenario, people: [{ ...one!, id: 'C', atM, outsideAtStart: false, plan: [] }] };
    expect(roomInWords(momentOf(runTo(outside, 50))).join('\n')).toMatch(
      /^C .*, in the corridor, outside the left wall\./m,
    );
  });

  it('keeps the three quantities of light apart and says the lux of every desk', () => {
    for (const quantity of ['ceiling reading', 'desk estimate', 'daylight estimate']) expect(text).toContain(quantity);
    for (const desk of scenario.room.deskPoints) expect(text).toMatch(new RegExp(`${desk.label}: \\d+ lx`));
  });

  it('tells the last events with their reasons', () => {
    expect(text).toMatch(/06:50:0\d {2}Inner row on\. .*under the setpoint/);
  });
});
