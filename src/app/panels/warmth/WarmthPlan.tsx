/** The Warmth Map on the plan: still things hatched on floor, desks and walls; bodies from above, each part by its own. */
import { useEffect, useRef } from 'react';
import { PERSON_KINDS } from '../../../engine/people/girth.ts';
import { PART_KINDS, PARTS_PER_BODY } from '../../../engine/types.ts';
import type { WarmthPatch } from '../../../engine/warmthPatches.ts';
import type { PlanScale } from '../../../report/planGeometry.ts';
import { bodyTag, patchTag } from '../../../report/text/warmth.ts';
import { live, onLive } from '../../state/live.ts';
import { useShown } from '../../state/store.ts';
import { hatchId } from '../../theme/hatch.ts';
import { partsFromAbove } from './bodyPaths.ts';
import { HatchDefs } from './HatchDefs.tsx';
import styles from './Warmth.module.css';

function fillOf(contrastK: number): string {
  const id = hatchId(contrastK);
  return id ? `url(#${id})` : '#fff';
}

/** Thickness at which upright faces are drawn from above, px. */
const UPRIGHT_PX = 9;
/** A patch smaller than this carries no number, px². */
const NUMBER_FROM_PX2 = 900;

interface Drawn {
  key: string;
  d: string;
  areaPx2: number;
  at: [number, number];
}

/** A level face as it lies; a pane as a bar along its wall, towards the room. */
function drawn(patch: WarmthPatch, scale: PlanScale): Drawn {
  const face = patch.facesM[0]!;
  const points: [number, number][] = [];
  for (let k = 0; k < face.length; k += 3) points.push([scale.x(face[k]!), scale.y(face[k + 1]!)]);
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  const [w, h] = [Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys)];
  const at: [number, number] = [scale.x(patch.middleM[0]), scale.y(patch.middleM[1])];
  if (patch.kind !== 'window') {
    const d = `M${points.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join('L')}z`;
    return { key: patch.id, d, areaPx2: w * h, at };
  }
  const half = UPRIGHT_PX / 2;
  const [x, y] = [Math.min(...xs), Math.min(...ys)];
  const d = w > h ? `M${x} ${y - half}h${w}v${2 * half}h${-w}z` : `M${x - half} ${y}h${2 * half}v${h}h${-2 * half}z`;
  return { key: patch.id, d, areaPx2: NUMBER_FROM_PX2, at };
}

/** `under`: what furniture stands on; `over`: on desk tops and walls, with the numbers of all. */
export function WarmthPatches({ scale, part }: { scale: PlanScale; part: 'under' | 'over' }) {
  useShown(() => JSON.stringify(live.warmth?.patches.map(({ id, contrastK }) => [id, contrastK.toFixed(2)])), '');
  const patches = live.warmth?.patches ?? [];
  const here = patches.filter(({ kind }) => (part === 'under') === (kind === 'sunFloor'));
  return (
    <g>
      {part === 'under' && <HatchDefs />}
      <g className={styles.patches}>
        {here.map((patch) => (
          <path key={patch.id} d={drawn(patch, scale).d} fill={fillOf(patch.contrastK)} data-warmth={patch.kind} />
        ))}
      </g>
      {part === 'over' && patches.map((patch) => <PatchNumber key={patch.id} patch={patch} scale={scale} />)}
    </g>
  );
}

function PatchNumber({ patch, scale }: { patch: WarmthPatch; scale: PlanScale }) {
  const { areaPx2, at } = drawn(patch, scale);
  if (areaPx2 < NUMBER_FROM_PX2) return null;
  return (
    <text x={at[0]} y={at[1] + 5} textAnchor="middle" className={styles.number} data-warmth-patch={patch.id}>
      {patchTag(patch)}
    </text>
  );
}

/** Bodies of the frame, in their order; React knows only how many and what is written beside them. */
export function WarmthBodies({ scale }: { scale: PlanScale }) {
  const tags = useShown(() => live.warmth?.bodies.map((b) => [b.id, b.state, bodyTag(b)].join('|')).join('\n'), '');
  return (tags ?? '')
    .split('\n')
    .filter(Boolean)
    .map((line, body) => {
      const [id, state, tag] = line.split('|');
      return <Body key={id} id={id!} body={body} state={state!} tag={tag!} scale={scale} />;
    });
}

interface BodyProps {
  id: string;
  body: number;
  state: string;
  tag: string;
  scale: PlanScale;
}

const SLOTS = Array.from({ length: PARTS_PER_BODY }, (_, k) => k);

function kindOf(part: number, thing: boolean): number {
  return thing ? PART_KINDS.indexOf('thing') : PERSON_KINDS[part]!;
}

function Body({ id, body, state, tag, scale }: BodyProps) {
  const edge = useRef<SVGPathElement>(null);
  const inside = useRef<SVGGElement>(null);
  const text = useRef<SVGTextElement>(null);
  useEffect(() => {
    const write = (): void => {
      const warmth = live.warmth?.bodies[body];
      if (!live.frame || !warmth || !inside.current) return;
      const paths = body < live.frame.bodyCount ? partsFromAbove(live.frame.bodyParts, body, scale) : [];
      edge.current?.setAttribute('d', paths.map(({ d }) => d).join(''));
      for (const k of SLOTS) {
        const path = inside.current.children[k];
        const one = paths[k];
        path?.setAttribute('d', one?.d ?? '');
        const shown = warmth.state === 'seen' && one;
        const contrastK = one ? warmth.partsK[kindOf(one.part, warmth.thing !== null)]! : 0;
        path?.setAttribute('fill', shown ? fillOf(contrastK) : '#fff');
      }
      text.current?.setAttribute('x', (scale.x(warmth.middleM[0]) + 0.4 * scale.pxPerM).toFixed(1));
      text.current?.setAttribute('y', (scale.y(warmth.middleM[1]) + 5).toFixed(1));
    };
    write();
    return onLive(write);
  }, [body, scale]);
  return (
    <g data-state={state}>
      <path ref={edge} className={styles.edge} />
      <g ref={inside} className={styles.inside}>
        {SLOTS.map((k) => (
          <path key={k} />
        ))}
      </g>
      <text ref={text} className={styles.number} data-warmth-body={id}>
        {tag}
      </text>
    </g>
  );
}
