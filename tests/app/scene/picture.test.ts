import fc from 'fast-check';
import { DataUtils } from 'three';
import { describe, expect, it } from 'vitest';
import { exposureAim } from '../../../src/app/scene/light/exposure.ts';
import { atlasUv, createAtlasTexture, fillAtlas, layOutAtlas } from '../../../src/app/scene/light/fieldAtlas.ts';
import { sourceMeansLx, viewField } from '../../../src/app/scene/light/viewField.ts';
import type { FieldFace, LightField } from '../../../src/engine/light/types.ts';
import type { Vector3 } from '../../../src/engine/types.ts';
import { bareRoom } from './bareRoom.ts';

/** Faces of any size, each cell with a number of its own in every source. */
const anyField = fc
  .array(fc.record({ nu: fc.integer({ min: 1, max: 30 }), nv: fc.integer({ min: 1, max: 20 }) }), {
    minLength: 1,
    maxLength: 40,
  })
  .map((sizes): LightField => {
    let offset = 0;
    const faces = sizes.map(({ nu, nv }, k): FieldFace => {
      const face: FieldFace = {
        id: `f${k}`,
        kind: 'furniture',
        furnitureId: `f${k}`,
        originM: [k, 0.5, 0],
        uM: [nu * 0.25, 0, 0],
        vM: [0, 0, nv * 0.25],
        normal: [0, -1, 0],
        nu,
        nv,
        offset,
        reflectance: 0.5,
      };
      offset += nu * nv;
      return face;
    });
    // Half floats hold whole numbers exactly up to 2048.
    const source = (k: number) => Float32Array.from({ length: offset }, (_, cell) => (cell * 7 + k * 13) % 2048);
    return { faces, daylightLx: source(0), innerRowLx: source(1), windowRowLx: source(2), doorLx: source(3) };
  });

describe('the texture of the light field', () => {
  it('holds at the middle of every cell exactly the four lux of that cell', () => {
    fc.assert(
      fc.property(anyField, (field) => {
        const atlas = layOutAtlas(field.faces);
        const texture = createAtlasTexture(atlas);
        fillAtlas(atlas, field, texture);
        const data = texture.image.data as Uint16Array;
        for (const slot of atlas.slots) {
          const { face } = slot;
          for (let cell = 0; cell < face.nu * face.nv; cell += 3) {
            const s = ((cell % face.nu) + 0.5) / face.nu;
            const t = (Math.floor(cell / face.nu) + 0.5) / face.nv;
            const p = [0, 1, 2].map((k) => face.originM[k]! + face.uM[k]! * s + face.vM[k]! * t) as Vector3;
            const [u, v] = atlasUv(atlas, slot, p);
            const texel = (Math.floor(v * atlas.height) * atlas.width + Math.floor(u * atlas.width)) * 4;
            const held = [0, 1, 2, 3].map((c) => DataUtils.fromHalfFloat(data[texel + c]!));
            const at = face.offset + cell;
            expect(held).toEqual([field.daylightLx[at], field.innerRowLx[at], field.windowRowLx[at], field.doorLx[at]]);
          }
        }
      }),
      { numRuns: 30 },
    );
  });

  it('never lets two faces share a texel, borders included', () => {
    fc.assert(
      fc.property(anyField, ({ faces }) => {
        const atlas = layOutAtlas(faces);
        const taken = new Set<number>();
        for (const { face, x, y } of atlas.slots) {
          expect(x + face.nu).toBeLessThan(atlas.width);
          expect(y + face.nv).toBeLessThan(atlas.height);
          for (let j = -1; j < face.nv + 1; j++) {
            for (let i = -1; i < face.nu + 1; i++) {
              const texel = (y + j) * atlas.width + x + i;
              expect(taken.has(texel)).toBe(false);
              taken.add(texel);
            }
          }
        }
      }),
      { numRuns: 20 },
    );
  });
});

describe('light from above for things without cells of their own', () => {
  it('comes from the desk where there is one, from the floor elsewhere', () => {
    const room = bareRoom();
    const face = (id: string, kind: 'floor' | 'furniture', z: number, from: number, to: number, offset: number) =>
      ({
        id,
        kind,
        furnitureId: kind === 'furniture' ? id : null,
        originM: [from, from, z],
        uM: [to - from, 0, 0],
        vM: [0, to - from, 0],
        normal: [0, 0, 1],
        nu: 4,
        nv: 4,
        offset,
        reflectance: 0.5,
      }) as FieldFace;
    const lux = Float32Array.from({ length: 32 }, (_, k) => (k < 16 ? 100 : 700));
    const zero = new Float32Array(32);
    const field = viewField(room, {
      faces: [face('floor', 'floor', 0, 0, 8, 0), face('desk', 'furniture', 0.74, 4, 6, 16)],
      daylightLx: lux,
      innerRowLx: zero,
      windowRowLx: zero,
      doorLx: zero,
    });
    const top = field.faces.at(-1)!;
    const at = (x: number, y: number) =>
      field.daylightLx[
        top.offset + Math.floor((y / room.depthM) * top.nv) * top.nu + Math.floor((x / room.widthM) * top.nu)
      ];
    expect(at(5, 5)).toBe(700);
    expect(at(1, 1)).toBe(100);
  });
});

describe('exposure', () => {
  it('shows more light brighter, never darker', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 4000, noNaN: true }),
        fc.double({ min: 1.01, max: 3, noNaN: true }),
        (lx, more) => {
          const shown = (mean: number) => mean * exposureAim([mean, 0, 0, 0], { inner: 0, window: 0 });
          expect(shown(lx * more)).toBeGreaterThan(shown(lx));
        },
      ),
    );
  });

  it('counts a row only as far as it is lit', () => {
    const off = exposureAim([10, 400, 0, 0], { inner: 0, window: 0 });
    const half = exposureAim([10, 400, 0, 0], { inner: 0.5, window: 0 });
    const on = exposureAim([10, 400, 0, 0], { inner: 1, window: 0 });
    expect(off).toBeGreaterThan(half);
    expect(half).toBeGreaterThan(on);
  });
});

it('exposes a light-coloured room less than a dark one in the same light', () => {
  const face = (reflectance: number) =>
    ({ kind: 'floor', nu: 2, nv: 2, offset: 0, reflectance }) as unknown as LightField['faces'][number];
  const lux = new Float32Array(4).fill(500);
  const zero = new Float32Array(4);
  const means = (reflectance: number) =>
    sourceMeansLx({ faces: [face(reflectance)], daylightLx: zero, innerRowLx: lux, windowRowLx: zero, doorLx: zero });
  const on = { inner: 1, window: 0 };
  expect(means(0.6)[1] / means(0.3)[1]).toBeCloseTo(2, 6);
  expect(exposureAim(means(0.6), on)).toBeLessThan(exposureAim(means(0.3), on));
});
