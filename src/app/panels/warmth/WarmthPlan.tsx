/** The Warmth Map on the plan: still things hatched on floor, desks and walls; bodies from above, each part by its own. */
import { useEffect, useRef } from 'react';
import { PERSON_KINDS } from '../../../engine/people/girth.ts';
import { PART_KINDS, PARTS_PER_BODY } from '../../../engine/types.ts';
import type { WarmthPatch } from '../../../engine/warmthPatches.ts';
import type { PlanScale } from '../../../report/planGeometry.ts';
import { bodyTag, patchTag } from '../../../report/text/warmth.ts';
import { live, onLive } from '../../state/live.ts';
import { useApp, useShown } from '../../state/store.ts';
import { hatchId } from '../../theme/hatch.ts';
import { partsFromAbove } from './bodyPaths.ts';
import { HatchDefs } from './HatchDefs.tsx';
import { bodyNumberPlace, numbersOnPlan, patchBox } from './numbers.ts';
import styles from './Warmth.module.css';

function fillOf(contrastK: number): string {
  const id = hatchId(contrastK);
  return id ? `url(#${id})` : '#fff';
}

/** Outline of a patch on the plan. */
function pathOf(patch: WarmthPatch, scale: PlanScale): string {
  const { x, y, w, h, upright } = patchBox(patch, scale);
  if (upright) return `M${x} ${y}h${w}v${h}h${-w}z`;
  const face = patch.facesM[0]!;
  let d = '';
  for (let k = 0; k < face.length; k += 3) {
    d += `${k === 0 ? 'M' : 'L'}${scale.x(face[k]!).toFixed(1)} ${scale.y(face[k + 1]!).toFixed(1)}`;
  }
  return `${d}z`;
}

function useRoomWidthM(): number {
  return useApp((s) => s.scenario?.room.widthM ?? 0);
}

/** `under`: what furniture stands on; `over`: on desk tops and walls, with the numbers of all. */
export function WarmthPatches({ scale, part }: { scale: PlanScale; part: 'under' | 'over' }) {
  useShown(() => JSON.stringify(live.warmth?.patches.map(({ id, contrastK }) => [id, contrastK.toFixed(2)])), '');
  // Numbers keep clear of the bodies' own, wherever these went: to a quarter of a metre.
  useShown(
    () => live.warmth?.bodies.map(({ middleM: [x, y] }) => `${Math.round(x * 4)} ${Math.round(y * 4)}`).join(),
    '',
  );
  const roomWidthM = useRoomWidthM();
  const patches = live.warmth?.patches ?? [];
  const here = patches.filter(({ kind }) => (part === 'under') === (kind === 'sunFloor'));
  return (
    <g>
      {part === 'under' && <HatchDefs />}
      <g className={styles.patches}>
        {here.map((patch) => (
          <path key={patch.id} d={pathOf(patch, scale)} fill={fillOf(patch.contrastK)} data-warmth={patch.kind} />
        ))}
      </g>
      {part === 'over' &&
        numbersOnPlan(live.warmth?.bodies ?? [], patches, roomWidthM, scale).map(({ patch, x, y }) => (
          <text key={patch.id} x={x} y={y} textAnchor="middle" className={styles.number} data-warmth-patch={patch.id}>
            {patchTag(patch)}
          </text>
        ))}
    </g>
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
  const halo = useRef<SVGPathElement>(null);
  const inside = useRef<SVGGElement>(null);
  const text = useRef<SVGTextElement>(null);
  const roomWidthM = useRoomWidthM();
  useEffect(() => {
    const write = (): void => {
      const warmth = live.warmth?.bodies[body];
      if (!live.frame || !warmth || !inside.current) return;
      const paths = body < live.frame.bodyCount ? partsFromAbove(live.frame.bodyParts, body, scale) : [];
      const outline = paths.map(({ d }) => d).join('');
      edge.current?.setAttribute('d', outline);
      halo.current?.setAttribute('d', outline);
      for (const k of SLOTS) {
        const path = inside.current.children[k];
        const one = paths[k];
        path?.setAttribute('d', one?.d ?? '');
        const shown = warmth.state === 'seen' && one;
        const contrastK = one ? warmth.partsK[kindOf(one.part, warmth.thing !== null)]! : 0;
        path?.setAttribute('fill', shown ? fillOf(contrastK) : '#fff');
      }
      const [x, y] = bodyNumberPlace(warmth.middleM, tag, roomWidthM, scale);
      text.current?.setAttribute('x', x.toFixed(1));
      text.current?.setAttribute('y', y.toFixed(1));
    };
    write();
    return onLive(write);
  }, [body, scale, tag, roomWidthM]);
  return (
    <g data-state={state}>
      <path ref={halo} className={styles.halo} />
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
