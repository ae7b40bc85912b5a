/** Written contrasts of the Warmth Map: slots in the tag layer, and their placer inside the canvas. */
import { useFrame, useThree } from '@react-three/fiber';
import { useEffect } from 'react';
import type { Vector3 } from '../../../engine/types.ts';
import type { WarmthView } from '../../../engine/warmth.ts';
import { bodyTag, patchTag } from '../../../report/text/warmth.ts';
import { live } from '../../state/live.ts';
import { useApp } from '../../state/store.ts';
import { useResources } from '../resources.ts';
import styles from '../scene.module.css';
import { type TagBoard, tagOf } from './board.ts';

/** Bodies and still things that can carry a number. Source: the product's limits, 8 people, 4 things; a dozen patches of
 *  sun and glass are more than can be read. */
const BODIES = 12;
const PATCHES = 14;
const bodySlot = (k: number) => `warmth:body:${k}`;
const patchSlot = (k: number) => `warmth:patch:${k}`;
const SLOTS = [
  ...Array.from({ length: BODIES }, (_, k) => bodySlot(k)),
  ...Array.from({ length: PATCHES }, (_, k) => patchSlot(k)),
];

/** Beside a body, px at a stage 1480 wide. */
const BODY_CHOICES: readonly [number, number][] = [
  [62, 0],
  [-62, 0],
  [62, 34],
  [-62, 34],
  [0, 76],
];
const PATCH_CHOICES: readonly [number, number][] = [
  [0, 0],
  [0, -26],
  [0, 26],
  [40, 0],
  [-40, 0],
];

export function WarmthTags({ board }: { board: TagBoard }) {
  const shown = useApp((s) => s.overlay === 'warmth');
  useEffect(() => {
    if (!shown) for (const id of SLOTS) tagOf(board, id).hidden = true;
  }, [board, shown]);
  if (!shown) return null;
  return SLOTS.map((id) => (
    <div
      key={id}
      className={styles.kelvin}
      data-warmth={id}
      ref={(el) => {
        tagOf(board, id).element = el;
      }}
    />
  ));
}

function write(
  board: TagBoard,
  id: string,
  told: { text: string; anchorM: Vector3; choices: readonly [number, number][]; mayGo: boolean } | null,
): void {
  const tag = tagOf(board, id);
  tag.hidden = told === null;
  if (!told) return;
  Object.assign(tag, { anchorM: told.anchorM, choices: told.choices, mayGo: told.mayGo });
  if (tag.element && tag.element.textContent !== told.text) tag.element.textContent = told.text;
}

/** Patches in the order in which they are told; of several equal ones side by side the seen come first. */
function writeAll(board: TagBoard, view: WarmthView | null): void {
  for (let k = 0; k < BODIES; k++) {
    const body = view?.bodies[k];
    const anchorM: Vector3 = body ? [body.middleM[0], body.middleM[1], body.middleM[2] + 0.15] : [0, 0, 0];
    write(board, bodySlot(k), body ? { text: bodyTag(body), anchorM, choices: BODY_CHOICES, mayGo: false } : null);
  }
  for (let k = 0; k < PATCHES; k++) {
    const patch = view?.patches[k];
    const told = patch && { text: patchTag(patch), anchorM: patch.middleM, choices: PATCH_CHOICES, mayGo: true };
    write(board, patchSlot(k), told ?? null);
  }
}

export function WarmthPlacer({ board }: { board: TagBoard }) {
  const r = useResources();
  const invalidate = useThree((s) => s.invalidate);
  useEffect(() => {
    invalidate();
  }, [invalidate]);
  useFrame(({ gl }) => {
    r.warmFigure.uniforms.uRatio!.value = gl.getPixelRatio();
    writeAll(board, live.warmth);
  }, -1);
  return null;
}
