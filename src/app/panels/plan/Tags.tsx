/** Readings at their places: round = light at a place, diamond = what the detector works with, always named. */

import { lazy, Suspense, useMemo } from 'react';
import type { DetectorMount, PointM, RoomSpec, RowId, Scenario } from '../../../engine/types.ts';
import {
  type Box,
  bestPlace,
  boxAround,
  LABEL_WEIGHT,
  type Obstacle,
  placeRound,
  type Spot,
} from '../../../report/places.ts';
import type { PlanScale } from '../../../report/planGeometry.ts';
import { en } from '../../../report/text/en.ts';
import { luxNumber } from '../../../report/text/format.ts';
import { choosePoint } from '../../state/points.ts';
import { type OpenJob, useApp, useShown } from '../../state/store.ts';
import styles from './Plan.module.css';

/** Only for who holds something to the detector. */
const PlanHeld = lazy(() => import('./Held.tsx'));

const TAG_R = 21;
/** Below this scale the plan has no room for diamonds with their names; the Recorder and the Reason Card have them, px per m. */
const DIAMONDS_FROM_PX_PER_M = 40;
/** Radius of a tag on a small plan, without its unit, px. */
const SMALL_TAG_R = 17;
const DIAMOND_R = 27;
/** What each character over the usual ones adds to a tag, px. */
const LONG_PX = 3;
/** Room is kept for four figures and their gap: the light grows after the places are chosen. */
const LONG_R = DIAMOND_R + 2 * LONG_PX;

const LABEL_W = 122;

interface Offset {
  dx: number;
  dy: number;
}

/** Places of the diamonds beside the detector, px: the window row's towards the windows, the inner row's away. */
function diamondOffsets(row: RowId): Offset[] {
  const up = row === 'window' ? -1 : 1;
  return [44, 20, 70].flatMap((dy) =>
    [60, 92, 130].flatMap((dx) => [up, -up].map((side) => ({ dx: side * dx, dy: up * dy }))),
  );
}

/** What a diamond with its label covers. */
function diamondBoxes(at: Spot, { dx, dy }: Offset): Box[] {
  const side = dx > 0 ? 1 : -1;
  return [
    boxAround(at.x + dx, at.y + dy, LONG_R),
    boxAround(at.x + dx + side * (LABEL_W / 2 + LONG_R), at.y + dy, LABEL_W / 2, 13),
  ];
}

/** A seated body and its letter reach this far round a seat, px. Assumed: the size at which Stand-ins are drawn. */
const SEAT_PX = 18;
/** Half the side of the square that a point of a design is numbered in, px. */
const POINT_R = 13;

/** Weights of what tags should not cover. Assumed: seats, desk points and the detector nearly as bad as other tags. */
const KEEP_WEIGHT = 4;

interface Placed {
  window: Offset;
  inner: Offset;
  desks: Spot[];
  points: Spot[];
}

/** Where everything stands: diamonds first, then the numbers of points, then the desks' tags. */
function placed(room: RoomSpec, mountM: PointM, pointsM: readonly PointM[], scale: PlanScale, small: boolean): Placed {
  const spot = ([x, y]: PointM): Spot => ({ x: scale.x(x), y: scale.y(y) });
  const inside: Box = { left: scale.x(0), right: scale.x(room.widthM), top: scale.y(room.depthM), bottom: scale.y(0) };
  const at = spot(mountM);
  const desks = room.deskPoints.map(({ atM }) => spot(atM));
  const points = pointsM.map(spot);
  const chairs = room.furniture.filter((piece) => piece.kind === 'chair').map(({ atM }) => spot(atM));
  const keep = (box: Box): Obstacle => ({ box, weight: KEEP_WEIGHT });
  const obstacles: Obstacle[] = [
    keep(boxAround(at.x, at.y, 16, 20)),
    ...desks.map(({ x, y }) => keep(boxAround(x, y, 5))),
    ...points.map(({ x, y }) => keep(boxAround(x, y, 7))),
    ...chairs.map(({ x, y }) => keep(boxAround(x, y, SEAT_PX))),
  ];
  const diamond = (row: RowId): Offset => {
    const candidates = diamondOffsets(row).map((value) => ({
      value,
      boxes: diamondBoxes(at, value),
      farPx: Math.abs(value.dx) + Math.abs(value.dy),
    }));
    const { value, boxes } = bestPlace(candidates, obstacles, inside);
    if (!small) obstacles.push(...boxes.map((box) => ({ box, weight: LABEL_WEIGHT })));
    return value;
  };
  const [window, inner] = [diamond('window'), diamond('inner')];
  const round = (spots: readonly Spot[], radiusPx: number): Spot[] => {
    const found = placeRound(
      spots.map((one) => ({ ...one, radiusPx })),
      obstacles,
      inside,
    );
    obstacles.push(...found.map(({ x, y }) => ({ box: boxAround(x, y, radiusPx), weight: LABEL_WEIGHT })));
    return found;
  };
  const numbers = round(points, POINT_R);
  return { window, inner, points: numbers, desks: round(desks, small ? SMALL_TAG_R : TAG_R) };
}

const NO_POINTS: NonNullable<OpenJob['points']> = [];

export function PlanTags({ scenario, scale }: { scenario: Scenario; scale: PlanScale }) {
  const updating = useApp((s) => s.status.updating);
  const mount = useApp((s) => s.setup?.mount ?? s.scenario?.mount ?? scenario.mount);
  const points = useApp((s) => s.job?.points ?? NO_POINTS);
  // Heat has no lux, beside the side section the plan is small, and a sealed room keeps its readings: only the detector stays.
  const bare = useApp(
    (s) =>
      s.overlay === 'warmth' ||
      // The last row is shown lux while light is what is looked at.
      (s.lecture !== null && s.overlay !== 'light') ||
      (s.overlay === 'sight' && s.sectionDeg !== null) ||
      (s.job?.sealed ?? false),
  );
  const small = bare || scale.pxPerM < DIAMONDS_FROM_PX_PER_M;
  const places = useMemo(
    () =>
      placed(
        scenario.room,
        mount.atM,
        points.map(({ atM }) => atM),
        scale,
        small,
      ),
    [scenario, scale, mount, points, small],
  );
  return (
    <g data-updating={updating} className={styles.tags}>
      {(bare ? [] : scenario.room.deskPoints).map((point, i) => (
        <DeskTag
          key={point.id}
          index={i}
          x={scale.x(point.atM[0])}
          y={scale.y(point.atM[1])}
          tag={places.desks[i]!}
          small={small}
        />
      ))}
      <Detector mount={mount} scale={scale} window={places.window} inner={places.inner} bare={small} />
      {points.map(({ id, atM }, i) => (
        <PointNumber key={id} id={id} number={i + 1} x={scale.x(atM[0])} y={scale.y(atM[1])} tag={places.points[i]!} />
      ))}
    </g>
  );
}

interface PointProps {
  id: string;
  number: number;
  x: number;
  y: number;
  tag: Spot;
}

/** Half of a touch target, px. */
const TOUCH_R = 22;

/** A point that the plan allows, with its number; a tap chooses it. By key the list on the Job Card does. */
function PointNumber({ id, number, x, y, tag }: PointProps) {
  const chosen = useApp((s) => s.job?.chosenPoint === id);
  const pick = (event: React.MouseEvent): void => {
    event.stopPropagation();
    void choosePoint(id);
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the drawing is one picture; the list of points is the keyboard's way
    <g data-point={id} data-chosen={chosen} className={styles.point} onClick={pick}>
      <circle cx={tag.x} cy={tag.y} r={TOUCH_R} />
      <path d={`M${x} ${y}L${tag.x} ${tag.y}`} className={styles.leader} />
      <path d={`M${x - 7} ${y}h14M${x} ${y - 7}v14`} className={styles.leader} />
      <rect x={tag.x - POINT_R} y={tag.y - POINT_R} width={2 * POINT_R} height={2 * POINT_R} rx={3} />
      <text x={tag.x} y={tag.y + 5.5} textAnchor="middle">
        {number}
      </text>
    </g>
  );
}

interface DeskTagProps {
  index: number;
  x: number;
  y: number;
  tag: Spot;
  small: boolean;
}

function DeskTag({ index, x, y, tag, small }: DeskTagProps) {
  const lux = useShown((f) => luxNumber(f.deskLx[index] ?? 0), '');
  const long = Math.max(0, lux.length - (small ? 4 : 5));
  return (
    <g>
      <path d={`M${x} ${y}L${tag.x} ${tag.y}`} className={styles.leader} />
      <circle cx={x} cy={y} r={4} className={styles.spot} />
      <circle cx={tag.x} cy={tag.y} r={(small ? SMALL_TAG_R : TAG_R) + LONG_PX * long} className={styles.tag} />
      <text
        x={tag.x}
        y={tag.y + (small ? 5 : 2)}
        textAnchor="middle"
        className={lux.length > 4 ? styles.tagNumberLong : styles.tagNumber}
      >
        {lux}
      </text>
      {!small && (
        <text x={tag.x} y={tag.y + 15} textAnchor="middle" className={styles.tagUnit}>
          lx
        </text>
      )}
    </g>
  );
}

interface DetectorProps {
  mount: DetectorMount;
  scale: PlanScale;
  window: Offset;
  inner: Offset;
  bare: boolean;
}

function Detector({ mount, scale, window, inner, bare }: DetectorProps) {
  const movement = useShown((f) => f.pips.movement, false);
  const light = useShown((f) => f.pips.light, false);
  const air = useShown((f) => f.pips.air, false);
  const held = useShown((f) => f.held.cloth !== null || f.held.torch !== null, false);
  const x = scale.x(mount.atM[0]);
  const y = scale.y(mount.atM[1]);
  return (
    <g>
      {!bare && (
        <>
          <DiamondTag row="window" x={x} y={y} {...window} />
          <DiamondTag row="inner" x={x} y={y} {...inner} />
        </>
      )}
      <g transform={`translate(${x} ${y}) rotate(${mount.turnDeg})`}>
        <circle r={14} className={styles.detector} />
        <path d="M0 -14v-5M-4 -17l4 -5l4 5" className={styles.arrow} />
      </g>
      <g transform={`translate(${x} ${y})`}>
        {[movement, light, air].map((filled, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: three pips in a fixed order
          <circle key={i} cx={-6.5 + i * 6.5} r={2.7} className={filled ? styles.pipOn : styles.pip} />
        ))}
      </g>
      {held && (
        <Suspense fallback={null}>
          <PlanHeld mount={mount} scale={scale} />
        </Suspense>
      )}
    </g>
  );
}

interface DiamondTagProps {
  row: RowId;
  x: number;
  y: number;
  dx: number;
  dy: number;
}

function DiamondTag({ row, x, y, dx, dy }: DiamondTagProps) {
  const lux = useShown((f) => luxNumber(f.light[row].daylightEstimateLx), '');
  const at = { x: x + dx, y: y + dy };
  const labelW = LABEL_W;
  const right = dx > 0;
  const r = DIAMOND_R + LONG_PX * Math.max(0, lux.length - 3);
  const labelX = right ? at.x + r - 2 : at.x - r + 2 - labelW;
  return (
    <g data-channel={row === 'inner' ? 'innerRow' : 'windowRow'}>
      <path d={`M${x} ${y}L${at.x} ${at.y}`} className={styles.channelLeader} />
      <rect x={labelX} y={at.y - 12} width={labelW} height={24} rx={3} className={styles.quantity} />
      <text x={labelX + labelW / 2} y={at.y + 5} textAnchor="middle" className={styles.quantityText}>
        {en.reason.daylightEstimate}
      </text>
      <path d={`M${at.x} ${at.y - r}l${r} ${r}l${-r} ${r}l${-r} ${-r}z`} className={styles.diamond} />
      <text x={at.x} y={at.y + 2} textAnchor="middle" className={styles.diamondNumber}>
        {lux}
      </text>
      <text x={at.x} y={at.y + 14} textAnchor="middle" className={styles.tagUnit}>
        lx
      </text>
    </g>
  );
}
