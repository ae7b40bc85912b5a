import { describe, expect, it } from 'vitest';
import { storyFrom } from '../../src/cli/stories.ts';
import { excessRadiance } from '../../src/engine/heat/contrast.ts';
import { bandRadianceSlope } from '../../src/engine/heat/planck.ts';
import { THING_EMISSIVITY } from '../../src/engine/heat/surfaces.ts';
import { createSimulation, digestOf, stepSimulation } from '../../src/engine/simulation.ts';
import type { FurnitureSpec, Scenario, WarmThingSpec } from '../../src/engine/types.ts';
import { warmthOf } from '../../src/engine/warmth.ts';
import { bodyTag, kelvin, patchSentence, warmthSentences } from '../../src/report/text/warmth.ts';

const story = storyFrom('scenarios/sun-comes-round.json')!;

function roomWith(change: Partial<Scenario>, furniture: FurnitureSpec[] = []) {
  const room = { ...story.room, furniture: [...story.room.furniture, ...furniture] };
  const sim = createSimulation({ ...story, room, ...change });
  for (let k = 0; k < 20; k++) stepSimulation(sim, []);
  return sim;
}

const robot: WarmThingSpec = { id: 'r', kind: 'cleaningRobot', atM: [6.5, 1.2], heightM: 0.2, excessK: 5, on: true };
const radiator: WarmThingSpec = { id: 'p', kind: 'radiator', atM: [4.5, 5.85], heightM: 0.7, excessK: 30, on: true };

describe('the Warmth Map', () => {
  it('gives a thing of one temperature the contrast that Planck gives it', () => {
    const view = warmthOf(roomWith({ warmThings: [robot] }));
    const body = view.bodies.find((b) => b.id === 'r')!;
    const roomC = story.room.radiantTemperatureC;
    const byHand = (THING_EMISSIVITY * excessRadiance(5, roomC)) / bandRadianceSlope(roomC);
    // The raster's fast table differs from the series by under 1e-7 W m-2 sr-1.
    expect(body.contrastK).toBeCloseTo(byHand, 5);
    expect(body.thing).toBe('cleaningRobot');
  });

  it('mixes a person of face, hair, hands and clothes, and writes their mean', () => {
    const view = warmthOf(roomWith({}));
    expect(view.bodies.map((b) => b.id)).toEqual(['A', 'B', 'C']);
    for (const body of view.bodies) {
      const person = body.partsK.slice(0, 4);
      expect(body.contrastK).toBeGreaterThan(Math.min(...person));
      expect(body.contrastK).toBeLessThan(Math.max(...person));
      expect(body.state).toBe('seen');
      expect(body.needsK!).toBeLessThan(body.contrastK);
      expect(bodyTag(body)).toBe(kelvin(body.contrastK));
    }
  });

  it('does not show who sits behind glass as seen, and says why', () => {
    const piece = { turnDeg: 90 as const, widthM: 2.6, depthM: 0.04, heightM: 2.95, reflectance: 0.1 };
    const at = (kind: 'glassScreen' | 'screen') =>
      warmthOf(roomWith({}, [{ ...piece, id: 'pane', kind, atM: [5.15, 2.4] }])).bodies.find((b) => b.id === 'B')!;
    expect(at('glassScreen')).toMatchObject({ state: 'hidden', hiddenBy: 'glass', needsK: null });
    expect(bodyTag(at('glassScreen'))).toBe('behind glass: not seen');
    expect(at('screen')).toMatchObject({ state: 'hidden', hiddenBy: 'furniture' });
  });

  it('says so where clip-on masks cover somebody', () => {
    const settings = { ...story.settings, maskedSectors: Array.from({ length: 12 }, (_, k) => k) };
    for (const body of warmthOf(roomWith({ settings })).bodies) expect(body.state).toBe('masked');
  });

  it('weighs bodies against a radiator behind them', () => {
    const plain = warmthOf(roomWith({})).bodies;
    const view = warmthOf(roomWith({ warmThings: [radiator] }));
    const patch = view.patches.find((p) => p.kind === 'radiator')!;
    expect(patch.contrastK).toBeGreaterThan(30);
    expect(patchSentence(patch)).toContain(kelvin(patch.contrastK));
    for (const [k, body] of view.bodies.entries())
      expect(body.contrastK).toBeLessThanOrEqual(plain[k]!.contrastK + 1e-9);
  });

  it('lets figures fade where the room is as warm as people', () => {
    const room = { ...story.room, airTemperatureC: 35.5, radiantTemperatureC: 35.5 };
    const sim = createSimulation({ ...story, room, people: story.people.map((p) => ({ ...p, cameFromC: 35.5 })) });
    for (let k = 0; k < 20; k++) stepSimulation(sim, []);
    const { bodies } = warmthOf(sim);
    expect(bodies.some((b) => b.state === 'faint')).toBe(true);
    for (const body of bodies.filter((b) => b.state === 'faint')) expect(bodyTag(body)).toBe('too little contrast');
  });

  it('leaves windows blank when the story tells no outside temperature, and cold when it freezes', () => {
    const { outsideAirC: _, ...site } = story.site;
    expect(warmthOf(roomWith({ site })).patches.filter((p) => p.kind === 'window')).toEqual([]);
    const panes = warmthOf(roomWith({ site: { ...site, outsideAirC: -5 } })).patches.filter((p) => p.kind === 'window');
    expect(panes).toHaveLength(story.room.windows.length);
    for (const pane of panes) expect(pane.contrastK).toBeLessThan(-3);
  });

  it('only looks: the run goes on as if nobody had asked', () => {
    const [asked, left] = [roomWith({ warmThings: [robot] }), roomWith({ warmThings: [robot] })];
    for (let k = 0; k < 30; k++) {
      warmthSentences(warmthOf(asked));
      stepSimulation(asked, []);
      stepSimulation(left, []);
    }
    expect(digestOf(asked.state)).toBe(digestOf(left.state));
  });
});
