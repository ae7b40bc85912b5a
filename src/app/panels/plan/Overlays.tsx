/** Sight Map and Light Map on the plan: outlines of cells and crossings, or lux in false colour. One at a time. */
import { lazy, Suspense, useEffect, useMemo, useState } from 'react';
import { signStrokesM } from '../../../engine/detection/signStrokes.ts';
import type { SightCell } from '../../../host/messages.ts';
import type { PlanScale } from '../../../report/planGeometry.ts';
import { live, onLive } from '../../state/live.ts';
import { getApp, useApp } from '../../state/store.ts';
import { type FacePicture, lightPictures } from './lightImage.ts';
import styles from './Plan.module.css';
import { sunOnPlan } from './sunOnPlan.ts';

/** Loaded when the Warmth Map is first asked for. */
const readWarmth = () => import('../warmth/WarmthPlan.tsx');
const SightExtras = lazy(async () => ({ default: (await import('../section/SightExtras.tsx')).SightExtras }));
const WarmthPatches = lazy(async () => ({ default: (await readWarmth()).WarmthPatches }));
const WarmthBodies = lazy(async () => ({ default: (await readWarmth()).WarmthBodies }));

export function PlanOverlay({ scale, part }: { scale: PlanScale; part: 'under' | 'over' }) {
  const overlay = useApp((s) => s.overlay);
  if (overlay === 'sight') return <Sight scale={scale} part={part} />;
  if (overlay === 'light') return <LightPictures scale={scale} part={part} />;
  if (overlay === 'warmth') {
    return (
      <Suspense fallback={null}>
        <WarmthPatches scale={scale} part={part} />
      </Suspense>
    );
  }
  return null;
}

/** Bodies as the Warmth Map shows them, in the layer of what moves; their letters stay the plan's. */
export function PlanBodies({ scale }: { scale: PlanScale }) {
  const shown = useApp((s) => s.overlay === 'warmth');
  return shown ? (
    <Suspense fallback={null}>
      <WarmthBodies scale={scale} />
    </Suspense>
  ) : null;
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

function Sight({ scale, part }: { scale: PlanScale; part: 'under' | 'over' }) {
  return (
    <>
      {part === 'under' ? <SightCells scale={scale} /> : <Marks scale={scale} />}
      <Suspense fallback={null}>
        <SightExtras scale={scale} part={part} />
      </Suspense>
    </>
  );
}

/** Narrower cells have no room for their sign, px. */
const SIGN_FROM_PX = 7;

/** Signs of the halves on the plan. */
function signPath({ outlineM, polarity }: SightCell, scale: PlanScale): string {
  const strokes = signStrokesM(outlineM, polarity);
  const px = strokes.map((s) => [scale.x(s[0]!), scale.y(s[1]!), scale.x(s[3]!), scale.y(s[4]!)] as const);
  const bar = px[0];
  if (!bar || Math.hypot(bar[0] - bar[2], bar[1] - bar[3]) < SIGN_FROM_PX * 0.62) return '';
  return px.map(([a, b, c, d]) => `M${a.toFixed(1)} ${b.toFixed(1)}L${c.toFixed(1)} ${d.toFixed(1)}`).join('');
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
    const low = cells.filter((cell) => !cell.masked && liesLow(cell.outlineM));
    return { open: path(false), masked: path(true), signs: low.map((cell) => signPath(cell, scale)).join('') };
  }, [version, scale]);
  return (
    <g clipPath="url(#plan-floor)">
      <path d={paths.open} className={styles.cell} />
      <path d={paths.masked} className={styles.cellMasked} />
      <path d={paths.signs} className={styles.sign} />
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
