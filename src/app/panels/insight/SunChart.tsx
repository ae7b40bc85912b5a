/**
 * The sun's ways laid flat: horizon outside, zenith in the middle, turned as the room is drawn in Plan View, so that a
 * window and the part of the sky before it lie on the same side.
 */
import type { SunPath, SunPoint } from '../../../engine/light/sky/sunPath.ts';
import type { WallId } from '../../../engine/types.ts';
import { hourMinute } from '../../../report/text/format.ts';
import { pathWords } from '../../../report/text/sunPath.ts';
import { useSunPaths } from '../../state/insight.ts';
import { useApp, useShown } from '../../state/store.ts';
import ui from '../ui.module.css';
import styles from './insight.module.css';

const SIZE = 300;
const RADIUS = 118;
const MIDDLE = SIZE / 2;

/** Place of a direction; equal steps of altitude are equal steps of radius. */
function placeOf(altitudeDeg: number, bearingDeg: number): [number, number] {
  const r = (RADIUS * (90 - altitudeDeg)) / 90;
  const rad = (bearingDeg * Math.PI) / 180;
  return [MIDDLE + r * Math.sin(rad), MIDDLE - r * Math.cos(rad)];
}

/** The part of a way above the horizon as path data; `turnDeg`: true bearing of what is up in the drawing. */
export function pathAbove(points: readonly SunPoint[], turnDeg: number): string {
  let d = '';
  let pen = false;
  for (const { altitudeDeg, azimuthDeg } of points) {
    if (altitudeDeg < 0) {
      pen = false;
      continue;
    }
    const [x, y] = placeOf(altitudeDeg, azimuthDeg - turnDeg);
    d += `${pen ? 'L' : 'M'}${x.toFixed(1)} ${y.toFixed(1)}`;
    pen = true;
  }
  return d;
}

/** Altitude of the centre when the upper edge is on the horizon, degrees. Source: apparent radius of the sun, 0.2666. */
const EDGE_DEG = -0.2666;

/** Rise and set of the upper edge, and the highest point, for the words; null rise: it is up (or down) all day. */
export function riseAndSet(points: readonly SunPoint[]): {
  riseS: number | null;
  setS: number | null;
  highDeg: number;
} {
  let riseS: number | null = null;
  let setS: number | null = null;
  for (let i = 1; i < points.length; i++) {
    const a = points[i - 1]!;
    const b = points[i]!;
    if (a.altitudeDeg < EDGE_DEG === b.altitudeDeg < EDGE_DEG) continue;
    const atS = a.localS + ((b.localS - a.localS) * (EDGE_DEG - a.altitudeDeg)) / (b.altitudeDeg - a.altitudeDeg);
    if (b.altitudeDeg >= EDGE_DEG) riseS ??= atS;
    else setS = atS;
  }
  return { riseS, setS, highDeg: Math.max(...points.map((p) => p.altitudeDeg)) };
}

function words({ points }: SunPath): string {
  const { riseS, setS, highDeg } = riseAndSet(points);
  const high = Math.round(highDeg);
  if (riseS !== null && setS !== null) return pathWords.upFrom(hourMinute(riseS), hourMinute(setS), high);
  return highDeg > 0 ? pathWords.upAll(high) : pathWords.never;
}

const WALL_BEARING: Record<WallId, number> = { back: 0, right: 90, front: 180, left: 270 };

function Hours({ points, turnDeg }: { points: readonly SunPoint[]; turnDeg: number }) {
  return points
    .filter((p) => p.localS % 3600 === 0 && p.localS < 86_400 && p.altitudeDeg >= 0)
    .map(({ localS, altitudeDeg, azimuthDeg }) => {
      const hour = localS / 3600;
      const [x, y] = placeOf(altitudeDeg, azimuthDeg - turnDeg);
      const [lx, ly] = placeOf(altitudeDeg - 11, azimuthDeg - turnDeg);
      return (
        <g key={hour}>
          <circle cx={x} cy={y} r={hour % 3 === 0 ? 3.5 : 2} />
          {hour % 3 === 0 && (
            <text x={lx} y={ly + 5} textAnchor="middle" className={styles.small}>
              {hour}
            </text>
          )}
        </g>
      );
    });
}

export function SunChart() {
  const paths = useSunPaths();
  const scenario = useApp((s) => s.scenario);
  const altitudeDeg = useShown((f) => Math.round(f.sun.altitudeDeg), 0);
  const azimuthDeg = useShown((f) => Math.round(f.sun.azimuthDeg), 0);
  if (!paths || !scenario) return null;
  const turnDeg = scenario.room.backWallFacesDeg;
  const [sx, sy] = placeOf(Math.max(altitudeDeg, -4), azimuthDeg - turnDeg);
  // Numbers of altitude stand on the side where the sun is low or down.
  const poleDeg = scenario.site.latitudeDeg < 0 ? 180 : 0;
  const windows = [...new Set(scenario.room.windows.map((w) => w.wall))];
  return (
    <section aria-label={pathWords.region}>
      <svg
        width={SIZE}
        height={SIZE}
        viewBox={`0 0 ${SIZE} ${SIZE}`}
        className={styles.chart}
        role="img"
        aria-label={pathWords.chart}
      >
        {[0, 30, 60].map((altitude) => (
          <circle
            key={altitude}
            cx={MIDDLE}
            cy={MIDDLE}
            r={(RADIUS * (90 - altitude)) / 90}
            className={altitude === 0 ? styles.path : styles.grid}
            fill="none"
          />
        ))}
        {windows.map((wall) => {
          const [x, y] = placeOf(-4, WALL_BEARING[wall]);
          const along = wall === 'back' || wall === 'front';
          return <path key={wall} d={along ? `M${x - 26} ${y}h52` : `M${x} ${y - 26}v52`} className={styles.pane} />;
        })}
        <path d={pathAbove(paths.june.points, turnDeg)} className={styles.path} />
        <path d={pathAbove(paths.december.points, turnDeg)} className={styles.path} />
        <path d={pathAbove(paths.equinox.points, turnDeg)} className={`${styles.path} ${styles.dashed}`} />
        <path d={pathAbove(paths.today.points, turnDeg)} className={styles.pathToday} />
        <Hours points={paths.today.points} turnDeg={turnDeg} />
        {(['n', 'e', 's', 'w'] as const).map((letter, i) => {
          const [x, y] = placeOf(-14, i * 90 - turnDeg);
          return (
            <text key={letter} x={x} y={y + 5} textAnchor="middle" className={styles.compass}>
              {pathWords.compass[letter]}
            </text>
          );
        })}
        {[30, 60].map((altitude) => {
          const [x, y] = placeOf(altitude, poleDeg - turnDeg);
          return (
            <text key={altitude} x={x + 4} y={y + 5} className={styles.small}>
              {altitude}°
            </text>
          );
        })}
        <circle cx={sx} cy={sy} r={9} className={altitudeDeg > 0 ? styles.sunMark : styles.sunDown} />
      </svg>
      <p className={ui.note}>{pathWords.key}</p>
      <p>
        {pathWords.sunNow(altitudeDeg, azimuthDeg)} {words(paths.today)}
      </p>
    </section>
  );
}
