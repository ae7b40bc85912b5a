/**
 * Who sees whom. Every element sends the same number of cosine-distributed rays; the elements they meet are kept, so the
 * light coming back can be gathered element by element (first bounce) and patch by patch (all further bounces).
 * Source of the two-level idea: Cohen, Greenberg, Immel, Brock 1986, substructuring in radiosity (from memory).
 */
import { cos, PI, sin, sqrt } from '../math.ts';
import type { Mesh } from './mesh.ts';
import { isCovered } from './mesh.ts';
import type { Surface } from './surfaces.ts';
import { traceElement } from './trace.ts';

/** Rays per element. Assumed: 256; a room's floor-to-ceiling factor then errs by 0.1 %, a single pair by several %. */
export const RAYS_PER_ELEMENT = 256;

/**
 * Steps of the four-dimensional low-discrepancy sequence: powers of 1/g with g^5 = g + 1.
 * Source: M. Roberts, generalised golden ratio ("R" sequences), 2018.
 */
const R4 = [0.8566748838545029, 0.733891856627126, 0.6287067210378087, 0.5385972572236101] as const;

export interface Transport {
  /** Elements met by the rays of each element, RAYS_PER_ELEMENT each. */
  hits: Uint16Array;
  /** Patch to patch form factors, row-major; A F symmetric, rows sum to 1. */
  factors: Float64Array;
}

function share(x: number): number {
  return x - Math.floor(x);
}

/** Fixed part of the ray set, shared by all elements: place on the element, squared radius, angle. */
function rayTable(): { place: Float64Array; radius2: Float64Array; cosine: Float64Array; sine: Float64Array } {
  const n = RAYS_PER_ELEMENT;
  const place = new Float64Array(2 * n);
  const radius2 = new Float64Array(n);
  const cosine = new Float64Array(n);
  const sine = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    place[2 * i] = share((i + 1) * R4[0]);
    place[2 * i + 1] = share((i + 1) * R4[1]);
    radius2[i] = share((i + 1) * R4[2]);
    const phi = 2 * PI * share((i + 1) * R4[3]);
    cosine[i] = cos(phi);
    sine[i] = sin(phi);
  }
  return { place, radius2, cosine, sine };
}

/** Shift of an element against the others, [0, 1): Weyl sequence of its number. */
function shift(e: number, dimension: number): number {
  return share((e + 1) * R4[dimension]! * 7.31 + dimension * 0.37);
}

type RayTable = ReturnType<typeof rayTable>;

function traceFrom(mesh: Mesh, s: Surface, e: number, i: number, j: number, rays: RayTable, hits: Uint16Array): void {
  const { place, radius2, cosine, sine } = rays;
  const u0 = s.us[i]!;
  const du = s.us[i + 1]! - u0;
  const v0 = s.vs[j]!;
  const dv = s.vs[j + 1]! - v0;
  const partly = mesh.openShare[e]! < 1;
  const turn = 2 * PI * shift(e, 3);
  const turnCos = cos(turn);
  const turnSin = sin(turn);
  const origin = [0, 0, 0];
  const direction = [0, 0, 0];
  const fixed = s.fixedAxis;
  for (let r = 0; r < RAYS_PER_ELEMENT; r++) {
    const a = share(place[2 * r]! + shift(e, 0));
    const b = share(place[2 * r + 1]! + shift(e, 1));
    const rr = share(radius2[r]! + shift(e, 2));
    const radius = sqrt(rr);
    origin[fixed] = s.fixedM;
    origin[s.uAxis] = u0 + du * a;
    origin[s.vAxis] = v0 + dv * b;
    if (partly) {
      origin[fixed] = s.fixedM + s.sign * 1e-3;
      if (isCovered(mesh, origin[0]!, origin[1]!, origin[2]!)) {
        for (let k = 0; k < 3; k++) origin[k] = mesh.centre[e * 3 + k]!;
      }
      origin[fixed] = s.fixedM;
    }
    direction[s.uAxis] = radius * (cosine[r]! * turnCos - sine[r]! * turnSin);
    direction[s.vAxis] = radius * (cosine[r]! * turnSin + sine[r]! * turnCos);
    direction[fixed] = s.sign * sqrt(1 - rr);
    hits[e * RAYS_PER_ELEMENT + r] = traceElement(
      mesh,
      origin[0]!,
      origin[1]!,
      origin[2]!,
      direction[0]!,
      direction[1]!,
      direction[2]!,
    );
  }
}

function traceAll(mesh: Mesh): Uint16Array {
  const hits = new Uint16Array(mesh.count * RAYS_PER_ELEMENT);
  const rays = rayTable();
  for (const s of mesh.surfaces) {
    for (let j = 0; j < s.nv; j++) {
      for (let i = 0; i < s.nu; i++) {
        const e = s.first + j * s.nu + i;
        if (mesh.areaM2[e]! > 0) traceFrom(mesh, s, e, i, j, rays, hits);
      }
    }
  }
  return hits;
}

/** Rounds of the scaling below. Assumed: 12; the row sums are then 1 within 1e-9. */
const SCALING_ROUNDS = 12;

/**
 * Area-weighted factors made symmetric and scaled so that every row sums to its area: reciprocity and energy exact.
 * Source: Sinkhorn & Knopp 1967, symmetric form.
 */
function patchFactors(mesh: Mesh, hits: Uint16Array): Float64Array {
  const n = mesh.patchCount;
  const raw = new Float64Array(n * n);
  for (let e = 0; e < mesh.count; e++) {
    const area = mesh.areaM2[e]!;
    if (area === 0) continue;
    const row = mesh.patch[e]! * n;
    const weight = area / RAYS_PER_ELEMENT;
    for (let r = e * RAYS_PER_ELEMENT; r < (e + 1) * RAYS_PER_ELEMENT; r++) raw[row + mesh.patch[hits[r]!]!]! += weight;
  }
  const area = mesh.patchAreaM2;
  for (let p = 0; p < n; p++) {
    for (let q = p; q < n; q++) {
      const mean = area[p]! > 0 && area[q]! > 0 ? (raw[p * n + q]! + raw[q * n + p]!) / 2 : 0;
      raw[p * n + q] = mean;
      raw[q * n + p] = mean;
    }
  }
  const scale = new Float64Array(n).fill(1);
  for (let round = 0; round < SCALING_ROUNDS; round++) {
    for (let p = 0; p < n; p++) {
      let sum = 0;
      for (let q = 0; q < n; q++) sum += raw[p * n + q]! * scale[q]!;
      // Halfway in the logarithm: the plain update of a symmetric matrix swings to and fro.
      if (sum > 0) scale[p] = sqrt((scale[p]! * area[p]!) / sum);
    }
  }
  for (let p = 0; p < n; p++) {
    if (area[p]! === 0) continue;
    let sum = 0;
    for (let q = 0; q < n; q++) {
      const f = (raw[p * n + q]! * scale[p]! * scale[q]!) / area[p]!;
      raw[p * n + q] = f;
      sum += f;
    }
    for (let q = 0; q < n; q++) raw[p * n + q]! /= sum;
  }
  return raw;
}

/** Pure function of the mesh. */
export function buildTransport(mesh: Mesh): Transport {
  const hits = traceAll(mesh);
  return { hits, factors: patchFactors(mesh, hits) };
}
