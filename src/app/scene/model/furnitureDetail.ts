/** Shelf with spines, plant with leaves: the two pieces whose detail is more than a few boxes. */
import type { FurnitureSpec, Vector3 } from '../../../engine/types.ts';
import { type Builder, box, CUBE, cone, type LightFrom, type Paint, polygon } from './builder.ts';
import { MATERIAL, SPINES, tinted } from './palette.ts';

/** Repeatable spread in 0-1 for decoration (no chance in the picture: same room, same books). */
function spread(k: number): number {
  const v = Math.sin(k * 127.1 + 11.7) * 43_758.545;
  return v - Math.floor(v);
}

/** Spines of one board, from x0 to x1, standing between z0 and z1 at the front plane y. */
function buildSpines(
  b: Builder,
  f: FurnitureSpec,
  index: number,
  [x0, x1]: [number, number],
  [z0, z1]: [number, number],
  seed: number,
): void {
  const yBack = -f.depthM / 2 + 0.03;
  let x = x0;
  let k = seed;
  while (x < x1 - 0.05) {
    k++;
    const width = 0.03 + 0.035 * spread(k);
    if (spread(k * 3.3) < 0.16) {
      x += width * 2.5;
      continue;
    }
    const color = SPINES[Math.floor(spread(k * 1.7) * SPINES.length)]!;
    const paint: Paint = { color, light: CUBE, share: 0.7, own: index };
    const top = z0 + (z1 - z0) * (0.66 + 0.26 * spread(k * 2.1));
    const y = f.depthM / 2 - 0.03 - 0.05 * spread(k * 5.1);
    box(b, [x, yBack, z0], [Math.min(x + width * 0.94, x1), y, top], (side) =>
      side === 'bottom' || side === 'front' ? null : paint,
    );
    x += width;
  }
}

/** Carcass open at the front (local +y), boards every 36 cm, books. */
export function buildShelf(b: Builder, f: FurnitureSpec, index: number): void {
  const [w, d, h] = [f.widthM / 2, f.depthM / 2, f.heightM];
  const light: LightFrom = { kind: 'furniture', furnitureId: f.id };
  const color = tinted(MATERIAL.shelf, f.reflectance);
  const paint: Paint = { color, light, own: index };
  const inner: Paint = { color, light: CUBE, share: 0.6, own: index };
  const t = 0.022;
  box(b, [-w, -d, 0], [-w + t, d, h], (side) => (side === 'right' ? inner : paint));
  box(b, [w - t, -d, 0], [w, d, h], (side) => (side === 'left' ? inner : paint));
  box(b, [-w, -d, h - t], [w, d, h], paint);
  polygon(
    b,
    [
      [-w, -d, 0],
      [w, -d, 0],
      [w, -d, h],
      [-w, -d, h],
    ],
    paint,
  );
  polygon(
    b,
    [
      [-w, -d + 0.02, 0],
      [w, -d + 0.02, 0],
      [w, -d + 0.02, h],
      [-w, -d + 0.02, h],
    ].reverse() as Vector3[],
    inner,
  );
  const boards = Math.max(2, Math.round(h / 0.36));
  const step = (h - t) / boards;
  const bays = Math.max(1, Math.round(f.widthM / 0.85));
  for (let bay = 1; bay < bays; bay++) {
    const x = -w + (f.widthM * bay) / bays;
    box(b, [x - t / 2, -d + 0.02, 0], [x + t / 2, d, h - t], inner);
  }
  for (let k = 0; k < boards; k++) {
    const z = k * step;
    box(b, [-w + t, -d + 0.02, z], [w - t, d, z + t], inner);
    for (let bay = 0; bay < bays; bay++) {
      const x0 = -w + (f.widthM * bay) / bays + t;
      const x1 = -w + (f.widthM * (bay + 1)) / bays - t;
      buildSpines(b, f, index, [x0, x1], [z + t, z + step], index * 97 + k * 31 + bay * 13);
    }
  }
  if (h < 2.2)
    box(b, [-w + 0.1, -d + 0.04, h], [-w + 0.5, d - 0.03, h + 0.24], {
      color: tinted(MATERIAL.paper, 0.6),
      light: CUBE,
    });
}

/** One broad leaf: two bent quads from the stem at `from`, `length` long in direction `a` (radians), rising by `rise`. */
function leaf(b: Builder, from: Vector3, a: number, length: number, rise: number, paint: Paint): void {
  const along: Vector3 = [Math.cos(a), Math.sin(a), 0];
  const side: Vector3 = [-Math.sin(a), Math.cos(a), 0];
  const at = (u: number, v: number, z: number): Vector3 => [
    from[0] + along[0] * u + side[0] * v,
    from[1] + along[1] * u + side[1] * v,
    from[2] + z,
  ];
  const w = length * 0.3;
  const root = at(0, 0, 0);
  const tip = at(length, 0, rise * 0.55);
  const mid = at(length * 0.5, 0, rise);
  const l = at(length * 0.5, w, rise * 0.9);
  const r = at(length * 0.5, -w, rise * 0.9);
  polygon(b, [root, mid, l], paint);
  polygon(b, [mid, tip, l], paint);
  polygon(b, [root, r, mid], paint);
  polygon(b, [r, tip, mid], paint);
}

export function buildPlant(b: Builder, f: FurnitureSpec, index: number): void {
  const pot: Paint = { color: MATERIAL.pot, light: CUBE, own: index };
  const earth: Paint = { color: [0.08, 0.06, 0.045], light: CUBE, own: index };
  const r = Math.min(f.widthM, f.depthM) / 2;
  const potTop = f.heightM * 0.26;
  cone(b, [0, 0], [r * 0.55, 0], [r * 0.7, potTop], 20, pot, { top: earth });
  const count = 30;
  for (let k = 0; k < count; k++) {
    const share = (k + 0.5) / count;
    const tone = 0.8 + 0.7 * spread(k * 7.7);
    const [lr, lg, lb] = MATERIAL.leaf;
    const paint: Paint = { color: [lr * tone, lg * tone, lb * tone], light: CUBE, own: index };
    const z = potTop + (f.heightM - potTop) * (0.12 + 0.8 * share);
    const angle = k * 2.4;
    const out = r * 0.3 * (1 - share);
    const length = r * (0.95 - 0.35 * share);
    leaf(b, [Math.cos(angle) * out, Math.sin(angle) * out, z], angle, length, 0.1 - 0.05 * spread(k), paint);
    leaf(b, [0, 0, z - 0.02], angle + 1.2, length * 0.85, 0.06, { ...paint, color: [lr, lg * 0.85, lb] });
  }
}
