/** Stand-ins from above. Placed straight from the live frame; React only knows who is there. */
import { useEffect, useRef } from 'react';
import type { PlanScale } from '../../../report/planGeometry.ts';
import { live, onLive } from '../../state/live.ts';
import { useApp, useShown } from '../../state/store.ts';
import styles from './Plan.module.css';

function Person({ id, scale }: { id: string; scale: PlanScale }) {
  const body = useRef<SVGGElement>(null);
  const turn = useRef<SVGGElement>(null);
  const chosen = useApp((s) => s.selection.kind === 'person' && s.selection.personId === id);
  useEffect(() => {
    const write = (): void => {
      const person = live.frame?.people.find((p) => p.id === id);
      if (!body.current || !turn.current) return;
      body.current.style.display = person?.present ? '' : 'none';
      if (!person?.present) return;
      body.current.setAttribute('transform', `translate(${scale.x(person.atM[0])} ${scale.y(person.atM[1])})`);
      turn.current.setAttribute('transform', `rotate(${person.headingDeg})`);
    };
    write();
    return onLive(write);
  }, [id, scale]);
  const k = scale.pxPerM;
  return (
    <g ref={body}>
      <g ref={turn} className={styles.shape}>
        <ellipse cx={0} cy={0} rx={0.25 * k} ry={0.14 * k} className={styles.figure} />
        <path
          d={`M${-0.22 * k} ${-0.02 * k}q${-0.06 * k} ${-0.2 * k} ${0.1 * k} ${-0.24 * k}M${0.22 * k} ${-0.02 * k}q${0.06 * k} ${-0.2 * k} ${-0.1 * k} ${-0.24 * k}`}
          className={styles.arms}
          strokeWidth={0.08 * k}
        />
        <circle r={0.105 * k} className={styles.head} />
      </g>
      {chosen && <circle r={0.42 * k} className={styles.chosen} />}
      <g transform={`translate(${0.34 * k} ${-0.34 * k})`}>
        <circle r={10} className={styles.letterDisc} />
        <text y={5} textAnchor="middle" className={styles.letter}>
          {id}
        </text>
      </g>
    </g>
  );
}

export function PlanPeople({ scale }: { scale: PlanScale }) {
  const letters = useShown((f) => f.people.map((p) => p.id).join(''), '');
  return (
    <g>
      <WalkLinePreview scale={scale} />
      {[...letters].map((id) => (
        <Person key={id} id={id} scale={scale} />
      ))}
    </g>
  );
}

function WalkLinePreview({ scale }: { scale: PlanScale }) {
  const tool = useApp((s) => s.floorTool);
  if (tool.kind !== 'line') return null;
  const from = live.frame?.people.find((p) => p.id === tool.personId)?.atM;
  const points = [...(from ? [from] : []), ...tool.pointsM];
  return (
    <g>
      <polyline points={points.map(([x, y]) => `${scale.x(x)},${scale.y(y)}`).join(' ')} className={styles.walkLine} />
      {tool.pointsM.map(([x, y], i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a point is its place in the line
        <circle key={i} cx={scale.x(x)} cy={scale.y(y)} r={5} className={styles.walkPoint} />
      ))}
    </g>
  );
}
