/** The light field as one texture: every face a rectangle of it, one channel per source. */
import { ClampToEdgeWrapping, DataTexture, DataUtils, HalfFloatType, LinearFilter, RGBAFormat } from 'three';
import type { FieldFace, LightField } from '../../../engine/light/types.ts';
import type { FaceId, Vector3 } from '../../../engine/types.ts';

/** A face's place in the atlas: texel of its first cell (copied texels lie around it as a border). */
export interface AtlasSlot {
  face: FieldFace;
  x: number;
  y: number;
}

export interface FieldAtlas {
  width: number;
  height: number;
  slots: AtlasSlot[];
  byKind: Partial<Record<FaceId, AtlasSlot>>;
  byFurniture: Map<string, AtlasSlot[]>;
  /** Same faces in the same places: meshes mapped to it can stay. */
  layoutKey: string;
}

/** Texels of border on each side, so that the linear filter reads no neighbour. */
const BORDER = 1;

/** A string that changes exactly when meshes mapped to the atlas must be built anew. */
export function layoutKeyOf(faces: readonly FieldFace[]): string {
  return faces.map((f) => `${f.id}:${f.nu}x${f.nv}@${f.originM.map((m) => m.toFixed(3)).join(',')}`).join('|');
}

/** Shelf packing, tallest faces first. */
export function layOutAtlas(faces: readonly FieldFace[]): FieldAtlas {
  const area = faces.reduce((sum, f) => sum + (f.nu + 2 * BORDER) * (f.nv + 2 * BORDER), 0);
  const widest = faces.reduce((most, f) => Math.max(most, f.nu + 2 * BORDER), 1);
  const width = Math.max(widest, Math.ceil(Math.sqrt(area * 1.15)));
  const slots: AtlasSlot[] = [];
  let x = 0;
  let y = 0;
  let shelf = 0;
  for (const face of [...faces].sort((a, b) => b.nv - a.nv)) {
    if (x + face.nu + 2 * BORDER > width) {
      y += shelf;
      x = 0;
      shelf = 0;
    }
    slots.push({ face, x: x + BORDER, y: y + BORDER });
    x += face.nu + 2 * BORDER;
    shelf = Math.max(shelf, face.nv + 2 * BORDER);
  }
  const byFurniture = new Map<string, AtlasSlot[]>();
  const byKind: Partial<Record<FaceId, AtlasSlot>> = {};
  for (const slot of slots) {
    const { kind, furnitureId } = slot.face;
    if (kind !== 'furniture') byKind[kind] = slot;
    else if (furnitureId) byFurniture.set(furnitureId, [...(byFurniture.get(furnitureId) ?? []), slot]);
  }
  return { width, height: y + shelf, slots, byKind, byFurniture, layoutKey: layoutKeyOf(faces) };
}

export function createAtlasTexture(atlas: FieldAtlas): DataTexture {
  const data = new Uint16Array(Math.max(1, atlas.width * atlas.height) * 4);
  const texture = new DataTexture(data, Math.max(1, atlas.width), Math.max(1, atlas.height), RGBAFormat, HalfFloatType);
  texture.minFilter = LinearFilter;
  texture.magFilter = LinearFilter;
  texture.wrapS = ClampToEdgeWrapping;
  texture.wrapT = ClampToEdgeWrapping;
  texture.generateMipmaps = false;
  return texture;
}

/** Largest value of a half float; only a sensor in the open sun would read more. */
const HALF_MAX = 65_504;

/** Copies the field into the texture: red daylight, green inner row, blue window row, alpha doors, lx. */
export function fillAtlas(atlas: FieldAtlas, field: LightField, texture: DataTexture): void {
  const data = texture.image.data as Uint16Array;
  const sources = [field.daylightLx, field.innerRowLx, field.windowRowLx, field.doorLx];
  for (const { face, x, y } of atlas.slots) {
    for (let j = -BORDER; j < face.nv + BORDER; j++) {
      const row = Math.min(Math.max(j, 0), face.nv - 1) * face.nu + face.offset;
      for (let i = -BORDER; i < face.nu + BORDER; i++) {
        const cell = row + Math.min(Math.max(i, 0), face.nu - 1);
        const texel = ((y + j) * atlas.width + x + i) * 4;
        for (let c = 0; c < 4; c++) data[texel + c] = DataUtils.toHalfFloat(Math.min(sources[c]![cell] ?? 0, HALF_MAX));
      }
    }
  }
  texture.needsUpdate = true;
}

function dot(a: Vector3, b: Vector3): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

/** Affine map of a room point to the atlas: uv = (point . s.xyz + s.w, point . t.xyz + t.w), unclamped. */
export function atlasRows(atlas: FieldAtlas, slot: AtlasSlot): { s: number[]; t: number[] } {
  const { face, x, y } = slot;
  const row = (axis: Vector3, cells: number, first: number, texels: number): number[] => {
    const k = cells / dot(axis, axis) / texels;
    return [axis[0] * k, axis[1] * k, axis[2] * k, first / texels - dot(face.originM, axis) * k];
  };
  return { s: row(face.uM, face.nu, x, atlas.width), t: row(face.vM, face.nv, y, atlas.height) };
}

/** Atlas coordinates of a room point on the face, clamped to it. */
export function atlasUv(atlas: FieldAtlas, slot: AtlasSlot, p: Vector3): [number, number] {
  const { face, x, y } = slot;
  const d: Vector3 = [p[0] - face.originM[0], p[1] - face.originM[1], p[2] - face.originM[2]];
  const share = (axis: Vector3) => Math.min(Math.max(dot(d, axis) / dot(axis, axis), 0), 1);
  return [(x + share(face.uM) * face.nu) / atlas.width, (y + share(face.vM) * face.nv) / atlas.height];
}

/** The furniture's face that looks along `normal` and lies nearest to `p` (within 12 cm), or null. */
export function furnitureSlot(atlas: FieldAtlas, furnitureId: string, p: Vector3, normal: Vector3): AtlasSlot | null {
  let best: AtlasSlot | null = null;
  let bestM = 0.12;
  for (const slot of atlas.byFurniture.get(furnitureId) ?? []) {
    const { face } = slot;
    if (dot(face.normal, normal) < 0.9) continue;
    const d: Vector3 = [p[0] - face.originM[0], p[1] - face.originM[1], p[2] - face.originM[2]];
    const away = Math.abs(dot(d, face.normal));
    if (away < bestM) {
      bestM = away;
      best = slot;
    }
  }
  return best;
}
