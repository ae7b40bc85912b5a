/** Sight Map and Light Map on the plan: outlines of cells and crossings, or lux in false colour. One at a time. */
import { useEffect, useMemo, useState } from 'react';
import type { PlanScale } from '../../../report/planGeometry.ts';
import { live, onLive } from '../../state/live.ts';
import { getApp, useApp } from '../../state/store.ts';
import { type FacePicture, lightPictures } from './lightImage.ts';
import styles from './Plan.module.css';
import { sunOnPlan } from './sunOnPlan.ts';

export function PlanOverlay({ scale, part }: { scale: PlanScale; part: 'under' | 'over' }) {
  const overlay = useApp((s) => s.overlay);
  if (overlay === 'sight') return part === 'under' ? <SightCells scale={scale} /> : <Marks scale={scale} />;
  if (overlay === 'light') return <LightPictures scale={scale} part={part} />;
  return null;
}

function useVersion(read: () => number): number {
  const [version, setVersion] = useState(read());
  useEffect(() => onLive(() => setVersion(read())), [read]);
  return version;
}

const sightVersion = (): number => live.sightVersion;
const fieldVersion = (): number => live.fieldVersion;

/** Cells whose outline climbs higher than this lie on walls and would be drawn as long rays, m. Assumed: above desks and screens. */
const HIGHEST_M = 1.3;

function liesLow(outlineM: readonly number[]): boolean {
  for (let i = 2; i < outlineM.length; i += 3) if (outlineM[i]! > HIGHEST_M) return false;
  return true;
}

function cellPath(outlineM: readonly number[], scale: PlanScale): string {
  let path = '';
  for (let i = 0; i + 2 < outlineM.length; i += 3) {
    path += `${i === 0 ? 'M' : 'L'}${scale.x(outlineM[i]!).toFixed(1)} ${scale.y(outlineM[i + 1]!).toFixed(1)}`;
  }
  return `${path}z`;
}

function SightCells({ scale }: { scale: PlanScale }) {
  const version = useVersion(sightVersion);
  const paths = useMemo(() => {
    const cells = version >= 0 ? live.sightCells : [];
    const path = (masked: boolean): string =>
      cells
        .filter((cell) => cell.masked === masked && liesLow(cell.outlineM))
        .map((cell) => cellPath(cell.outlineM, scale))
        .join('');
    return { open: path(false), masked: path(true) };
  }, [version, scale]);
  return (
    <g clipPath="url(#plan-floor)">
      <path d={paths.open} className={styles.cell} />
      <path d={paths.masked} className={styles.cellMasked} />
    </g>
  );
}

/** Marks stay this long, ticks. Assumed: long enough to count the crossings of one walk through a room. */
const MARK_TICKS = 300;

function Marks({ scale }: { scale: PlanScale }) {
  const shown = useApp((s) => s.shownTick);
  const marks = live.marks.filter((m) => m.tick <= shown && m.tick > shown - MARK_TICKS).slice(-60);
  return (
    <g>
      {marks.map((mark, i) => (
        <g
          // biome-ignore lint/suspicious/noArrayIndexKey: several marks share a tick
          key={`${mark.tick}-${i}`}
          transform={`translate(${scale.x(mark.atM[0])} ${scale.y(mark.atM[1])}) rotate(20)`}
        >
          <path d="M0 -8v16" className={styles.markEdge} />
          <path d="M0 -8v16" className={styles.mark} />
        </g>
      ))}
    </g>
  );
}

/** The map is drawn again when the light has changed by more than the eye tells, at most once a second. */
const REDRAW_MS = 1000;

function LightPictures({ scale, part }: { scale: PlanScale; part: 'under' | 'over' }) {
  const [pictures, setPictures] = useState<FacePicture[]>([]);
  useEffect(() => {
    let lastMs = Number.NEGATIVE_INFINITY;
    let key = '';
    const draw = (): void => {
      const { field, frame } = live;
      if (!field || !frame) return;
      const now = `${fieldVersion()}/${frame.lamps.inner.toFixed(2)}/${frame.lamps.window.toFixed(2)}`;
      if (now === key || performance.now() - lastMs < REDRAW_MS) return;
      key = now;
      lastMs = performance.now();
      const { scenario, setup } = getApp();
      if (scenario && setup) setPictures(lightPictures(field, frame, sunOnPlan(scenario.room, setup, frame.sun)));
    };
    draw();
    return onLive(draw);
  }, []);
  return (
    <g clipPath="url(#plan-floor)">
      {pictures
        .filter((p) => (p.id === pictures[0]?.id) === (part === 'under'))
        .map((p) => (
          <image
            key={p.id}
            href={p.href}
            x={scale.x(p.fromM[0])}
            y={scale.y(p.toM[1])}
            width={(p.toM[0] - p.fromM[0]) * scale.pxPerM}
            height={(p.toM[1] - p.fromM[1]) * scale.pxPerM}
            preserveAspectRatio="none"
          />
        ))}
    </g>
  );
}
