/** Drawings as text, to be looked at in a diff. After a wanted change: `npx vitest run tests/pictures -u`, then look at them. */
import { describe, expect, it } from 'vitest';
import { draw } from '../../src/cli/draw.ts';
import { momentOf, runTo } from '../../src/cli/moment.ts';
import { storyFrom } from '../../src/cli/stories.ts';
import { planGroup } from '../../src/report/plan.ts';
import { drawing } from '../../src/report/svg.ts';

function plan(id: string, tick: number): string {
  const moment = momentOf(runTo(storyFrom(`scenarios/${id}.json`)!, tick));
  const box = { x: 20, y: 20, widthPx: 900, heightPx: 620 };
  return drawing(940, 660, id, 'Plan of the room', [planGroup(moment, box)]);
}

function drawn(...args: string[]): string {
  const written: string[] = [];
  const write = process.stdout.write;
  process.stdout.write = ((chunk: string) => written.push(chunk) > 0) as typeof process.stdout.write;
  try {
    expect(draw(args)).toBe(0);
  } finally {
    process.stdout.write = write;
  }
  return written.join('');
}

describe('pictures', () => {
  it('the corner office before dawn, lamps on, somebody on the way to a desk', async () => {
    await expect(plan('winter-walk-in', 60)).toMatchFileSnapshot('walk-in-plan.svg');
  });

  it('the drawing office in hazy sun, one row on', async () => {
    await expect(plan('why-only-one-row', 60)).toMatchFileSnapshot('one-row-plan.svg');
  });

  it('the walk-in after one minute, plan and strip on a page', async () => {
    await expect(drawn('scenarios/winter-walk-in.json', '--at', '06:51')).toMatchFileSnapshot('walk-in-page.svg');
  });

  it('an answer sheet gives pulses and estimates and leaves the bands empty', async () => {
    const sheet = drawn('scenarios/winter-walk-in.json', '--at', '06:51', '--blank');
    expect(sheet).toContain('Name:');
    expect(sheet).not.toContain('url(#hatch-innerRow)');
    await expect(sheet).toMatchFileSnapshot('walk-in-answer-sheet.svg');
  });
});
