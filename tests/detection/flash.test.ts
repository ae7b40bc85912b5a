/** A glow that stands still: the flux steps, the signal swings once. Trade rule: common practice, no source. */
import { describe, expect, it } from 'vitest';
import { bandRadiance8to14 } from '../../src/engine/heat/planck.ts';
import { createStage, runStage, type TestBody } from './stage.ts';

describe('something that glows up and stands still', () => {
  it('may hold the light, but never gives a channel two switch-on pulses within the 4 s that switching on asks for', () => {
    let holding = 0;
    for (let bearing = 3; bearing < 360; bearing += 24) {
      const stage = createStage();
      const b = (bearing * Math.PI) / 180;
      const glower: TestBody = {
        owner: 0,
        atM: [20 + 3 * Math.sin(b), 20 + 3 * Math.cos(b)],
        key: 1,
        parts: [{ kind: 'thing', centreM: [0, 0, 0.5], halfM: [0.12, 0.12, 0.12] }],
      };
      const lastTick: number[] = [];
      let held = false;
      for (let tick = 0; tick < 200; tick++) {
        // 300 K above the room with a time constant of 3 s, from the second second on.
        const kelvin = 300 * (1 - Math.exp(-Math.max(0, tick - 20) / 30));
        stage.radiance[4] = bandRadiance8to14(20 + kelvin) - bandRadiance8to14(20);
        for (const pulse of runStage(stage, 1, () => [glower]).pulses) {
          if (pulse.level === 'hold') held = true;
          if (pulse.level !== 'switchOn') continue;
          expect(tick - (lastTick[pulse.channel] ?? -100)).toBeGreaterThan(40);
          lastTick[pulse.channel] = tick;
        }
      }
      if (held) holding++;
    }
    expect(holding).toBeGreaterThan(2);
  });
});
