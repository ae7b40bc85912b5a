/** Outlines of cover cloth and torch on a plan, px about the middle of the detector (y down). */
import type { RowId } from '../engine/types.ts';

/** The cloth reaches so far over the detector's disc, and its hem waves so much, px. */
const CLOTH_R = 19;
const WAVE = 2;
const WAVES = 9;
/** Lens of the lamp, end of its head and of its handle, px from the middle: outside the disc, whatever the scale. */
const LENS = 34;
const NECK = 43;
const END = 64;

/** A slack hem round the detector. */
export function clothPath(): string {
  const at = (k: number, r: number): string => {
    const turn = (k / WAVES) * 2 * Math.PI;
    return `${(r * Math.cos(turn)).toFixed(1)} ${(r * Math.sin(turn)).toFixed(1)}`;
  };
  const waves = Array.from(
    { length: WAVES },
    (_, k) => `Q${at(k + 0.25, CLOTH_R + 2 * WAVE)} ${at(k + 0.5, CLOTH_R)}T${at(k + 1, CLOTH_R)}`,
  );
  return `M${at(0, CLOTH_R)}${waves.join('')}z`;
}

/** Lamp and beam: windows are at the top of a plan. */
export function torchPaths(side: RowId): { beam: string; lamp: string } {
  const up = side === 'window' ? -1 : 1;
  const y = (px: number): number => up * px;
  return {
    beam: `M-7 ${y(LENS)}L-13 ${y(8)}L13 ${y(8)}L7 ${y(LENS)}z`,
    lamp: `M-8 ${y(LENS)}h16L4 ${y(NECK)}V${y(END)}h-8V${y(NECK)}z`,
  };
}
