/** Where the contrasts are written on the plan. Pure: px of the plan. */
import type { WarmthBody } from '../../../engine/warmth.ts';
import type { WarmthPatch } from '../../../engine/warmthPatches.ts';
import type { PlanScale } from '../../../report/planGeometry.ts';
import { bodyTag, patchTag } from '../../../report/text/warmth.ts';

/** Thickness at which upright glass is drawn from above, towards the room, px. */
const UPRIGHT_PX = 10;
/** A level patch smaller than this carries no number, px². */
const NUMBER_FROM_PX2 = 900;
/** Width of a character and height of a line of the numbers, px. */
const CHARACTER_PX = 8.6;
const LINE_PX = 20;

export interface PatchBox {
  x: number;
  y: number;
  w: number;
  h: number;
  upright: boolean;
  /** Middle of its number. */
  at: [number, number];
}

/** Level faces as they lie; a pane as a bar along its wall, its number beside it in the room. */
export function patchBox(patch: WarmthPatch, scale: PlanScale): PatchBox {
  const face = patch.facesM[0]!;
  const xs: number[] = [];
  const ys: number[] = [];
  for (let k = 0; k < face.length; k += 3) {
    xs.push(scale.x(face[k]!));
    ys.push(scale.y(face[k + 1]!));
  }
  const [x, y] = [Math.min(...xs), Math.min(...ys)];
  const [w, h] = [Math.max(...xs) - x, Math.max(...ys) - y];
  const middle: [number, number] = [scale.x(patch.middleM[0]), scale.y(patch.middleM[1])];
  if (patch.kind !== 'window') return { x, y, w, h, upright: false, at: middle };
  // The origin of the room is the front left corner: a pane with y 0 lies at the front, with x 0 at the left.
  const along = w > h;
  const first = along ? patch.middleM[1] < 0.01 : patch.middleM[0] < 0.01;
  const inward = along ? (first ? -1 : 1) : first ? 1 : -1;
  const low = inward > 0 ? 0 : -UPRIGHT_PX;
  const step = inward * (UPRIGHT_PX + LINE_PX / 2 + 2);
  return along
    ? { x, y: y + low, w, h: UPRIGHT_PX, upright: true, at: [middle[0], middle[1] + step] }
    : { x: x + low, y, w: UPRIGHT_PX, h, upright: true, at: [middle[0] + step * 1.6, middle[1]] };
}

/** Room beside a body for its letter, px. */
const LETTER_PX = 27;

/** Left end and base line of what is written beside a body, inside the room. */
export function bodyNumberPlace(
  middleM: readonly number[],
  text: string,
  roomWidthM: number,
  scale: PlanScale,
): [number, number] {
  const x = scale.x(middleM[0]!) + Math.max(LETTER_PX, 0.42 * scale.pxPerM);
  const most = scale.x(roomWidthM) - text.length * CHARACTER_PX;
  // Pushed back over the figure, the words go below it.
  return x <= most ? [x, scale.y(middleM[1]!) + 6] : [most, scale.y(middleM[1]!) + 0.3 * scale.pxPerM + LINE_PX];
}

interface Box {
  x: number;
  y: number;
  w: number;
  h: number;
}

function meet(a: Box, b: Box): boolean {
  return a.x < b.x + b.w && b.x < a.x + a.w && a.y < b.y + b.h && b.y < a.y + a.h;
}

export interface PatchNumber {
  patch: WarmthPatch;
  x: number;
  y: number;
}

/**
 * One number for each patch that has room for it. Those of bodies go first; a number that would lie on another is left
 * out where an equal one of the same kind is written, and moved below its neighbour where none is.
 */
export function numbersOnPlan(
  bodies: readonly WarmthBody[],
  patches: readonly WarmthPatch[],
  roomWidthM: number,
  scale: PlanScale,
): PatchNumber[] {
  const taken: Box[] = bodies.flatMap((body) => {
    const [x, y] = bodyNumberPlace(body.middleM, bodyTag(body), roomWidthM, scale);
    const figure = 0.3 * scale.pxPerM;
    const [cx, cy] = [scale.x(body.middleM[0]), scale.y(body.middleM[1])];
    return [
      { x, y: y - LINE_PX * 0.8, w: bodyTag(body).length * CHARACTER_PX, h: LINE_PX },
      { x: cx - figure, y: cy - figure, w: 2 * figure, h: 2 * figure },
    ];
  });
  const numbers: PatchNumber[] = [];
  const written = new Set<string>();
  const bySize = [...patches].sort((p, q) => sizeOf(q, scale) - sizeOf(p, scale));
  for (const patch of bySize) {
    const { at, upright } = patchBox(patch, scale);
    const text = patchTag(patch);
    const same = `${patch.kind} ${text}`;
    if (!upright && sizeOf(patch, scale) < NUMBER_FROM_PX2 && written.has(same)) continue;
    const w = text.length * CHARACTER_PX;
    const box = (dy: number): Box => ({ x: at[0] - w / 2, y: at[1] + dy - LINE_PX / 2, w, h: LINE_PX });
    const free = [0, LINE_PX, -LINE_PX, 2 * LINE_PX].find((dy) => !taken.some((b) => meet(b, box(dy))));
    if (free === undefined && written.has(same)) continue;
    const dy = free ?? 0;
    taken.push(box(dy));
    written.add(same);
    numbers.push({ patch, x: at[0], y: at[1] + dy + 5 });
  }
  return numbers;
}

function sizeOf(patch: WarmthPatch, scale: PlanScale): number {
  const { w, h } = patchBox(patch, scale);
  return w * h;
}
