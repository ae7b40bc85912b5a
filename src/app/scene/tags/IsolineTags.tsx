/** Numbers on the isolines of the Light Map: slots in the tag layer, and their placer inside the canvas. */
import { useFrame, useThree } from '@react-three/fiber';
import { useEffect, useMemo } from 'react';
import type { FurnitureSpec } from '../../../engine/types.ts';
import { live } from '../../state/live.ts';
import { useApp } from '../../state/store.ts';
import { useResources } from '../resources.ts';
import styles from '../scene.module.css';
import { type TagBoard, tagOf } from './board.ts';
import { isolineMarks } from './isolines.ts';

/** Levels that carry numbers, and near which places of the floor. Values: `look`; the setpoint is said twice. */
const WISHES: readonly { lux: number; near: readonly (readonly [number, number])[] }[] = [
  {
    lux: 500,
    near: [
      [0.5, 0.62],
      [0.62, 0.3],
    ],
  },
  {
    lux: 300,
    near: [
      [0.9, 0.55],
      [0.2, 0.1],
    ],
  },
  { lux: 200, near: [[0.15, 0.5]] },
  { lux: 100, near: [[0.1, 0.15]] },
  { lux: 1000, near: [[0.4, 0.9]] },
];

const SLOTS = WISHES.flatMap(({ near }) => near).map((_, k) => `iso:${k}`);

export function IsolineTags({ board }: { board: TagBoard }) {
  const shown = useApp((s) => s.overlay === 'light');
  useEffect(() => {
    if (!shown) for (const id of SLOTS) tagOf(board, id).hidden = true;
  }, [board, shown]);
  if (!shown) return null;
  return SLOTS.map((id) => (
    <div
      key={id}
      className={styles.isoline}
      ref={(el) => {
        tagOf(board, id).element = el;
      }}
    />
  ));
}

function write(board: TagBoard, id: string, mark: { lux: number; atM: readonly [number, number] } | undefined): void {
  const tag = tagOf(board, id);
  tag.hidden = mark === undefined;
  if (!mark) return;
  tag.anchorM = [mark.atM[0], mark.atM[1], 0];
  const text = String(mark.lux);
  if (tag.element && tag.element.textContent !== text) tag.element.textContent = text;
}

export function IsolinePlacer({ board, furniture }: { board: TagBoard; furniture: readonly FurnitureSpec[] }) {
  const r = useResources();
  const invalidate = useThree((s) => s.invalidate);
  const tops = useMemo(() => furniture.filter((f) => f.kind !== 'whiteboard'), [furniture]);
  useEffect(() => {
    invalidate();
  }, [invalidate]);
  useFrame(() => {
    if (!live.field || !live.frame) return;
    const covered = ([x, y]: readonly [number, number]) =>
      tops.some((f) => {
        const half = Math.max(f.widthM, f.depthM) / 2;
        // Seen from the corner a thing also hides the floor behind it, about 1.4 times its height.
        const behind = y - f.atM[1];
        return Math.abs(x - f.atM[0]) < half && behind > -half && behind < half + f.heightM * 1.4;
      });
    const marks = isolineMarks(live.field, r.view.lamps, WISHES, covered);
    SLOTS.forEach((id, k) => {
      write(board, id, marks[k]);
    });
  }, -1);
  return null;
}
