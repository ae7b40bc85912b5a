/** Plan View: the room from above, flat, with everything the 3D view can show and do. */
import { lazy, Suspense, useMemo, useRef } from 'react';
import { corridorsUsed } from '../../../engine/room/corridor.ts';
import type { PointM, Scenario } from '../../../engine/types.ts';
import { type PlanScale, planScale, sunPatchesM, toRoom } from '../../../report/planGeometry.ts';
import { en } from '../../../report/text/en.ts';
import { tapFloor } from '../../state/floor.ts';
import { live } from '../../state/live.ts';
import { keyProbe } from '../../state/probeActs.ts';
import { getProbes, useProbes } from '../../state/probes.ts';
import { getApp, roomNow, selectOutput, selectPerson, useApp, useBig, useShown } from '../../state/store.ts';
import { nudgePerson } from '../nudge.ts';
import { useSize } from '../useSize.ts';
import { PlanFurniture } from './Furniture.tsx';
import { PlanLamps } from './Lamps.tsx';
import { PlanBodies, PlanOverlay } from './Overlays.tsx';
import { PlanPeople } from './People.tsx';
import styles from './Plan.module.css';
import { PlanCorridors, PlanDoors, PlanWalls, PlanWindows } from './Walls.tsx';

const PlanTags = lazy(async () => ({ default: (await import('./Tags.tsx')).PlanTags }));
const PlanReach = lazy(async () => ({ default: (await import('./Reach.tsx')).PlanReach }));
/** Only for who lays a lux meter down. */
const PlanProbes = lazy(() => import('./Probes.tsx'));

/** A tap this near a Stand-in chooses it, px. Source: half of the smallest touch target. */
const TAP_REACH_PX = 24;

function nearestPerson(scale: PlanScale, x: number, y: number): string | null {
  let best: string | null = null;
  let bestPx = TAP_REACH_PX;
  for (const person of live.frame?.people ?? []) {
    if (!person.present) continue;
    const far = Math.hypot(scale.x(person.atM[0]) - x, scale.y(person.atM[1]) - y);
    if (far < bestPx) {
      bestPx = far;
      best = person.id;
    }
  }
  return best;
}

function nearestLamp(scenario: Scenario, at: PointM): 'innerRow' | 'windowRow' | null {
  for (const lamp of roomNow(scenario.room, getApp().setup).luminaires) {
    const half = lamp.lengthM / 2;
    const [dx, dy] = lamp.turnDeg === 0 ? [half, 0.15] : [0.15, half];
    if (Math.abs(at[0] - lamp.atM[0]) <= dx && Math.abs(at[1] - lamp.atM[1]) <= dy) {
      return lamp.row === 'inner' ? 'innerRow' : 'windowRow';
    }
  }
  return null;
}

export function PlanView({ scenario }: { scenario: Scenario }) {
  const box = useRef<HTMLDivElement>(null);
  const size = useSize(box);
  // The figures of its tags have 15 px; on the Big Screen lux has 44. The room stays as large, what is written on it grows.
  const zoom = useBig(15, 44.5);
  const [width, height] = [size.width / zoom, size.height / zoom];
  const scale = useMemo(
    () => planScale(scenario.room, width, height, corridorsUsed(scenario)),
    [scenario, width, height],
  );
  const overlay = useApp((s) => s.overlay);
  const ready = size.width > 60 && size.height > 60;
  const viewBox = `0 0 ${width} ${height}`;
  const onClick = (event: React.MouseEvent): void => {
    const at = event.currentTarget.getBoundingClientRect();
    const x = (event.clientX - at.left) / zoom;
    const y = (event.clientY - at.top) / zoom;
    const room = toRoom(scale, x, y);
    if (getApp().floorTool.kind !== 'none' && tapFloor(room)) return;
    const person = nearestPerson(scale, x, y);
    if (person) {
      selectPerson(person);
      return;
    }
    const lamp = nearestLamp(scenario, room);
    if (lamp) selectOutput(lamp);
  };
  const onKeyDown = (event: React.KeyboardEvent): void => {
    const { selection, floorTool, panel } = getApp();
    const { chosen } = getProbes();
    if (chosen !== null && (floorTool.kind === 'probe' || panel === 'kit')) {
      if (keyProbe(chosen, event.key)) event.preventDefault();
      return;
    }
    if (selection.kind === 'person' && nudgePerson(selection.personId, event.key)) event.preventDefault();
  };
  return (
    <div
      ref={box}
      className={styles.plan}
      data-overlay={overlay}
      // biome-ignore lint/a11y/noNoninteractiveTabindex: arrow keys act on the chosen Stand-in
      tabIndex={0}
      role="img"
      aria-label={`${en.stage.plan}: ${scenario.title}`}
      onClick={onClick}
      onKeyDown={onKeyDown}
    >
      {ready && (
        <svg width={size.width} height={size.height} viewBox={viewBox} aria-hidden="true">
          <Room scenario={scenario} scale={scale} />
        </svg>
      )}
      {ready && (
        // What moves every frame has a layer of its own, so that the room below is not painted again.
        <svg width={size.width} height={size.height} viewBox={viewBox} aria-hidden="true" className={styles.moving}>
          <PlanBodies scale={scale} />
          <PlanPeople scale={scale} />
        </svg>
      )}
    </div>
  );
}

function Room({ scenario, scale }: { scenario: Scenario; scale: PlanScale }) {
  const probes = useProbes((s) => s.probes.length > 0);
  return (
    <>
      <defs>
        <clipPath id="plan-floor">
          <rect
            x={scale.x(0)}
            y={scale.y(scenario.room.depthM)}
            width={scenario.room.widthM * scale.pxPerM}
            height={scenario.room.depthM * scale.pxPerM}
          />
        </clipPath>
      </defs>
      <PlanCorridors scenario={scenario} scale={scale} />
      <PlanWalls room={scenario.room} scale={scale} />
      <Sun scenario={scenario} scale={scale} />
      <PlanOverlay scale={scale} part="under" />
      <PlanFurniture scale={scale} />
      <PlanOverlay scale={scale} part="over" />
      <PlanWindows room={scenario.room} scale={scale} />
      <PlanDoors room={scenario.room} scale={scale} />
      <PlanLamps scenario={scenario} scale={scale} />
      <Suspense fallback={null}>
        <PlanTags scenario={scenario} scale={scale} />
        <PlanReach scale={scale} />
      </Suspense>
      {probes && (
        <Suspense fallback={null}>
          <PlanProbes scenario={scenario} scale={scale} />
        </Suspense>
      )}
    </>
  );
}

/** The sun's patch as a flat pale yellow. */
function Sun({ scenario, scale }: { scenario: Scenario; scale: PlanScale }) {
  const hidden = useApp((s) => s.overlay === 'light' || s.overlay === 'warmth');
  // Tenths of a degree: the patch moves when that changes, not with every frame.
  const altitude = useShown((f) => Math.round(f.sun.altitudeDeg * 10) / 10, -90);
  const bearing = useShown((f) => Math.round(f.sun.bearingDeg * 10) / 10, 0);
  const direct = useShown((f) => Math.round(f.sun.directNormalLx / 100) * 100, 0);
  const blinds = useApp((s) => s.setup?.blinds ?? null);
  if (hidden) return null;
  const sun = { altitudeDeg: altitude, bearingDeg: bearing, directNormalLx: direct };
  return (
    <g clipPath="url(#plan-floor)" className={styles.sun}>
      {sunPatchesM(scenario, blinds ?? [], sun).map((patch, i) => (
        <polygon
          // biome-ignore lint/suspicious/noArrayIndexKey: a patch has no name but its place
          key={i}
          points={patch.map(([x, y]) => `${scale.x(x).toFixed(1)},${scale.y(y).toFixed(1)}`).join(' ')}
        />
      ))}
    </g>
  );
}
