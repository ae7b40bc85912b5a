/** What the detector's view consists of: plain, small, shared with the page, which does not load the calculation. */

/** What a photometer looks at. `walls`: walls, ceiling and doors; `furniture`: chairs, shelves, screens; `lamps`: seen directly. */
export const SEEN_PARTS = ['floor', 'desks', 'furniture', 'walls', 'window', 'lamps'] as const;
export type SeenPart = (typeof SEEN_PARTS)[number];
/** Whose light it is, reflections included. */
export const LIGHT_SOURCES = ['daylight', 'innerRow', 'windowRow', 'doors'] as const;
export type LightSource = (typeof LIGHT_SOURCES)[number];
/** Parts of one reading, lx-like; all of them together are the ceiling reading. */
export type ReadingParts = Record<LightSource, Record<SeenPart, number>>;

/** Pixels along the side of the picture. Assumed: 128; its mean in the cone is within 2 % of the reading, with 96 it was 4 % off over a strip of sun. */
export const VIEW_PX = 128;

/** An outline over the picture, disc coordinates -1 to 1 (right, up); pieces that lie behind the photometer are left out. */
export interface ViewOutline {
  kind: 'window' | 'desk' | 'lamp';
  points: [number, number][];
}

export interface DetectorView {
  /** Luminance, cd/m2, VIEW_PX x VIEW_PX, rows from top; -1 outside the disc. Up: the way the photometer leans. */
  luminance: Float32Array;
  /** Radius of the photometer's cone on the disc of radius 1. */
  coneRadius: number;
  outlines: ViewOutline[];
}
