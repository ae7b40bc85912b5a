/** The sun on its arc: a puck to drag, arrows for five minutes, page keys for an hour. Hollow while the sun is down. */
import { useRef } from 'react';
import { en } from '../../report/text/en.ts';
import { dayMonth, hourMinute, outsideText } from '../../report/text/format.ts';
import { skyName } from '../../report/text/names.ts';
import { moveSunTo, sunLocalS } from '../state/acts.ts';
import { useApp, useShown } from '../state/store.ts';
import styles from './SunRail.module.css';
import { useSunDrag } from './useSunDrag.ts';

/** Hours at the ends of the arc. Assumed: from before the earliest sunrise to after the latest sunset of ordinary places. */
const FROM_H = 5;
const TO_H = 21;

interface Arc {
  width: number;
  height: number;
  /** A level arc over the plan; otherwise it follows the back of the drawn room, high at the left, low at the right. */
  flat: boolean;
  /** On the Big Screen: fewer hours, and the words under the arc. */
  big?: boolean;
}

type Curve = readonly [x: number, y: number][];

/** Bezier points in shares of the box. */
const LEVEL: Curve = [
  [0, 1],
  [0.2, -0.25],
  [0.8, -0.25],
  [1, 1],
];
const ALONG_ROOM: Curve = [
  [0, 0.3],
  [0.3, -0.16],
  [0.72, -0.02],
  [1, 1],
];

/** Pixels from the box edge that the puck's rays and the figures need. */
const EDGE_PX = 26;

/** Place on the arc of an hour. */
function place(hour: number, { width, height, flat }: Arc): [number, number] {
  const t = (Math.min(TO_H, Math.max(FROM_H, hour)) - FROM_H) / (TO_H - FROM_H);
  const curve = flat ? LEVEL : ALONG_ROOM;
  const weights = [(1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t ** 3];
  const at = (axis: 0 | 1): number => curve.reduce((sum, point, i) => sum + point[axis] * weights[i]!, 0);
  return [EDGE_PX + at(0) * (width - 2 * EDGE_PX), EDGE_PX + at(1) * (height - 2 * EDGE_PX)];
}

/** Away from the room, across the arc: a unit vector. */
function outward(hour: number, arc: Arc): [number, number] {
  const [ax, ay] = place(hour - 0.1, arc);
  const [bx, by] = place(hour + 0.1, arc);
  const length = Math.hypot(bx - ax, by - ay) || 1;
  return [(by - ay) / length, -(bx - ax) / length];
}

function arcPath(arc: Arc): string {
  let path = '';
  for (let i = 0; i <= 72; i++) {
    const [x, y] = place(FROM_H + (i * (TO_H - FROM_H)) / 72, arc);
    path += `${i === 0 ? 'M' : 'L'}${x.toFixed(1)} ${y.toFixed(1)}`;
  }
  return path;
}

/** Hour on the arc nearest to a point of the box. */
function hourAt(x: number, y: number, arc: Arc): number {
  let best = FROM_H;
  let bestPx = Number.POSITIVE_INFINITY;
  for (let h = FROM_H; h <= TO_H; h += 1 / 12) {
    const [px, py] = place(h, arc);
    const far = Math.hypot(px - x, py - y);
    if (far < bestPx) {
      bestPx = far;
      best = h;
    }
  }
  return best;
}

const KEYS_S: Record<string, number> = {
  ArrowLeft: -300,
  ArrowDown: -300,
  ArrowRight: 300,
  ArrowUp: 300,
  PageUp: 3600,
  PageDown: -3600,
};

const HOURS = [6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20];

export function SunRail({ width, height, flat, big }: Arc) {
  const arc = { width, height, flat };
  const box = useRef<SVGSVGElement>(null);
  const dragging = useRef(false);
  const drag = useSunDrag();
  const shownS = useShown((f) => Math.round(f.sun.localS / 60) * 60, 0);
  const up = useShown((f) => f.sun.altitudeDeg > 0, false);
  const outside = useShown((f) => outsideText(f.sun.outsideHorizontalLx), '');
  const sky = useApp((s) => s.setup?.sky ?? s.scenario?.sky ?? 'clear');
  const date = useApp((s) => s.setup?.sunLocalDate ?? s.scenario?.start.localDate ?? '');
  const nowS = drag.previewS ?? shownS;
  const [x, y] = place(nowS / 3600, arc);
  const moveTo = (event: React.PointerEvent): void => {
    const at = box.current?.getBoundingClientRect();
    if (!at) return;
    // The page may draw it larger than it is laid out.
    const scale = width / at.width;
    drag.move(Math.round(hourAt((event.clientX - at.left) * scale, (event.clientY - at.top) * scale, arc) * 12) * 300);
  };
  const onKeyDown = (event: React.KeyboardEvent): void => {
    const by = KEYS_S[event.key];
    if (by === undefined) return;
    event.preventDefault();
    moveSunTo((((sunLocalS() + by) % 86_400) + 86_400) % 86_400, null, true);
  };
  const labelLeft = x > width * 0.62;
  return (
    <div className={styles.rail} style={{ width, height }}>
      <svg ref={box} width={width} height={height} className={styles.svg} aria-hidden="true">
        <path d={arcPath(arc)} className={styles.arc} />
        {HOURS.map((h) => {
          const [hx, hy] = place(h, arc);
          const [nx, ny] = outward(h, arc);
          if (Math.hypot(hx - x, hy - y) < (big ? 24 : 40) || (big && h % 3 > 0)) return null;
          return (
            <g key={h}>
              <path d={`M${hx - nx * 5} ${hy - ny * 5}l${nx * 10} ${ny * 10}`} className={styles.arc} />
              <text x={hx + nx * 17} y={hy + ny * 17 + 5} textAnchor="middle" className={styles.hour}>
                {h}
              </text>
            </g>
          );
        })}
      </svg>
      <div
        className={styles.puck}
        role="slider"
        tabIndex={0}
        aria-label={en.sky.rail}
        aria-valuemin={0}
        aria-valuemax={86400}
        aria-valuenow={nowS}
        aria-valuetext={`${hourMinute(nowS)}, ${up ? skyName[sky] : en.sky.dark}`}
        style={{ left: x, top: y }}
        onKeyDown={onKeyDown}
        onPointerDown={(event) => {
          dragging.current = true;
          event.currentTarget.setPointerCapture(event.pointerId);
        }}
        onPointerMove={(event) => {
          if (dragging.current) moveTo(event);
        }}
        onPointerUp={(event) => {
          if (dragging.current) drag.end();
          dragging.current = false;
          // In front of a class the page keys of a clicker go on with the lecture, not with the sun.
          if (big) event.currentTarget.blur();
        }}
        onPointerCancel={() => {
          dragging.current = false;
        }}
      >
        <svg
          width="48"
          height="48"
          viewBox="-24 -24 48 48"
          aria-hidden="true"
          className={up ? styles.sun : styles.down}
        >
          <circle r="14" />
          {[0, 45, 90, 135, 180, 225, 270, 315].map((deg) => (
            <path key={deg} d="M0 -18v-4" transform={`rotate(${deg})`} />
          ))}
        </svg>
      </div>
      <p
        className={styles.label}
        data-big={big}
        style={
          big
            ? {}
            : labelLeft
              ? { right: width - x + 30, top: y - 4, textAlign: 'right' }
              : { left: x + 32, top: y - 2 }
        }
      >
        <b>
          {hourMinute(nowS)}, {up ? skyName[sky] : en.sky.dark}
        </b>
        <span>{dayMonth(date)} </span>
        {up && <span>{en.sky.outside(outside)}</span>}
      </p>
    </div>
  );
}
