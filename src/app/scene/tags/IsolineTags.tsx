/** Numbers on the isolines of the Light Map: slots in the tag layer, and their placer inside the canvas. */
import { useFrame, useThree } from '@react-three/fiber';
import { useEffect, useRef } from 'react';
import { roomBoxes } from '../../../engine/room/boxes.ts';
import type { FurnitureSpec, RoomSpec, Vector3 } from '../../../engine/types.ts';
import { useApp } from '../../state/store.ts';
import type { Solid } from '../boxRay.ts';
import { inSunPatch } from '../light/sun.ts';
import type { LightLine } from '../lines/lightLines.ts';
import { cutHeightM, WALL_M } from '../model/shell.ts';
import { useResources } from '../resources.ts';
import styles from '../scene.module.css';
import { type TagBoard, tagOf } from './board.ts';
import { isolinePlaces, type Wish } from './isolines.ts';

/** Near which places of the floor levels carry their numbers. Values: `look`; the setpoint is said twice. */
const SETPOINT_NEAR: readonly (readonly [number, number])[] = [
  [0.5, 0.62],
  [0.62, 0.3],
];
const WISHES: readonly Wish[] = [
  { lux: 300, near: [0.9, 0.55] },
  { lux: 300, near: [0.2, 0.1] },
  { lux: 200, near: [0.15, 0.5] },
  { lux: 100, near: [0.1, 0.15] },
  { lux: 1000, near: [0.4, 0.9] },
  { lux: 500, near: [0.75, 0.8] },
];

function wishesFor(setpointLx: number): Wish[] {
  return [
    ...SETPOINT_NEAR.map((near) => ({ lux: setpointLx, near })),
    ...WISHES.filter(({ lux }) => lux !== setpointLx),
  ];
}

const SLOTS = [...SETPOINT_NEAR, ...WISHES].map((_, k) => `iso:${k}`);

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

function write(board: TagBoard, id: string, wish: Wish | undefined, along: readonly Vector3[]): void {
  const tag = tagOf(board, id);
  tag.hidden = along.length === 0;
  tag.along = along;
  tag.held = -1;
  const text = String(wish?.lux ?? '');
  if (tag.element && tag.element.textContent !== text) tag.element.textContent = text;
}

/** Furniture and the two cut walls towards the eye. */
function solidsOf(room: RoomSpec, furniture: readonly FurnitureSpec[]): Solid[] {
  const { widthM: w, depthM: d } = room;
  return [
    ...roomBoxes(room, [...furniture]).filter((box) => !box.glass),
    { minM: [-WALL_M, -WALL_M, 0], maxM: [w + WALL_M, 0, cutHeightM(room, 'front')] },
    { minM: [w, -WALL_M, 0], maxM: [w + WALL_M, d + WALL_M, cutHeightM(room, 'right')] },
  ];
}

export function IsolinePlacer({
  board,
  room,
  furniture,
}: {
  board: TagBoard;
  room: RoomSpec;
  furniture: readonly FurnitureSpec[];
}) {
  const r = useResources();
  const invalidate = useThree((s) => s.invalidate);
  const placed = useRef<readonly LightLine[] | null>(null);
  useEffect(() => {
    board.solids = solidsOf(room, furniture);
    invalidate();
  }, [board, room, furniture, invalidate]);
  useFrame(() => {
    if (placed.current === r.lines) return;
    // Their elements come with the page's own render, which may be later.
    placed.current = SLOTS.every((id) => tagOf(board, id).element) ? r.lines : null;
    // A line is drawn in the sun or out of it; its number stands where it is drawn.
    const drawn = (at: Vector3, line: LightLine) => inSunPatch(r.uniforms, at, line.own) === line.sunLx > 0;
    const wishes = wishesFor(r.uniforms.uSetpointLx.value || 500);
    const places = isolinePlaces(r.lines, room, wishes, drawn);
    SLOTS.forEach((id, k) => {
      write(board, id, wishes[k], places[k] ?? []);
    });
  }, -1);
  return null;
}
