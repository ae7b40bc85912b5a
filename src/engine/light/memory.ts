/**
 * Parts of the tables by the inputs they depend on. What is remembered equals what would be built afresh, so this saves
 * time and changes nothing: moving the detector redoes two sensor rows, a blind redoes sums, a desk redoes geometry.
 */
import type { BlindPart, RoomGeometry, SensorPart } from './parts.ts';
import { buildBlindPart, buildGeometry, buildSensorPart, interreflection } from './parts.ts';
import type { LightScene } from './scene.ts';
import type { Interreflection } from './solve.ts';

/** Geometries, interreflections and sensors kept. Assumed: 3, 3 and 40, together under 40 MB. */
const KEPT = { geometry: 3, inter: 3, sensors: 40 };

function remembered<T>(kept: Map<string, T>, limit: number, key: string, build: () => T): T {
  const known = kept.get(key);
  const value = known ?? build();
  kept.delete(key);
  kept.set(key, value);
  const oldest = kept.keys().next();
  if (kept.size > limit && !oldest.done) kept.delete(oldest.value);
  return value;
}

const geometries = new Map<string, RoomGeometry>();
const inters = new Map<string, Interreflection>();
const sensorParts = new Map<string, SensorPart>();

function geometryKey(scene: LightScene): string {
  return JSON.stringify([
    scene.sizeM,
    scene.openings.map((o) => [o.face, o.minM, o.maxM, o.kind, o.transmittance, o.glazed, o.revealM, o.exitanceLx]),
    scene.boxes.map((b) => [b.minM, b.maxM]),
    scene.lampGroups,
    scene.yBearingDeg,
    scene.obstructionAltitudeDeg,
  ]);
}

function reflectanceKey(scene: LightScene): string {
  const r = scene.reflectance;
  return JSON.stringify([
    [r.floor, r.ceiling, r.front, r.back, r.left, r.right],
    scene.openings.map((o) => o.insideReflectance),
    scene.boxes.map((b) => b.reflectance),
  ]);
}

export interface SceneParts {
  geometry: RoomGeometry;
  inter: Interreflection;
  sensors: SensorPart[];
  blinds: BlindPart;
}

/** `closedShare` by opening index. */
export function sceneParts(scene: LightScene, closedShare: number[]): SceneParts {
  const shape = geometryKey(scene);
  const whole = `${shape}${reflectanceKey(scene)}`;
  const geometry = remembered(geometries, KEPT.geometry, shape, () => buildGeometry(scene));
  const inter = remembered(inters, KEPT.inter, whole, () => interreflection(geometry, scene));
  const sensors = scene.sensors.map((sensor) =>
    remembered(sensorParts, KEPT.sensors, `${whole}${JSON.stringify(sensor)}`, () =>
      buildSensorPart(geometry, scene, inter, sensor),
    ),
  );
  return {
    geometry,
    inter,
    sensors,
    blinds: buildBlindPart(geometry, sensors, scene.openings.length, closedShare),
  };
}

/** Whether the tables of this scene would be quick: its geometry, the slow part, is remembered. */
export function knowsGeometry(scene: LightScene): boolean {
  return geometries.has(geometryKey(scene));
}

/** Elements of a preview are this much smaller than usual, that is, twice as large. Assumed: 0.5; desks and photometers
 *  of an office then read within 3 % of the true tables, 0.4 errs by 8 %. */
const PREVIEW_REFINE = 0.5;

/** Coarse parts, worked out afresh and kept by nobody. */
export function previewParts(scene: LightScene, closedShare: number[]): SceneParts {
  const geometry = buildGeometry(scene, PREVIEW_REFINE);
  const inter = interreflection(geometry, scene);
  const sensors = scene.sensors.map((sensor) => buildSensorPart(geometry, scene, inter, sensor));
  return { geometry, inter, sensors, blinds: buildBlindPart(geometry, sensors, scene.openings.length, closedShare) };
}

/** For tests and benchmarks: the next tables are built from nothing. */
export function forgetParts(): void {
  geometries.clear();
  inters.clear();
  sensorParts.clear();
}
