/** The side section as a drawing: room cut, detector, cells of the plane, what stands in their way, who is near. */
import type { SectionCell, SideSection } from '../../../engine/detection/sideSection.ts';
import type { FurnitureSpec } from '../../../engine/types.ts';
import { furnitureName, sectionMetres, sectionWords } from '../../../report/text/section.ts';
import { ellipsePath } from '../warmth/bodyPaths.ts';
import { rowLines, rowNumbers, type SectionFigure, type SectionScale } from './layout.ts';
import styles from './Section.module.css';

interface Props {
  section: SideSection;
  scale: SectionScale;
}

/** Floor, walls and ceiling; the walls are cut. */
export function Shell({ section, scale }: Props) {
  const [from, to] = section.alongM.map(scale.x) as [number, number];
  const [floor, ceiling] = [scale.y(0), scale.y(section.heightM)];
  return (
    <g>
      <rect x={from} y={ceiling} width={to - from} height={floor - ceiling} className={styles.air} />
      <path d={`M${from} ${ceiling}H${to}`} className={styles.ceiling} />
      <path d={`M${from - 4} ${ceiling}V${floor + 3}H${to + 4}V${ceiling}`} className={styles.cut} />
    </g>
  );
}

export function DeskLine({ section, scale }: Props) {
  const y = scale.y(section.deskHeightM);
  return <path d={`M${scale.x(section.alongM[0])} ${y}H${scale.x(section.alongM[1])}`} className={styles.deskLine} />;
}

function outline(points: readonly number[], scale: SectionScale): string {
  let d = '';
  for (let k = 0; k + 1 < points.length; k += 2) {
    d += `${k === 0 ? 'M' : 'L'}${scale.x(points[k]!).toFixed(1)} ${scale.y(points[k + 1]!).toFixed(1)}`;
  }
  return `${d}z`;
}

/** A shadow narrower than this carries no words, px. */
const NAMED_FROM_PX = 70;

function shadowWords(id: string, upM: number, furniture: readonly FurnitureSpec[]): string | null {
  const piece = furniture.find((f) => f.id === id);
  if (!piece || piece.kind === 'chair') return null;
  const low = piece.kind === 'desk' || piece.kind === 'table';
  return low || upM < 0.3
    ? sectionWords.under(furnitureName[piece.kind])
    : sectionWords.behind(furnitureName[piece.kind]);
}

export function Furniture({ section, scale, furniture }: Props & { furniture: readonly FurnitureSpec[] }) {
  return (
    <g>
      <defs>
        <pattern id="section-dots" width="7" height="7" patternUnits="userSpaceOnUse">
          <circle cx="1.5" cy="1.5" r="0.95" fill="var(--ink)" />
          <circle cx="5" cy="5" r="0.95" fill="var(--ink)" />
        </pattern>
      </defs>
      {section.shadows.map(({ furnitureId, outlineM }) => (
        <path
          key={`${furnitureId}-${outlineM[0]}`}
          d={outline(outlineM, scale)}
          fill="url(#section-dots)"
          className={styles.shadow}
        />
      ))}
      {section.boxes.map(({ furnitureId, glass, alongM, upM }) => (
        <rect
          key={`${furnitureId}-${alongM[0]}-${upM[0]}`}
          x={scale.x(alongM[0])}
          y={scale.y(upM[1])}
          width={Math.max(2, scale.x(alongM[1]) - scale.x(alongM[0]))}
          height={Math.max(2, scale.y(upM[0]) - scale.y(upM[1]))}
          className={glass ? styles.glass : styles.piece}
        />
      ))}
      {section.shadows.map((shadow) => (
        <ShadowName key={`${shadow.furnitureId}-${shadow.outlineM[0]}`} {...{ shadow, scale, furniture }} />
      ))}
    </g>
  );
}

interface ShadowNameProps {
  shadow: SideSection['shadows'][number];
  scale: SectionScale;
  furniture: readonly FurnitureSpec[];
}

function ShadowName({ shadow: { furnitureId, outlineM }, scale, furniture }: ShadowNameProps) {
  const along = outlineM.filter((_, k) => k % 2 === 0);
  const up = outlineM.filter((_, k) => k % 2 === 1);
  const [from, to] = [scale.x(Math.min(...along)), scale.x(Math.max(...along))];
  const words = shadowWords(furnitureId, Math.max(...up), furniture);
  if (!words || to - from < NAMED_FROM_PX) return null;
  return (
    <text x={(from + to) / 2} y={scale.y(0) - 7} textAnchor="middle" className={styles.onDots}>
      {words}
    </text>
  );
}

/** From the lens to where its edges end; a bar there, solid for + and open for −. */
function Cell({ cell, section, scale }: Props & { cell: SectionCell }) {
  const eye = `${scale.x(0)} ${scale.y(section.eyeUpM)}`;
  const [a, b] = [
    [scale.x(cell.endsM[0]), scale.y(cell.endsM[1])],
    [scale.x(cell.endsM[2]), scale.y(cell.endsM[3])],
  ] as const;
  const width = Math.hypot(a[0] - b[0], a[1] - b[1]);
  const sign = cell.polarity === 1 ? sectionWords.plus : sectionWords.minus;
  return (
    <g data-half={cell.polarity} data-masked={cell.masked}>
      <path d={`M${eye}L${a[0]} ${a[1]}M${eye}L${b[0]} ${b[1]}`} className={styles.beam} />
      <path d={`M${a[0]} ${a[1]}L${b[0]} ${b[1]}`} className={styles.end} />
      {cell.polarity === -1 && <path d={`M${a[0]} ${a[1]}L${b[0]} ${b[1]}`} className={styles.hollow} />}
      {width > 11 && (
        <text x={(a[0] + b[0]) / 2} y={(a[1] + b[1]) / 2 - 6} textAnchor="middle" className={styles.sign}>
          {sign}
        </text>
      )}
    </g>
  );
}

export function Cells({ section, scale }: Props) {
  return (
    <g>
      {section.cells.map((cell) => (
        <Cell key={`${cell.channel}${cell.polarity}${cell.edgesRad[0]}`} {...{ cell, section, scale }} />
      ))}
    </g>
  );
}

export function Detector({ section, scale }: Props) {
  const [x, y] = [scale.x(0), scale.y(section.eyeUpM)];
  return <path d={`M${x - 9} ${y - 5}h18v5a9 9 0 0 1 -18 0z`} className={styles.detector} />;
}

/** Two rows under the floor: where the middles of the cells meet floor and desk height. */
export function Distances({ section, scale }: Props) {
  const lines = rowLines(scale);
  const rows = [
    { which: 'floorM', name: sectionWords.onFloor },
    { which: 'deskM', name: sectionWords.atDesk(section.deskHeightM.toFixed(2)) },
  ] as const;
  return rows.map(({ which, name }, k) => (
    <g key={which} data-row={which}>
      <text x={0} y={lines[k]!.name} className={styles.rowName}>
        {name}
      </text>
      {rowNumbers(section, scale, which).map(({ x, text }) => (
        <text key={x} x={x} y={lines[k]!.row} textAnchor="middle" className={styles.distance}>
          {text}
        </text>
      ))}
    </g>
  ));
}

export function Figures({
  figures,
  scale,
}: {
  figures: readonly (SectionFigure & { id: string })[];
  scale: SectionScale;
}) {
  return figures.map(({ id, ellipses, along, topM }) => (
    <g key={id}>
      <path
        d={ellipses
          .map((e) =>
            ellipsePath(
              scale.x(e.along),
              scale.y(e.up),
              Math.max(1, e.a * scale.pxPerM),
              Math.max(1, e.b * scale.pxPerM),
              -e.turnRad,
            ),
          )
          .join('')}
        className={styles.figure}
      />
      <circle cx={scale.x(along)} cy={scale.y(topM) - 13} r={10} className={styles.letterDisc} />
      <text x={scale.x(along)} y={scale.y(topM) - 8} textAnchor="middle" className={styles.letter}>
        {id}
      </text>
    </g>
  ));
}

export function drawingWords(section: SideSection, from: string, to: string): string {
  return `${sectionWords.drawing(from, to)} ${sectionWords.deskLine(sectionMetres(section.deskHeightM))}.`;
}
