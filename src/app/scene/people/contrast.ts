/** Contrast of every point of the drawn bodies, as the worker last told it. */
import type { BufferAttribute, BufferGeometry } from 'three';
import { PERSON_KINDS } from '../../../engine/people/girth.ts';
import { PART_KINDS, PARTS_PER_BODY } from '../../../engine/types.ts';
import type { WarmthState, WarmthView } from '../../../engine/warmth.ts';
import { BODY_POINTS } from './blend.ts';

/** How a body is shown, as the shader reads it. */
const MODE: Record<WarmthState, number> = { seen: 0, faint: 1, hidden: 2, masked: 2 };
const THING = PART_KINDS.indexOf('thing');
const POINTS_PER_PART = BODY_POINTS / PARTS_PER_BODY;

/** Fills the attribute `contrast` of the bodies' geometry. */
export function writeContrast(geometry: BufferGeometry, view: WarmthView): void {
  const contrast = geometry.getAttribute('contrast') as BufferAttribute;
  const most = contrast.count / BODY_POINTS;
  view.bodies.slice(0, most).forEach(({ partsK, state, thing }, body) => {
    for (let part = 0; part < PARTS_PER_BODY; part++) {
      const k = partsK[thing === null ? PERSON_KINDS[part]! : THING]!;
      const first = (body * PARTS_PER_BODY + part) * POINTS_PER_PART;
      for (let p = first; p < first + POINTS_PER_PART; p++) contrast.setXY(p, k, MODE[state]);
    }
  });
  contrast.needsUpdate = true;
}
