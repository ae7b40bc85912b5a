/**
 * The pointer: a drag on a Stand-in carries a ghost of it, a drag elsewhere orbits within limits, a tap selects or does
 * what the floor tool says. Intents only; nothing moves until the engine's next frame.
 */
import { type PointerEvent, type RefObject, useMemo, useRef } from 'react';
import { type PerspectiveCamera, Raycaster, Vector2 } from 'three';
import { roomBoxes } from '../../engine/room/boxes.ts';
import type { PointM, Scenario, Vector3 } from '../../engine/types.ts';
import { insideRoom, placePerson, walkTo } from '../state/acts.ts';
import { live } from '../state/live.ts';
import { placeProbe } from '../state/probeActs.ts';
import { getApp, roomNow, selectOutput, selectPerson, setApp } from '../state/store.ts';
import type { Orbit } from './CameraRig.tsx';
import { ORBIT_LIMIT_DEG } from './camera.ts';
import { drawnRound } from './model/furniture.ts';
import { levelPoint, type Picked, pick, type Ray, topPoint } from './pick.ts';

export interface PointerState {
  camera: PerspectiveCamera | null;
  invalidate: () => void;
  /** Where a carried Stand-in would be set down. */
  ghost: { personId: string; atM: PointM } | null;
}

export function createPointerState(): PointerState {
  return { camera: null, invalidate: () => {}, ghost: null };
}

/** A press that moved less than this is a tap, px. Assumed: a finger trembles by a few pixels. */
const TAP_PX = 6;
/** Degrees of orbit per pixel. Assumed: a drag over a third of the stage reaches the limit. */
const DEG_PER_PX = 0.12;
/** Elevation stays within this of the station, degrees. Assumed: more would show the walls' backs or the table alone. */
const TILT_LIMIT_DEG = 10;

interface Drag {
  pointerId: number;
  startX: number;
  startY: number;
  from: Orbit;
  picked: Picked;
  moved: boolean;
}

const caster = new Raycaster();
const clamp = (v: number, limit: number) => Math.min(Math.max(v, -limit), limit);

function rayAt(state: PointerState, host: HTMLElement, event: PointerEvent): Ray | null {
  if (!state.camera) return null;
  const box = host.getBoundingClientRect();
  const at = new Vector2(
    ((event.clientX - box.left) / box.width) * 2 - 1,
    1 - ((event.clientY - box.top) / box.height) * 2,
  );
  caster.setFromCamera(at, state.camera);
  const { origin: o, direction: d } = caster.ray;
  // three's axes back to the room's.
  return { origin: [o.x, -o.z, o.y], direction: [d.x, -d.z, d.y] as Vector3 };
}

function pickedAt(state: PointerState, host: HTMLElement, event: PointerEvent, scenario: Scenario): Picked {
  const ray = rayAt(state, host, event);
  const mount = getApp().setup?.mount ?? scenario.mount;
  return ray && pick(ray, roomNow(scenario.room, getApp().setup), live.frame?.people ?? [], mount);
}

function tapFloor(atM: PointM): void {
  const tool = getApp().floorTool;
  if (tool.kind === 'place') placePerson(tool.personId, atM);
  else if (tool.kind === 'walk') walkTo(tool.personId, atM);
  else if (tool.kind === 'probe') {
    placeProbe(tool.probeId, atM);
    return;
  } else if (tool.kind === 'line') {
    setApp({ floorTool: { ...tool, pointsM: [...tool.pointsM, insideRoom(atM)] } });
    return;
  } else return;
  setApp({ floorTool: { kind: 'none' } });
}

/** With a floor tool in hand people do not catch the tap; the floor below does. */
function tap(picked: Picked, floor: PointM | null): void {
  if (getApp().floorTool.kind !== 'none' && floor) tapFloor(floor);
  else if (picked?.kind === 'person') selectPerson(picked.personId);
  else if (picked?.kind === 'output') selectOutput(picked.output);
}

export interface Hand {
  host: RefObject<HTMLDivElement | null>;
  handlers: Record<
    'onPointerDown' | 'onPointerMove' | 'onPointerUp' | 'onPointerCancel',
    (event: PointerEvent<HTMLDivElement>) => void
  >;
}

export function usePointer(state: PointerState, orbit: Orbit, scenario: Scenario): Hand {
  const host = useRef<HTMLDivElement>(null);
  const drag = useRef<Drag | null>(null);
  const handlers = useMemo(() => {
    const carry = (event: PointerEvent<HTMLDivElement>, personId: string) => {
      const ray = rayAt(state, event.currentTarget, event);
      // The hand holds the figure at its middle, so the floor point lies below it.
      const at = ray && levelPoint(ray, 0.8);
      if (at) state.ghost = { personId, atM: insideRoom(at) };
      state.invalidate();
    };
    const end = (event: PointerEvent<HTMLDivElement>, cancelled: boolean) => {
      const d = drag.current;
      drag.current = null;
      const ghost = state.ghost;
      state.ghost = null;
      state.invalidate();
      if (!d || cancelled || d.pointerId !== event.pointerId) return;
      if (ghost) placePerson(ghost.personId, ghost.atM);
      else if (!d.moved) {
        const ray = rayAt(state, event.currentTarget, event);
        const { floorTool } = getApp();
        if (ray && floorTool.kind === 'probe') {
          layProbe(floorTool.probeId, ray, scenario);
          return;
        }
        const floor = ray && levelPoint(ray, 0);
        tap(d.picked, floor && inRoom(floor, scenario) ? floor : null);
      }
    };
    return {
      onPointerDown: (event: PointerEvent<HTMLDivElement>) => {
        if (event.button !== 0) return;
        const picked = pickedAt(state, event.currentTarget, event, scenario);
        drag.current = {
          pointerId: event.pointerId,
          startX: event.clientX,
          startY: event.clientY,
          from: { ...orbit },
          picked,
          moved: false,
        };
        event.currentTarget.setPointerCapture(event.pointerId);
      },
      onPointerMove: (event: PointerEvent<HTMLDivElement>) => {
        const d = drag.current;
        if (!d || d.pointerId !== event.pointerId) return;
        const [dx, dy] = [event.clientX - d.startX, event.clientY - d.startY];
        if (!d.moved && Math.hypot(dx, dy) < TAP_PX) return;
        d.moved = true;
        if (d.picked?.kind === 'person' && getApp().floorTool.kind === 'none') {
          carry(event, d.picked.personId);
          return;
        }
        orbit.azimuthDeg = clamp(d.from.azimuthDeg - dx * DEG_PER_PX, ORBIT_LIMIT_DEG);
        orbit.elevationDeg = clamp(d.from.elevationDeg + dy * DEG_PER_PX, TILT_LIMIT_DEG);
        state.invalidate();
      },
      onPointerUp: (event: PointerEvent<HTMLDivElement>) => end(event, false),
      onPointerCancel: (event: PointerEvent<HTMLDivElement>) => end(event, true),
    };
  }, [state, orbit, scenario]);
  return { host, handlers };
}

function inRoom(at: PointM, { room }: Scenario): boolean {
  return at[0] >= 0 && at[1] >= 0 && at[0] <= room.widthM && at[1] <= room.depthM;
}

/** Lays the lux meter in hand on the desk that the eye sees there, or on the floor, also under a desk. */
function layProbe(probeId: string, ray: Ray, scenario: Scenario): void {
  const furniture = getApp().setup?.furniture ?? scenario.room.furniture;
  const round = new Set(furniture.filter(drawnRound).map((f) => f.id));
  const top = topPoint(ray, roomBoxes(scenario.room, furniture), round);
  const atM = top?.atM ?? levelPoint(ray, 0);
  if (atM && inRoom(atM, scenario)) placeProbe(probeId, atM, top?.heightM ?? 0);
}
