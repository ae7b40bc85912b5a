/** Reach outlines, recorded points and the learner's outline on the plan. */
import type { PlanScale } from '../../../report/planGeometry.ts';
import { reachWords, walkTestWords } from '../../../report/text/reach.ts';
import { shownKinds, useReach } from '../../state/reach.ts';
import { DASHES, inOrder, labelsOf } from '../../state/reachShape.ts';
import { useApp } from '../../state/store.ts';
import { useWalkTest, type WalkPoint } from '../../state/walkTest.ts';
import styles from './Reach.module.css';

/** Width of the outlines, px. */
const LINE_PX = 2.6;
/** Half size of a point, px. */
const POINT_PX = 7;

function pathOf(line: readonly number[], scale: PlanScale): string {
  let path = '';
  for (let i = 0; i + 1 < line.length; i += 2) {
    path += `${i === 0 ? 'M' : 'L'}${scale.x(line[i]!).toFixed(1)} ${scale.y(line[i + 1]!).toFixed(1)}`;
  }
  return path;
}

/** On a plan smaller than this an outline is written at once only, px per metre. Assumed: two labels take a quarter of it. */
const SMALL_PX_PER_M = 55;

/** A word on paper, its middle at a place. */
function Tag({ x, y, text }: { x: number; y: number; text: string }) {
  const width = text.length * 7.4 + 12;
  return (
    <g transform={`translate(${x.toFixed(1)} ${y.toFixed(1)})`}>
      <rect x={-width / 2} y={-11} width={width} height={22} rx={4} className={styles.tag} />
      <text y={5} textAnchor="middle" className={styles.tagText}>
        {text}
      </text>
    </g>
  );
}

function Outlines({ scale }: { scale: PlanScale }) {
  const outlines = useReach((s) => s.outlines);
  const stale = useReach((s) => s.progress !== null);
  const sight = useApp((s) => s.overlay === 'sight');
  const kinds = useReach((s) => shownKinds(s, sight).join(' ')).split(' ');
  if (!outlines) return null;
  const drawn = outlines.outlines.filter((o) => kinds.includes(o.kind));
  return (
    <g className={stale ? styles.stale : undefined}>
      {drawn.map((o) => {
        const d = o.linesM.map((line) => pathOf(line, scale)).join('');
        const dash = DASHES[o.kind].map((n) => (n * LINE_PX).toFixed(1)).join(' ');
        return (
          <g key={o.kind} data-reach={o.kind}>
            <path d={d} className={styles.edge} strokeWidth={LINE_PX * 2} />
            <path d={d} className={styles.line} strokeWidth={LINE_PX} strokeDasharray={dash} />
          </g>
        );
      })}
      {drawn.flatMap((o) =>
        labelsOf(o, outlines.mount.atM)
          .slice(0, scale.pxPerM < SMALL_PX_PER_M ? 1 : 2)
          .map((label) => (
            <Tag
              key={`${o.kind} ${label.atM.join(' ')}`}
              x={scale.x(label.atM[0])}
              y={scale.y(label.atM[1])}
              text={reachWords.tag(o.kind, label.metres, label.wall)}
            />
          )),
      )}
    </g>
  );
}

/** Shape by movement, filled when seen. */
export function pointPath(way: WalkPoint['way'], r: number): string {
  switch (way) {
    case 'across':
      return `M${-r} ${-r}h${2 * r}v${2 * r}h${-2 * r}z`;
    case 'seated':
      return `M${-r} 0a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0z`;
    case 'standing':
      return `M0 ${-1.3 * r}L${1.3 * r} 0L0 ${1.3 * r}L${-1.3 * r} 0z`;
    default:
      return `M0 ${-1.2 * r}L${1.2 * r} ${r}L${-1.2 * r} ${r}z`;
  }
}

function Points({ scale }: { scale: PlanScale }) {
  const points = useWalkTest((s) => s.points);
  const kind = useWalkTest((s) => s.kind);
  const edge = useWalkTest((s) => s.edge);
  const centreM = useApp((s) => s.setup?.mount.atM ?? s.scenario?.mount.atM ?? null);
  const mine = points.filter((p) => edge[kind].includes(p.id));
  const ring = centreM
    ? inOrder(
        mine.map((p) => p.atM),
        centreM,
      )
    : [];
  const corners = ring.map(([x, y]) => `${scale.x(x).toFixed(1)},${scale.y(y).toFixed(1)}`).join(' ');
  return (
    <>
      {ring.length > 2 && <polygon points={corners} className={styles.own} />}
      {ring.length === 2 && <polyline points={corners} className={styles.own} />}
      {points.map((p) => (
        <path
          key={p.id}
          transform={`translate(${scale.x(p.atM[0]).toFixed(1)} ${scale.y(p.atM[1]).toFixed(1)})`}
          d={pointPath(p.way, POINT_PX)}
          data-point={p.id}
          className={p.seen ? styles.seen : styles.notSeen}
        />
      ))}
      {mine.map((p) => (
        <text key={p.id} x={scale.x(p.atM[0]) + 11} y={scale.y(p.atM[1]) - 8} className={styles.number}>
          {p.id}
        </text>
      ))}
      {ring.length > 2 && <Tag x={scale.x(ring[0]![0])} y={scale.y(ring[0]![1]) - 24} text={walkTestWords.yours} />}
    </>
  );
}

export function PlanReach({ scale }: { scale: PlanScale }) {
  const shown = useWalkTest((s) => s.shown);
  return (
    <g>
      <Outlines scale={scale} />
      {shown && <Points scale={scale} />}
    </g>
  );
}
