/** Readings at their places: round = light at a place, diamond = what the detector works with, always named. */

import { lazy, Suspense, useMemo } from 'react';
import type { DetectorMount, RowId, Scenario } from '../../../engine/types.ts';
import type { PlanScale } from '../../../report/planGeometry.ts';
import { en } from '../../../report/text/en.ts';
import { luxNumber } from '../../../report/text/format.ts';
import { useApp, useShown } from '../../state/store.ts';
import styles from './Plan.module.css';
import { type Box, placeTags, type Spot } from './tagPlaces.ts';

/** Only for who holds something to the detector. */
const PlanHeld = lazy(() => import('./Held.tsx'));

const TAG_R = 21;
/** Below this scale the plan has no room for diamonds with their names; the Recorder and the Reason Card have them, px per m. */
const DIAMONDS_FROM_PX_PER_M = 40;
/** Radius of a tag on a small plan, without its unit, px. */
const SMALL_TAG_R = 17;
const DIAMOND_R = 27;

const LABEL_W = 122;

interface Offset {
  dx: number;
  dy: number;
}

/** Places of the diamonds beside the detector, px, best first: the window row's towards the windows, the inner row's away. */
const OFFSETS: Record<RowId, readonly Offset[]> = {
  window: [
    { dx: -58, dy: -44 },
    { dx: -58, dy: -70 },
    { dx: 58, dy: -44 },
    { dx: -74, dy: -20 },
    { dx: 58, dy: -70 },
  ],
  inner: [
    { dx: 62, dy: 48 },
    { dx: 62, dy: 20 },
    { dx: 62, dy: 76 },
    { dx: -62, dy: 48 },
    { dx: -62, dy: 76 },
  ],
};

const around = (x: number, y: number, w: number, h: number): Box => ({
  left: x - w,
  right: x + w,
  top: y - h,
  bottom: y + h,
});

/** What a diamond with its label covers. */
function diamondBoxes(at: Spot, { dx, dy }: Offset): Box[] {
  const side = dx > 0 ? 1 : -1;
  return [
    around(at.x + dx, at.y + dy, DIAMOND_R, DIAMOND_R),
    around(at.x + dx + side * (LABEL_W / 2 + DIAMOND_R), at.y + dy, LABEL_W / 2, 13),
  ];
}

/** A seated body and its letter reach this far round a seat, px. Assumed: the size at which Stand-ins are drawn. */
const SEAT_PX = 18;

/** The place inside the room that covers the fewest desk points and seats; the first of equals. */
function diamondOffset(row: RowId, at: Spot, points: readonly Spot[], room: Box): Offset {
  const covered = (offset: Offset): number => {
    const boxes = diamondBoxes(at, offset);
    const outside = boxes.some((box) => box.left < room.left || box.right > room.right);
    const hit = points.filter((p) =>
      boxes.some(
        (box) =>
          p.x > box.left - SEAT_PX &&
          p.x < box.right + SEAT_PX &&
          p.y > box.top - SEAT_PX &&
          p.y < box.bottom + SEAT_PX,
      ),
    );
    return hit.length + (outside ? 100 : 0);
  };
  const costs = OFFSETS[row].map(covered);
  return OFFSETS[row][costs.indexOf(Math.min(...costs))]!;
}

export function PlanTags({ scenario, scale }: { scenario: Scenario; scale: PlanScale }) {
  const updating = useApp((s) => s.status.updating);
  const mount = useApp((s) => s.setup?.mount ?? s.scenario?.mount ?? scenario.mount);
  // Heat has no lux, beside the side section the plan is small, and a sealed room keeps its readings: only the detector stays.
  const bare = useApp(
    (s) => s.overlay === 'warmth' || (s.overlay === 'sight' && s.sectionDeg !== null) || (s.job?.sealed ?? false),
  );
  const small = bare || scale.pxPerM < DIAMONDS_FROM_PX_PER_M;
  const { spots, window, inner } = useMemo(() => {
    const at = { x: scale.x(mount.atM[0]), y: scale.y(mount.atM[1]) };
    const points = scenario.room.deskPoints.map((p) => ({ x: scale.x(p.atM[0]), y: scale.y(p.atM[1]) }));
    const { widthM, depthM } = scenario.room;
    const box = { left: scale.x(0), right: scale.x(widthM), top: scale.y(depthM), bottom: scale.y(0) };
    const chairs = scenario.room.furniture.filter((piece) => piece.kind === 'chair');
    const keep = [...points, ...chairs.map((chair) => ({ x: scale.x(chair.atM[0]), y: scale.y(chair.atM[1]) }))];
    const places = { window: diamondOffset('window', at, keep, box), inner: diamondOffset('inner', at, keep, box) };
    const blocked = [around(at.x, at.y, 16, 20), ...diamondBoxes(at, places.window), ...diamondBoxes(at, places.inner)];
    return { ...places, spots: placeTags(points, small ? SMALL_TAG_R : TAG_R, small ? [] : blocked, box) };
  }, [scenario, scale, mount, small]);
  return (
    <g data-updating={updating} className={styles.tags}>
      {(bare ? [] : scenario.room.deskPoints).map((point, i) => (
        <DeskTag
          key={point.id}
          index={i}
          x={scale.x(point.atM[0])}
          y={scale.y(point.atM[1])}
          tag={spots[i]!}
          small={small}
        />
      ))}
      <Detector mount={mount} scale={scale} window={window} inner={inner} bare={small} />
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
  return (
    <g>
      <path d={`M${x} ${y}L${tag.x} ${tag.y}`} className={styles.leader} />
      <circle cx={x} cy={y} r={4} className={styles.spot} />
      <circle cx={tag.x} cy={tag.y} r={small ? SMALL_TAG_R : TAG_R} className={styles.tag} />
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
  const labelX = right ? at.x + DIAMOND_R - 2 : at.x - DIAMOND_R + 2 - labelW;
  return (
    <g data-channel={row === 'inner' ? 'innerRow' : 'windowRow'}>
      <path d={`M${x} ${y}L${at.x} ${at.y}`} className={styles.channelLeader} />
      <rect x={labelX} y={at.y - 12} width={labelW} height={24} rx={3} className={styles.quantity} />
      <text x={labelX + labelW / 2} y={at.y + 5} textAnchor="middle" className={styles.quantityText}>
        {en.reason.daylightEstimate}
      </text>
      <path
        d={`M${at.x} ${at.y - DIAMOND_R}l${DIAMOND_R} ${DIAMOND_R}l${-DIAMOND_R} ${DIAMOND_R}l${-DIAMOND_R} ${-DIAMOND_R}z`}
        className={styles.diamond}
      />
      <text x={at.x} y={at.y + 2} textAnchor="middle" className={styles.diamondNumber}>
        {lux}
      </text>
      <text x={at.x} y={at.y + 14} textAnchor="middle" className={styles.tagUnit}>
        lx
      </text>
    </g>
  );
}
