/** What is written on the Sight Map: masked sectors, and floor that tall furniture hides. The same in both views. */
import type { FloorShadow } from '../../engine/detection/floorShadows.ts';
import type { DetectorMount, FurnitureSpec, PointM, RoomSpec } from '../../engine/types.ts';
import { furnitureName, sectionWords } from '../../report/text/section.ts';

export interface SightLabel {
  text: string;
  atM: PointM;
}

/** Sectors of the clip-on mask. Source: the detector's own, 30 degrees each. */
const SECTORS = 12;
/** Distance of the word from the detector, m. Assumed: clear of the detector's own tags, inside most rooms. */
const WORD_M = 1.9;
/** Lower furniture hides only what lies under and close behind it, m. Assumed: above desks. */
const TALL_M = 0.95;
/** Shadows that reach less beyond the piece itself carry no words, m2; and this many words are enough. */
const NAMED_FROM_M2 = 0.4;
const MOST_NAMES = 4;

/** Place on the floor at a bearing from the window arrow, kept inside the room. */
function placeAt(room: RoomSpec, mount: DetectorMount, bearingDeg: number): PointM {
  const rad = ((bearingDeg + mount.turnDeg) * Math.PI) / 180;
  const keep = (v: number, most: number) => Math.min(Math.max(v, 0.5), most - 0.5);
  return [
    keep(mount.atM[0] + Math.sin(rad) * WORD_M, room.widthM),
    keep(mount.atM[1] + Math.cos(rad) * WORD_M, room.depthM),
  ];
}

/** Neighbouring masked sectors as one, [first, count]. */
export function maskedRuns(masked: readonly number[]): [number, number][] {
  const on = (k: number) => masked.includes(((k % SECTORS) + SECTORS) % SECTORS);
  if (masked.length >= SECTORS) return [[0, SECTORS]];
  const runs: [number, number][] = [];
  for (let k = 0; k < SECTORS; k++) {
    if (!on(k) || on(k - 1)) continue;
    let count = 1;
    while (on(k + count)) count++;
    runs.push([k, count]);
  }
  return runs;
}

function middleOf(outline: readonly PointM[]): PointM {
  const n = outline.length;
  return [outline.reduce((sum, p) => sum + p[0] / n, 0), outline.reduce((sum, p) => sum + p[1] / n, 0)];
}

export function sightLabels(
  room: RoomSpec,
  mount: DetectorMount,
  masked: readonly number[],
  shadows: readonly FloorShadow[],
  furniture: readonly FurnitureSpec[],
): SightLabel[] {
  const masks = maskedRuns(masked).map(([first, count]) => ({
    text: sectionWords.masked,
    atM: placeAt(room, mount, (first + count / 2) * 30),
  }));
  const named = new Map<string, SightLabel>();
  const largest = [...shadows].sort((a, b) => b.areaM2 - a.areaM2);
  for (const { furnitureId, topM, areaM2, outlineM } of largest) {
    const piece = furniture.find((f) => f.id === furnitureId);
    if (!piece || piece.kind === 'chair' || topM < TALL_M || named.size >= MOST_NAMES) continue;
    if (areaM2 - piece.widthM * piece.depthM < NAMED_FROM_M2) continue;
    const text = sectionWords.behind(furnitureName[piece.kind]);
    if (!named.has(text)) named.set(text, { text, atM: middleOf(outlineM) });
  }
  return [...masks, ...named.values()];
}
