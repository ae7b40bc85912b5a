/** The outlines as a table by direction, for whoever reads instead of looking. */
import { reachWords } from '../../../report/text/reach.ts';
import { useReach } from '../../state/reach.ts';
import { endsAtWall } from '../../state/reachShape.ts';
import styles from './Reach.module.css';

/** Every so many directions have a line. Assumed: twelve lines can be read through; the lines between differ little. */
const EVERY = 3;

export function ReachTable() {
  const outlines = useReach((s) => s.outlines);
  const stale = useReach((s) => s.progress !== null);
  const kinds = useReach((s) => s.kinds);
  if (!outlines || kinds.length === 0) return null;
  const chosen = outlines.outlines.filter((o) => kinds.includes(o.kind));
  const order = (chosen[0]?.rays ?? [])
    .map((ray, index) => ({ index, bearingDeg: ray.bearingDeg }))
    .filter(({ index }) => index % EVERY === 0)
    .sort((a, b) => a.bearingDeg - b.bearingDeg);
  return (
    <>
      <table className={styles.table} data-stale={stale}>
        <caption className="visuallyHidden">{reachWords.table}</caption>
        <thead>
          <tr>
            <th scope="col">{reachWords.direction}</th>
            {chosen.map((o) => (
              <th key={o.kind} scope="col">
                {reachWords.kinds[o.kind]}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {order.map(({ index, bearingDeg }) => (
            <tr key={index}>
              <th scope="row">{reachWords.bearing(bearingDeg)}</th>
              {chosen.map((o) => {
                const ray = o.rays[index]!;
                return <td key={o.kind}>{reachWords.cell(ray.halfM, endsAtWall(ray), ray.gapsM)}</td>;
              })}
            </tr>
          ))}
        </tbody>
      </table>
      <p>{reachWords.tableNote}</p>
    </>
  );
}

export { ReachChoice } from './ReachChoice.tsx';
