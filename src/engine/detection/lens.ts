/**
 * The lens: facets and the image of the dual element through each of them.
 * Detector frame: x to the right of the window arrow seen from above, y along it, z up; bearings clockwise from y.
 */
import { cos, sin, sqrt } from '../math.ts';
import type { DetectorModel, Vector3 } from '../types.ts';
import { degToRad } from '../units.ts';
import type { Facet } from './types.ts';

/** Quadrant channels. Source: our own lens, one dual element for each quarter turn from the window arrow. */
export const CHANNELS = 4;

function dot(a: Vector3, b: Vector3): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

function combine(a: Vector3, ka: number, b: Vector3, kb: number): Vector3 {
  return [a[0] * ka + b[0] * kb, a[1] * ka + b[1] * kb, a[2] * ka + b[2] * kb];
}

function fromNadir(nadirRad: number, bearingRad: number): Vector3 {
  const s = sin(nadirRad);
  return [s * sin(bearingRad), s * cos(bearingRad), -cos(nadirRad)];
}

/** Facet whose axis points to (nadir, bearing), in front of the element of `channel`. */
function facet(model: DetectorModel, ring: number, bearingDeg: number): Facet {
  const { nadirDeg, areaCm2 } = model.rings[ring]!;
  const channel = Math.floor(bearingDeg / 90) % CHANNELS;
  const axis = fromNadir(degToRad(nadirDeg), degToRad(bearingDeg));
  const moduleBearing = degToRad(45 + 90 * channel);
  const tilt = degToRad(model.moduleTiltDeg);
  // The element lies square to its module's axis: width level and clockwise, length outwards and up.
  const width: Vector3 = [cos(moduleBearing), -sin(moduleBearing), 0];
  const length: Vector3 = [cos(tilt) * sin(moduleBearing), cos(tilt) * cos(moduleBearing), sin(tilt)];
  const widthPerp = combine(width, 1, axis, -dot(width, axis));
  const lengthPerp = combine(length, 1, axis, -dot(length, axis));
  const ww = dot(widthPerp, widthPerp);
  const ll = dot(lengthPerp, lengthPerp);
  const wl = dot(widthPerp, lengthPerp);
  const gram = ww * ll - wl * wl;
  return {
    channel,
    ring,
    axis,
    openingM2: model.lensTransmittance * areaCm2 * 1e-4,
    widthPerp,
    lengthPerp,
    widthDual: combine(widthPerp, ll / gram, lengthPerp, -wl / gram),
    lengthDual: combine(lengthPerp, ww / gram, widthPerp, -wl / gram),
  };
}

/**
 * All facets, ring by ring, clockwise.
 * @throws RangeError when a ring cannot be shared evenly by the four quadrants.
 */
export function lensFacets(model: DetectorModel): Facet[] {
  return model.rings.flatMap((ring, index) => {
    if (ring.facets % CHANNELS !== 0 || ring.staggerPitch < 0 || ring.staggerPitch > 1) {
      throw new RangeError(`rings[${index}]: facets must be a multiple of 4 and staggerPitch from 0 to 1`);
    }
    const pitchDeg = 360 / ring.facets;
    return Array.from({ length: ring.facets }, (_, k) => facet(model, index, (k + ring.staggerPitch) * pitchDeg));
  });
}

/**
 * Direction to which the facet images the element point (`acrossMm` along the width, `alongMm` along the length).
 * Source: pinhole at the facet; the point's offset square to the axis, divided by the focal length, turned over.
 */
export function imageOf(model: DetectorModel, f: Facet, acrossMm: number, alongMm: number): Vector3 {
  const offset = combine(f.widthPerp, acrossMm / model.focalLengthMm, f.lengthPerp, alongMm / model.focalLengthMm);
  const d = combine(f.axis, 1, offset, -1);
  const length = sqrt(dot(d, d));
  return [d[0] / length, d[1] / length, d[2] / length];
}
