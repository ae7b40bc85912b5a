import { describe, expect, it } from 'vitest';
import { aimSun, inSunPatch, placeSunBoxes, sunDirection, sunOnLevelLx } from '../../../src/app/scene/light/sun.ts';
import { createRoomUniforms } from '../../../src/app/scene/light/uniforms.ts';
import { glazingRatio } from '../../../src/engine/light/glass.ts';
import { roomBoxes } from '../../../src/engine/room/boxes.ts';
import { bareRoom } from './bareRoom.ts';

const SUN = { altitudeDeg: 30, bearingDeg: 20, directNormalLx: 50_000 };

describe('the sun patch', () => {
  it('points along the bearing, clockwise from the back wall, and up by the altitude', () => {
    const [x, y, z] = sunDirection(30, 90);
    expect(x).toBeCloseTo(Math.cos(Math.PI / 6), 12);
    expect(y).toBeCloseTo(0, 12);
    expect(z).toBeCloseTo(0.5, 12);
  });

  it('enters with direct normal lux x glass at its angle x frame x dirt', () => {
    const u = createRoomUniforms();
    aimSun(u, bareRoom(), [], SUN);
    const facing = sunDirection(SUN.altitudeDeg, SUN.bearingDeg)[1];
    expect(u.uSunWindows.value).toBe(1);
    expect(u.uWinPlane.value[0]!.w).toBeCloseTo(50_000 * 0.8 * glazingRatio(facing) * 0.75 * 0.9, 6);
    expect(u.uWinRect.value[0]!.toArray()).toEqual([2, 4, 1, 2.5]);
    // Inner face of the wall, and the glass a reveal's depth outside it.
    expect(u.uWinPlane.value[0]!.y).toBe(8);
    expect(u.uWinPlane.value[0]!.z).toBeCloseTo(8.2, 12);
  });

  it.each([
    ['below the horizon', { ...SUN, altitudeDeg: -1 }, []],
    ['behind the building', { ...SUN, bearingDeg: 180 }, []],
    ['behind cloud', { ...SUN, directNormalLx: 0 }, []],
    ['behind a closed blind', SUN, [{ windowId: 'w', closedShare: 1 }]],
  ])('is absent with the sun %s', (_, sun, blinds) => {
    const u = createRoomUniforms();
    aimSun(u, bareRoom(), blinds, sun);
    expect(u.uSunWindows.value).toBe(0);
  });

  it('ends where a blind that comes down from the head ends', () => {
    const u = createRoomUniforms();
    aimSun(u, bareRoom(), [{ windowId: 'w', closedShare: 0.5 }], SUN);
    expect(u.uWinRect.value[0]!.w).toBeCloseTo(1.75, 12);
  });

  it('passes glass screens and stops at everything else', () => {
    const u = createRoomUniforms();
    const piece = {
      atM: [4, 4] as [number, number],
      turnDeg: 0 as const,
      widthM: 1,
      depthM: 0.5,
      heightM: 1.4,
      reflectance: 0.5,
    };
    const boxes = roomBoxes({ widthM: 8, depthM: 8, heightM: 3 }, [
      { ...piece, id: 'glass', kind: 'glassScreen' },
      { ...piece, id: 'shelf', kind: 'shelf' },
    ]);
    placeSunBoxes(u, boxes, new Map([['shelf', 7]]));
    expect(u.uSunBoxes.value).toBe(1);
    expect(u.uBoxMin.value[0]!.w).toBe(7);
  });

  it('covers the floor where a straight line to the sun leaves by the glass and meets nothing', () => {
    const u = createRoomUniforms();
    aimSun(u, bareRoom(), [], SUN);
    const sun = sunDirection(SUN.altitudeDeg, SUN.bearingDeg);
    // From the middle of the window down the ray to the floor.
    const hit = [3 - (sun[0] * 1.75) / sun[2], 8.1 - (sun[1] * 1.75) / sun[2]] as const;
    expect(inSunPatch(u, [hit[0], hit[1], 0], -1)).toBe(true);
    expect(inSunPatch(u, [hit[0] + 1.5, hit[1], 0], -1)).toBe(false);
    expect(inSunPatch(u, [hit[0], hit[1] + 1.5, 0], -1)).toBe(false);
    expect(sunOnLevelLx(u)).toEqual([Math.round(u.uWinPlane.value[0]!.w * sun[2])]);
    const shelf = {
      id: 's',
      kind: 'shelf' as const,
      atM: [hit[0], hit[1] + 0.6] as [number, number],
      turnDeg: 0 as const,
    };
    const piece = { ...shelf, widthM: 1, depthM: 0.5, heightM: 1.4, reflectance: 0.5 };
    placeSunBoxes(u, roomBoxes({ widthM: 8, depthM: 8, heightM: 3 }, [piece]), new Map([['s', 4]]));
    expect(inSunPatch(u, [hit[0], hit[1], 0], -1)).toBe(false);
    // A thing's own boxes throw no edge on it: they are its details.
    expect(inSunPatch(u, [hit[0], hit[1], 0], 4)).toBe(true);
  });
});
