/** Furniture in outline, from above. */
import type { FurnitureSpec } from '../../../engine/types.ts';
import type { PlanScale } from '../../../report/planGeometry.ts';
import { useApp } from '../../state/store.ts';
import styles from './Plan.module.css';

/** Least thickness of a screen on paper, m. Assumed: thinner cannot be seen. */
const SHEET_M = 0.05;

function Piece({ piece, scale }: { piece: FurnitureSpec; scale: PlanScale }) {
  const k = scale.pxPerM;
  const w = piece.widthM * k;
  const d = Math.max(piece.depthM, SHEET_M) * k;
  const transform = `translate(${scale.x(piece.atM[0])} ${scale.y(piece.atM[1])}) rotate(${piece.turnDeg})`;
  const box = { x: -w / 2, y: -d / 2, width: w, height: d };
  switch (piece.kind) {
    case 'chair':
      return (
        <g transform={transform}>
          <rect {...box} rx={Math.min(w, d) * 0.28} className={styles.chair} />
          <path d={`M${-w * 0.36} ${d / 2 - 2.5}h${w * 0.72}`} className={styles.chairBack} />
        </g>
      );
    case 'screen':
    case 'whiteboard':
      return (
        <rect {...box} height={SHEET_M * k} y={(-SHEET_M * k) / 2} className={styles.screen} transform={transform} />
      );
    case 'glassScreen':
      return (
        <rect
          {...box}
          height={SHEET_M * k}
          y={(-SHEET_M * k) / 2}
          className={styles.glassScreen}
          transform={transform}
        />
      );
    case 'shelf':
      return (
        <g transform={transform}>
          <rect {...box} className={styles.piece} />
          <path d={`M${-w / 6} ${-d / 2}v${d}M${w / 6} ${-d / 2}v${d}`} className={styles.pieceLine} />
        </g>
      );
    case 'plant':
      return (
        <g transform={transform}>
          {[0, 60, 120, 180, 240, 300].map((deg) => (
            <ellipse
              key={deg}
              cx={0}
              cy={-w * 0.3}
              rx={w * 0.16}
              ry={w * 0.26}
              transform={`rotate(${deg})`}
              className={styles.leafs}
            />
          ))}
        </g>
      );
    default:
      return <rect {...box} className={styles.piece} transform={transform} />;
  }
}

const UNDER: readonly FurnitureSpec['kind'][] = ['chair'];

export function PlanFurniture({ scale }: { scale: PlanScale }) {
  const furniture = useApp((s) => s.setup?.furniture ?? s.scenario?.room.furniture ?? null);
  if (!furniture) return null;
  const chairsFirst = [...furniture].sort((a, b) => Number(UNDER.includes(b.kind)) - Number(UNDER.includes(a.kind)));
  return (
    <g>
      {chairsFirst.map((piece) => (
        <Piece key={piece.id} piece={piece} scale={scale} />
      ))}
    </g>
  );
}
