/** Moves every tag and its leader, once per drawn frame. */
import { useFrame, useThree } from '@react-three/fiber';
import { useEffect } from 'react';
import { type PerspectiveCamera, Vector3 as V3 } from 'three';
import type { DetectorMount, RoomSpec, Vector3 } from '../../../engine/types.ts';
import { NUMBERS_PER_PART, PARTS_PER_BODY } from '../../../engine/types.ts';
import { live } from '../../state/live.ts';
import { meets } from '../boxRay.ts';
import { toThree } from '../camera.ts';
import { boardBounds, SLAB_M } from '../model/outside.ts';
import { bodyTopM } from '../people/blend.ts';
import { useResources } from '../resources.ts';
import { bestOffset, isFree, type Rect } from './arrange.ts';
import type { Tag, TagBoard } from './board.ts';
import { tagOf } from './board.ts';
import { placeFixedTags } from './places.ts';

const scratch = new V3();

/** Stage width that the offsets are given for, px, and how far they shrink. Value: `look`. */
const STAGE_PX = 1480;
const LEAST_SCALE = 0.62;

function project(p: Vector3, camera: PerspectiveCamera, w: number, h: number): [number, number] {
  toThree(p[0], p[1], p[2], scratch).project(camera);
  return [((scratch.x + 1) / 2) * w, ((1 - scratch.y) / 2) * h];
}

const within = (v: number, low: number, high: number) => Math.min(Math.max(v, low), Math.max(low, high));

interface StageView {
  camera: PerspectiveCamera;
  w: number;
  h: number;
  scale: number;
  /** How far the model reaches on the stage, px. */
  model: { left: number; right: number };
}

function show(tag: Tag): boolean {
  const visibility = tag.hidden ? 'hidden' : 'visible';
  for (const part of [tag.element, tag.line, tag.dot]) part?.style.setProperty('visibility', visibility);
  return !tag.hidden;
}

/** Gap between the model and labels beside it, px. */
const BESIDE_PX = 12;

function standAt(tag: Tag, { camera, w, h, model }: StageView): [number, number] {
  const [x, y] = project(tag.standM ?? tag.anchorM, camera, w, h);
  if (tag.beside === 'right') return [Math.max(x, model.right + BESIDE_PX), y];
  if (tag.beside === 'left') return [Math.min(x, model.left - BESIDE_PX), y];
  return [x, y];
}

function modelReach(room: RoomSpec, camera: PerspectiveCamera, w: number, h: number): { left: number; right: number } {
  const { min, max } = boardBounds(room);
  const xs = [min[0], max[0]].flatMap((x) => [min[1], max[1]].map((y) => project([x, y, -SLAB_M], camera, w, h)[0]));
  return { left: Math.min(...xs), right: Math.max(...xs) };
}

function moveTag(tag: Tag, stage: StageView): Rect | null {
  const { camera, w, h, scale } = stage;
  const el = tag.element;
  if (!el || !show(tag)) return null;
  const [ax, ay] = project(tag.anchorM, camera, w, h);
  const [sx, sy] = standAt(tag, stage);
  const [ew, eh] = [el.offsetWidth, el.offsetHeight];
  const x = within(sx + tag.offset[0] * scale - tag.hold[0] * ew, 8, w - ew - 8);
  const y = within(sy + tag.offset[1] * scale - tag.hold[1] * eh, 8, h - eh - 8);
  el.style.transform = `translate(${Math.round(x)}px, ${Math.round(y)}px)`;
  if (tag.leader && tag.line) {
    const end = [x + tag.leader[0] * ew, y + tag.leader[1] * eh] as const;
    const set = (name: string, value: number) => tag.line!.setAttribute(name, value.toFixed(1));
    set('x1', ax);
    set('y1', ay);
    set('x2', end[0]);
    set('y2', end[1]);
    tag.dot?.setAttribute('cx', ax.toFixed(1));
    tag.dot?.setAttribute('cy', ay.toFixed(1));
  }
  return { x, y, w: ew, h: eh };
}

/** Covering more than this share of its own area, a tag that may is left out: there is no room for it on this stage. */
const CROWDED_SHARE = 0.3;

/** Whether this letter belongs to somebody who stays in place: tags make room for them, not for whoever walks by. */
function stays(id: string): boolean {
  const person = live.frame?.people.find((p) => id === `person:${p.id}`);
  return person !== undefined && person.act !== 'walk';
}

const sizeOf = (el: HTMLElement): [number, number] => [el.offsetWidth, el.offsetHeight];

function settle(tag: Tag, stage: StageView, taken: Rect[], points: readonly [number, number][]): void {
  if (!tag.element) return;
  const at = project(tag.anchorM, stage.camera, stage.w, stage.h);
  const size = sizeOf(tag.element);
  const offsets = tag.choices.map(([dx, dy]) => [dx * stage.scale, dy * stage.scale] as [number, number]);
  const { index, cost } = bestOffset(at, size, offsets, taken, points, { hold: tag.hold, held: tag.held });
  tag.held = index;
  tag.offset = tag.choices[index]!;
  const left = tag.mayGo && cost > CROWDED_SHARE * size[0] * size[1];
  const rect = moveTag(left ? { ...tag, hidden: true } : tag, stage);
  if (rect) taken.push(rect);
}

/** On its line, where that is seen and nothing else stands, or not at all. */
function settleAlong(
  tag: Tag,
  stage: StageView,
  board: TagBoard,
  taken: Rect[],
  points: readonly [number, number][],
): void {
  if (!tag.element || !tag.along) return;
  const { x, y, z } = stage.camera.position;
  const seen = (p: Vector3) => !board.solids.some((solid) => meets(solid, p, [x - p[0], -z - p[1], y - p[2]]));
  const free = (p: Vector3 | undefined) =>
    p !== undefined &&
    isFree(project(p, stage.camera, stage.w, stage.h), sizeOf(tag.element!), stage, taken, points) &&
    seen(p);
  const held = tag.along[tag.held];
  tag.held = free(held) ? tag.held : tag.along.findIndex(free);
  tag.anchorM = tag.along[tag.held] ?? tag.anchorM;
  const rect = moveTag(tag.held < 0 ? { ...tag, hidden: true } : tag, stage);
  if (rect) taken.push(rect);
}

/**
 * Fixed tags, then those that must stay, letters around them, the others around whoever sits or stands, the letters of
 * whoever walks, and last the tags that have a line to go along.
 */
function moveTags(board: TagBoard, stage: StageView): void {
  const taken: Rect[] = [];
  const roaming: Tag[] = [];
  const onLines: Tag[] = [];
  const letters: Record<'staying' | 'walking', Tag[]> = { staying: [], walking: [] };
  for (const [id, tag] of board.tags) {
    if (tag.along) {
      onLines.push(tag);
      continue;
    }
    if (id.startsWith('person:') && !tag.hidden) {
      letters[stays(id) ? 'staying' : 'walking'].push(tag);
      continue;
    }
    if (tag.choices.length > 0 && !tag.hidden) {
      roaming.push(tag);
      continue;
    }
    const rect = moveTag(tag, stage);
    if (rect) taken.push(rect);
  }
  const points = board.keepClearM.map((p) => project(p, stage.camera, stage.w, stage.h));
  // Those that must stay choose first.
  for (const tag of roaming) if (!tag.mayGo) settle(tag, stage, taken, points);
  for (const tag of letters.staying) settle(tag, stage, taken, []);
  for (const tag of roaming) if (tag.mayGo) settle(tag, stage, taken, points);
  // A copy: nothing makes room for whoever walks by.
  for (const tag of letters.walking) settle(tag, stage, [...taken], []);
  for (const tag of onLines) settleAlong(tag, stage, board, taken, points);
}

/** Offsets of a letter from over its head, px at a stage 1480 wide: aside where a number stands there. */
const LETTER_CHOICES: readonly [number, number][] = [
  [0, 0],
  [-40, 10],
  [40, 10],
  [0, -44],
  [-56, 44],
  [56, 44],
  [-70, -30],
  [70, -30],
];

/** Letter discs above the heads, from the blended bodies. */
function placeLetters(board: TagBoard, parts: Float32Array, count: number): void {
  const people = live.frame?.people ?? [];
  for (const tag of board.tags) if (tag[0].startsWith('person:')) tag[1].hidden = true;
  let body = 0;
  for (const person of people) {
    if (!person.present || body >= count) continue;
    const at = body * PARTS_PER_BODY * NUMBERS_PER_PART;
    body++;
    const tag = tagOf(board, `person:${person.id}`);
    tag.hidden = false;
    tag.anchorM = [person.atM[0], person.atM[1], bodyTopM(parts, at) + 0.12];
    tag.hold = [0.5, 1];
    tag.choices = LETTER_CHOICES;
  }
}

export function TagProjector({ board, room, mount }: { board: TagBoard; room: RoomSpec; mount: DetectorMount }) {
  const r = useResources();
  const camera = useThree((s) => s.camera) as PerspectiveCamera;
  const size = useThree((s) => s.size);
  const invalidate = useThree((s) => s.invalidate);
  useEffect(() => {
    placeFixedTags(board, room, mount);
    board.invalidate = invalidate;
    invalidate();
  }, [board, room, mount, invalidate]);
  useFrame(() => {
    placeLetters(board, r.view.parts, r.view.bodyCount);
    const scale = Math.max(LEAST_SCALE, Math.min(size.width / STAGE_PX, 1.15));
    const model = modelReach(room, camera, size.width, size.height);
    moveTags(board, { camera, w: size.width, h: size.height, scale, model });
  });
  return null;
}
