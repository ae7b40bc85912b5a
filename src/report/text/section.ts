/** Words of the side section. */
import type { FurnitureKind, WallId } from '../../engine/types.ts';

export const wallInSection: Record<WallId, string> = {
  back: 'back wall',
  front: 'front wall',
  left: 'left wall',
  right: 'right wall',
};

export const furnitureName: Record<FurnitureKind, string> = {
  desk: 'desk',
  table: 'table',
  chair: 'chair',
  shelf: 'shelf',
  cabinet: 'cabinet',
  screen: 'screen',
  glassScreen: 'glass screen',
  whiteboard: 'whiteboard',
  plant: 'plant',
};

/** Distance as a section can hold it: 2.4 */
export function sectionMetres(m: number): string {
  return Math.abs(m).toFixed(1);
}

/** 2.35–2.69 m, nearer edge first. */
export function sectionSpan([a, b]: readonly [number, number]): string {
  const [near, far] = [Math.min(Math.abs(a), Math.abs(b)), Math.max(Math.abs(a), Math.abs(b))];
  return `${near.toFixed(2)}–${far.toFixed(2)} m`;
}

export const sectionWords = {
  title: 'Side section',
  open: 'Side section',
  close: 'Close',
  turnLeft: 'Turn by 15° to the left',
  turnRight: 'Turn by 15° to the right',
  degrees: (deg: number): string => `${deg}°`,
  plane: (deg: number): string => `${deg}° from the back wall`,
  drawing: (from: string, to: string): string =>
    `Cut through the detector, from the ${from} to the ${to}. Arrow keys turn it; the table has its distances.`,
  onFloor: 'on the floor, m',
  atDesk: (heightM: string): string => `at ${heightM} m, m`,
  deskLine: (heightM: string): string => `desk height ${heightM} m`,
  behind: (name: string): string => `behind the ${name}`,
  under: (name: string): string => `under the ${name}`,
  legend:
    'Solid, +: one half of a facet; open, −: the other. Dots: hidden from the detector. Dotted beams: masked. Dashed line: desk height.',
  table: 'Cells of this plane as a table',
  towards: 'Towards',
  half: 'Half',
  floor: 'Floor',
  desk: 'Desk height',
  ends: 'Ends on',
  floorWord: 'floor',
  wallAt: (m: string): string => `wall, ${m} m up`,
  masked: 'masked',
  nothing: 'No cell of the lens lies in this plane.',
  beyond: 'beyond the wall',
  plus: '+',
  minus: '−',
};
