import { describe, expect, it } from 'vitest';
import { momentOf, runTo } from '../../src/cli/moment.ts';
import { storyFrom } from '../../src/cli/stories.ts';
import { PRINT_PALETTE, SCREEN_PALETTE } from '../../src/report/palette.ts';
import { planSvg } from '../../src/report/plan.ts';

const walkIn = momentOf(runTo(storyFrom('winter-walk-in')!, 60));
const oneRow = momentOf(runTo(storyFrom('why-only-one-row')!, 60));
const svg = planSvg(walkIn);

const count = (text: string, part: string): number => text.split(part).length - 1;

/** Colours used in a drawing, apart from white. */
function colours(drawing: string): string[] {
  return [...new Set(drawing.match(/#[0-9A-Fa-f]{6}/g))].filter((colour) => colour !== '#FFFFFF').sort();
}

describe('the plan as a drawing', () => {
  it('draws lamps that give light solid with rays and the others hollow', () => {
    const { innerRow, windowRow } = SCREEN_PALETTE.channel;
    const lampsOf = (row: string): number => oneRow.scenario.room.luminaires.filter((l) => l.row === row).length;
    const drawn = planSvg(oneRow);
    const bars = drawn.split('\n').filter((line) => line.includes('height="11"'));
    expect(bars.filter((bar) => bar.includes(`fill="${innerRow}"`))).toHaveLength(lampsOf('inner'));
    expect(bars.filter((bar) => bar.includes(`fill="#FFFFFF" stroke="${windowRow}"`))).toHaveLength(lampsOf('window'));
    const rayed = bars.filter((bar) => bar.includes('v-7M'));
    expect(rayed).toHaveLength(lampsOf('inner'));
  });

  it('names both daylight estimates, each with its row', () => {
    expect(count(svg, '>daylight estimate<')).toBe(2);
    expect(svg).toContain('>Window row<');
    expect(svg).toContain('>Inner row<');
  });

  it('shows a round tag with the lux of every desk point, joined to its place', () => {
    const tags = svg.match(/<circle [^>]*stroke-width="1.6"/g) ?? [];
    expect(tags).toHaveLength(walkIn.scenario.room.deskPoints.length);
  });

  it('puts the words of every output beside the room', () => {
    expect(svg).toContain('>Air contact<');
    expect(svg).toContain('>WAITS<');
    expect(svg).toMatch(/>on in 0:2\d</);
    expect(count(svg, '>ON<')).toBe(2);
  });

  it('tells the room to those who hear it', () => {
    expect(svg).toMatch(/<svg [^>]*role="img" aria-labelledby="title desc"/);
    expect(svg).toContain('<title id="title">Winter walk-in, 06:50:06</title>');
    expect(svg).toMatch(/<desc id="desc">.*Inner row: ON.*A walks/);
  });

  it('writes at most two decimals, so that a comparison of two drawings can be read', () => {
    expect(svg.match(/\d\.\d{3,}/g)).toBeNull();
    expect(svg).not.toMatch(/NaN|undefined|Infinity|e-\d/);
  });

  it('writes the same text for the same instant of another run', () => {
    expect(planSvg(momentOf(runTo(storyFrom('winter-walk-in')!, 60)))).toBe(svg);
  });

  it('lays sun only where it falls: through the windows by day, nowhere before dawn', () => {
    expect(planSvg(oneRow)).toContain(SCREEN_PALETTE.sun);
    expect(svg).not.toContain(SCREEN_PALETTE.sun);
  });

  it('needs no colour: black and one grey tell the same on paper', () => {
    expect(colours(planSvg(oneRow, PRINT_PALETTE))).toEqual(['#111111', '#3D3D3D']);
  });

  it('leaves out whoever is not in the room', () => {
    const away = structuredClone(walkIn.frame);
    for (const person of away.people) person.present = false;
    expect(svg).toContain('>A</text>');
    expect(planSvg({ ...walkIn, frame: away })).not.toContain('>A</text>');
  });
});
