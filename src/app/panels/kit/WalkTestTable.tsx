/** Recorded points as a list: each can be put on the learner's edge, or taken out. */
import { walkTestWords } from '../../../report/text/reach.ts';
import { polarOf } from '../../state/reachShape.ts';
import { useApp } from '../../state/store.ts';
import { mountText, removePoint, setEdge, useWalkTest, type WalkPoint } from '../../state/walkTest.ts';
import { pointPath } from '../plan/Reach.tsx';
import ui from '../ui.module.css';
import styles from './WalkTest.module.css';

function Row({ point, edge }: { point: WalkPoint; edge: boolean }) {
  const kind = useWalkTest((s) => s.kind);
  const mount = useApp((s) => s.setup?.mount ?? null);
  const { columns } = walkTestWords;
  const polar = mount ? polarOf(mount.atM, point.atM) : null;
  const earlier = mount !== null && mountText(mount) !== point.mount;
  return (
    <tr>
      <th scope="row">
        <svg width={20} height={20} viewBox="-10 -10 20 20" aria-hidden="true">
          <path d={pointPath(point.way, 6)} className={point.seen ? styles.seen : styles.notSeen} />
        </svg>{' '}
        {point.id}
      </th>
      <td>
        {point.personId}, {walkTestWords.ways[point.way]}
        {earlier && <small>{walkTestWords.earlier}</small>}
      </td>
      <td>{polar && walkTestWords.place(polar.radiusM, polar.bearingDeg)}</td>
      <td>{point.seen ? walkTestWords.seen : walkTestWords.notSeen}</td>
      <td>
        <label className={styles.edge}>
          <input type="checkbox" checked={edge} onChange={(e) => setEdge(kind, point.id, e.target.checked)} />
          <span className="visuallyHidden">{walkTestWords.isEdge(point.id)}</span>
        </label>
      </td>
      <td>
        <button
          type="button"
          className={ui.plain}
          aria-label={walkTestWords.removePoint(point.id)}
          title={columns.remove}
          onClick={() => removePoint(point.id)}
        >
          ×
        </button>
      </td>
    </tr>
  );
}

export function WalkTestTable() {
  const points = useWalkTest((s) => s.points);
  const kind = useWalkTest((s) => s.kind);
  const edge = useWalkTest((s) => s.edge);
  const { columns, list } = walkTestWords;
  if (points.length === 0) return null;
  return (
    <table className={styles.list}>
      <caption className="visuallyHidden">{list}</caption>
      <thead>
        <tr>
          <th scope="col">{columns.number}</th>
          <th scope="col">{columns.way}</th>
          <th scope="col">{columns.place}</th>
          <th scope="col">{columns.seen}</th>
          <th scope="col">{columns.edge}</th>
          <th scope="col">
            <span className="visuallyHidden">{columns.remove}</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {[...points].reverse().map((point) => (
          <Row key={point.id} point={point} edge={edge[kind].includes(point.id)} />
        ))}
      </tbody>
    </table>
  );
}
