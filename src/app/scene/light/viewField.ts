/**
 * Prepares the engine's field for drawing: adds a map of the topmost horizontal surface, from which things without cells
 * of their own (bodies, legs, lamps) take the light from above.
 */
import type { FieldFace, LightField } from '../../../engine/light/types.ts';
import type { RoomSpec } from '../../../engine/types.ts';

export const TOP_MAP_ID = 'view/topmost';
/** Cells of the topmost map along each axis. Assumed: bodies are lit smoothly; a finer map shows desk edges on sleeves. */
const TOP_MAP_CELLS = 32;

type Sources = [Float32Array, Float32Array, Float32Array, Float32Array];

function sourcesOf(field: LightField): Sources {
  return [field.daylightLx, field.innerRowLx, field.windowRowLx, field.doorLx];
}

function sample(face: FieldFace, values: Float32Array, x: number, y: number): number | null {
  const alongU = Math.abs(face.uM[0]) > Math.abs(face.uM[1]);
  const dx = x - face.originM[0];
  const dy = y - face.originM[1];
  const s = alongU ? dx / face.uM[0] : dy / face.uM[1];
  const t = alongU ? dy / face.vM[1] : dx / face.vM[0];
  if (!(s >= 0 && s <= 1 && t >= 0 && t <= 1)) return null;
  const i = Math.min(Math.floor(s * face.nu), face.nu - 1);
  const j = Math.min(Math.floor(t * face.nv), face.nv - 1);
  return values[face.offset + j * face.nu + i]!;
}

/** Faces that look up, highest first. */
function upwardFaces(field: LightField): FieldFace[] {
  return field.faces.filter((f) => f.normal[2] > 0.9).sort((a, b) => b.originM[2] - a.originM[2]);
}

function topmostMap(room: RoomSpec, field: LightField, out: Sources, offset: number): FieldFace {
  const n = TOP_MAP_CELLS;
  const faces = upwardFaces(field).filter((f) => f.originM[2] < 1.2);
  out.forEach((values, source) => {
    const from = sourcesOf(field)[source]!;
    for (let j = 0; j < n; j++) {
      for (let i = 0; i < n; i++) {
        const x = ((i + 0.5) / n) * room.widthM;
        const y = ((j + 0.5) / n) * room.depthM;
        let lux = 0;
        for (const face of faces) {
          const here = sample(face, from, x, y);
          if (here === null) continue;
          lux = here;
          break;
        }
        values[offset + j * n + i] = lux;
      }
    }
    smooth(values, offset, n);
  });
  return {
    id: TOP_MAP_ID,
    kind: 'furniture',
    furnitureId: TOP_MAP_ID,
    originM: [0, 0, 0],
    uM: [room.widthM, 0, 0],
    vM: [0, room.depthM, 0],
    normal: [0, 0, 1],
    nu: n,
    nv: n,
    offset,
    reflectance: 0,
  };
}

/** One pass of a 3 x 3 mean. */
function smooth(values: Float32Array, offset: number, n: number): void {
  const before = values.slice(offset, offset + n * n);
  for (let j = 0; j < n; j++) {
    for (let i = 0; i < n; i++) {
      let sum = 0;
      for (let dj = -1; dj <= 1; dj++) {
        for (let di = -1; di <= 1; di++) {
          const jj = Math.min(Math.max(j + dj, 0), n - 1);
          const ii = Math.min(Math.max(i + di, 0), n - 1);
          sum += before[jj * n + ii]!;
        }
      }
      values[offset + j * n + i] = sum / 9;
    }
  }
}

/** A copy of the field, ready for the atlas. The engine's arrays stay as they came. */
export function viewField(room: RoomSpec, field: LightField): LightField {
  const cells = field.daylightLx.length;
  const grown = sourcesOf(field).map((values) => {
    const copy = new Float32Array(cells + TOP_MAP_CELLS * TOP_MAP_CELLS);
    copy.set(values);
    return copy;
  }) as Sources;
  const top = topmostMap(room, field, grown, cells);
  const [daylightLx, innerRowLx, windowRowLx, doorLx] = grown;
  return { faces: [...field.faces, top], daylightLx, innerRowLx, windowRowLx, doorLx };
}

/** Mean reflectance that the exposure is meant for. Assumed: middling walls over a dark floor. */
const USUAL_REFLECTANCE = 0.45;

/**
 * Mean lux per source (daylight, inner row, window row, doors) on floor, left and back wall, each counted by how much of it
 * comes to the eye: a light-coloured room needs less exposure for the same lux.
 */
export function sourceMeansLx(field: LightField): [number, number, number, number] {
  const seen = field.faces.filter((face) => face.kind === 'floor' || face.kind === 'left' || face.kind === 'back');
  const means: [number, number, number, number] = [0, 0, 0, 0];
  sourcesOf(field).forEach((values, source) => {
    for (const face of seen) {
      const cells = face.nu * face.nv;
      const weight = face.reflectance / USUAL_REFLECTANCE / cells / seen.length;
      for (let k = face.offset; k < face.offset + cells; k++) means[source]! += values[k]! * weight;
    }
  });
  return means;
}
