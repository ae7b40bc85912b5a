/** Interreflection between patches: J = rho (E + F J), solved through one LU decomposition of I - rho F. */
import type { Mesh } from './mesh.ts';
import type { LightScene } from './scene.ts';
import { FACE_ORDER } from './scene.ts';
import type { SunPatch } from './sunlight.ts';
import type { Transport } from './transport.ts';
import { RAYS_PER_ELEMENT } from './transport.ts';

export interface Interreflection {
  /** Reflectance of every patch and element. */
  patchReflectance: Float64Array;
  elementReflectance: Float64Array;
  /** LU decomposition of I - rho F without pivoting (rows are diagonally dominant), row-major. */
  lu: Float64Array;
}

function elementReflectances(mesh: Mesh, scene: LightScene): Float64Array {
  const out = new Float64Array(mesh.count);
  for (let e = 0; e < mesh.count; e++) {
    const s = mesh.surfaces[mesh.surfaceOf[e]!]!;
    const opening = scene.openings[mesh.opening[e]!];
    if (s.box >= 0) out[e] = scene.boxes[s.box]!.reflectance;
    else if (opening && opening.kind === 'window') out[e] = opening.insideReflectance;
    // An open door keeps the wall's reflectance: the corridor gives some light back too. Under 1 % of the room's light.
    else out[e] = scene.reflectance[FACE_ORDER[s.face]!];
  }
  return out;
}

/** LU decomposition in place, without pivoting. */
function decompose(m: Float64Array, n: number): void {
  for (let k = 0; k < n; k++) {
    const pivot = 1 / m[k * n + k]!;
    for (let i = k + 1; i < n; i++) {
      const f = m[i * n + k]! * pivot;
      if (f === 0) continue;
      m[i * n + k] = f;
      const row = i * n;
      const top = k * n;
      for (let j = k + 1; j < n; j++) m[row + j]! -= f * m[top + j]!;
    }
  }
}

/** LU decomposition of I - rho F. `factors`: n x n, row-major, row p = what patch p sees of every patch. */
export function interreflectionLu(reflectance: Float64Array, factors: Float64Array, n: number): Float64Array {
  const lu = new Float64Array(n * n);
  for (let p = 0; p < n; p++) {
    const rho = reflectance[p]!;
    for (let q = 0; q < n; q++) lu[p * n + q] = (p === q ? 1 : 0) - rho * factors[p * n + q]!;
  }
  decompose(lu, n);
  return lu;
}

export function buildInterreflection(mesh: Mesh, scene: LightScene, transport: Transport): Interreflection {
  const n = mesh.patchCount;
  const elementReflectance = elementReflectances(mesh, scene);
  const patchReflectance = new Float64Array(n);
  for (let e = 0; e < mesh.count; e++) patchReflectance[mesh.patch[e]!] = elementReflectance[e]!;
  const lu = interreflectionLu(patchReflectance, transport.factors, n);
  return { patchReflectance, elementReflectance, lu };
}

/** In place: x := (I - rho F)^-1 x. */
export function solvePatches(lu: Float64Array, n: number, x: Float64Array): void {
  for (let i = 1; i < n; i++) {
    let sum = x[i]!;
    for (let j = 0; j < i; j++) sum -= lu[i * n + j]! * x[j]!;
    x[i] = sum;
  }
  for (let i = n - 1; i >= 0; i--) {
    let sum = x[i]!;
    for (let j = i + 1; j < n; j++) sum -= lu[i * n + j]! * x[j]!;
    x[i] = sum / lu[i * n + i]!;
  }
}

/** In place: x := (I - rho F)^-T x, for the rows of sensors. */
export function solveAdjoint(lu: Float64Array, n: number, x: Float64Array): void {
  for (let i = 0; i < n; i++) {
    const value = x[i]! / lu[i * n + i]!;
    x[i] = value;
    for (let j = i + 1; j < n; j++) x[j]! -= lu[i * n + j]! * value;
  }
  for (let i = n - 1; i > 0; i--) {
    const value = x[i]!;
    for (let j = 0; j < i; j++) x[j]! -= lu[i * n + j]! * value;
  }
}

/** Mean direct illuminance of each patch. */
export function patchMeans(mesh: Mesh, elementLx: Float64Array, out: Float64Array): void {
  out.fill(0);
  for (let e = 0; e < mesh.count; e++) out[mesh.patch[e]!]! += elementLx[e]! * mesh.areaM2[e]!;
  for (let p = 0; p < mesh.patchCount; p++) if (mesh.patchAreaM2[p]! > 0) out[p]! /= mesh.patchAreaM2[p]!;
}

/**
 * Reflected light on every element, lx, from light that arrives directly: `smoothLx` on every element (sky, lamps) and
 * `beam`, flux on the few elements in the sun (null: none). The first bounce starts at the very elements that are lit;
 * the beam's second bounce too, so that a strip of sun half under a desk is not smeared over a whole patch (that alone
 * put 38 % on a ceiling sensor in a trial). All later bounces go from patch to patch. The caller
 * adds the first bounce of elements marked in `elsewhere` by itself.
 */
export function reflectedLx(
  mesh: Mesh,
  transport: Transport,
  inter: Interreflection,
  smoothLx: Float64Array,
  beam: SunPatch | null,
  out: Float64Array,
  elsewhere: Uint8Array | null = null,
): void {
  const n = mesh.patchCount;
  const { hits } = transport;
  const direct = new Float64Array(n);
  patchMeans(mesh, smoothLx, direct);
  const beamPatchLx = new Float64Array(n);
  const emitted = new Float64Array(mesh.count);
  for (let i = 0; beam !== null && i < beam.count; i++) {
    const e = beam.element[i]!;
    if (mesh.areaM2[e] === 0) continue;
    const flux = beam.fluxLm[i]! * inter.elementReflectance[e]!;
    emitted[e] = flux / mesh.areaM2[e]!;
    const end = (e + 1) * RAYS_PER_ELEMENT;
    for (let r = e * RAYS_PER_ELEMENT; r < end; r++) beamPatchLx[mesh.patch[hits[r]!]!]! += flux / RAYS_PER_ELEMENT;
  }
  const exitance = new Float64Array(n);
  for (let p = 0; p < n; p++) {
    const area = mesh.patchAreaM2[p]!;
    const beamLx = area > 0 ? beamPatchLx[p]! / area : 0;
    exitance[p] = inter.patchReflectance[p]! * (direct[p]! + beamLx);
  }
  solvePatches(inter.lu, n, exitance);
  for (let e = 0; e < mesh.count; e++) {
    const p = mesh.patch[e]!;
    const own = elsewhere !== null && elsewhere[e] === 1 ? 0 : smoothLx[e]!;
    emitted[e]! += exitance[p]! + inter.elementReflectance[e]! * (own - direct[p]!);
  }
  for (let e = 0; e < mesh.count; e++) {
    let sum = 0;
    if (mesh.areaM2[e]! > 0) {
      const end = (e + 1) * RAYS_PER_ELEMENT;
      // Four at a time: the sum waits for memory, not for itself.
      let a = 0;
      let b = 0;
      let c = 0;
      let d = 0;
      for (let r = e * RAYS_PER_ELEMENT; r < end; r += 4) {
        a += emitted[hits[r]!]!;
        b += emitted[hits[r + 1]!]!;
        c += emitted[hits[r + 2]!]!;
        d += emitted[hits[r + 3]!]!;
      }
      sum = a + b + c + d;
    }
    out[e] = sum / RAYS_PER_ELEMENT;
  }
}
