/** Words for changing the room: surfaces, furniture, lamps. */
import type { FurnitureKind } from '../../engine/types.ts';

export const editWords = {
  open: 'Change surfaces, furniture, lamps',
  region: 'Change the room',
  surfaces: 'Reflectance',
  surface: { floor: 'floor', walls: 'walls', ceiling: 'ceiling', desks: 'desk tops' },
  furniture: 'Furniture',
  lamps: 'Luminaires',
  detector: 'Detector',
  turned: 'turned',
  degrees: (deg: number) => `${deg}°`,
  piece: 'Piece',
  luminaire: 'Luminaire',
  numbered: (name: string, number: number) => `${name} ${number}`,
  place: (x: string, y: string) => `${x} from the left wall, ${y} from the front wall`,
  moves: { left: 'left', right: 'right', back: 'to the back', front: 'to the front' },
  movesSpoken: (piece: string, way: string) => `${piece}: a quarter of a metre ${way}`,
  kind: (row: string) => `${row}: lamps`,
  mixed: 'several kinds',
  updating: 'Light is being worked out anew …',
  stays: 'Measured places stay where they are; only the desk under them moves. Ctrl+Z or Undo takes a change back.',
} as const;

export const furnitureName: Record<FurnitureKind, string> = {
  desk: 'Desk',
  table: 'Table',
  chair: 'Chair',
  shelf: 'Shelf',
  cabinet: 'Cabinet',
  screen: 'Screen',
  glassScreen: 'Glass screen',
  whiteboard: 'Whiteboard',
  plant: 'Plant',
};
