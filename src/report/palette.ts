/** Colours of a drawing. Colour only ever helps: shape and words carry the meaning, so the print palette has none. */
import type { OutputId, RowId } from '../engine/types.ts';

export interface Palette {
  ink: string;
  soft: string;
  rule: string;
  channel: Record<OutputId, string>;
  figure: string;
  head: string;
  /** Fill of the sun's patches; null: outlines only. */
  sun: string | null;
  /** Ground of the time to come; null: none. */
  ahead: string | null;
  /** Opacity of "part used" areas. */
  tint: number;
}

/** For screens and colour printers. Source: the product's own colours, the same as on the page. */
export const SCREEN_PALETTE: Palette = {
  ink: '#1B2530',
  soft: '#48535E',
  rule: '#D5D3CC',
  channel: { innerRow: '#3A2FA0', windowRow: '#005F66', airContact: '#7D3A00' },
  figure: '#2B4468',
  head: '#5A76A3',
  sun: '#FFE38F',
  ahead: '#F1F0EC',
  tint: 0.16,
};

/** For sheets that are copied: black, one grey, no tints. Source: the product's own print colours. */
export const PRINT_PALETTE: Palette = {
  ink: '#111111',
  soft: '#3D3D3D',
  rule: '#3D3D3D',
  channel: { innerRow: '#111111', windowRow: '#111111', airContact: '#111111' },
  figure: '#3D3D3D',
  head: '#FFFFFF',
  sun: null,
  ahead: null,
  tint: 0,
};

export function outputOf(row: RowId): OutputId {
  return row === 'inner' ? 'innerRow' : 'windowRow';
}
