/** Shape of detectors: files in scenarios/detectors, and detectors written into a story. */
import * as z from 'zod/mini';
import type { DetectorModel } from '../../engine/types.ts';
import { share } from './room.ts';
import { between, format, list, optional, schemaAddress, shape, slug, text } from './words.ts';

/** Each quadrant of the lens images the same quarter of every ring (engine/detection/lens.ts). */
function facetsOfRing() {
  const error = 'a multiple of 4 from 4 to 64, as many facets for each quadrant';
  return z.number({ error }).check(z.multipleOf(4, { error }), z.gte(4, { error }), z.lte(64, { error }));
}

const detectorKeys = {
  id: slug(),
  rings: list(
    shape(
      {
        nadirDeg: between(0, 89, 'degrees'),
        facets: facetsOfRing(),
        areaCm2: between(0.01, 20, 'square centimetres'),
        staggerPitch: between(0, 1, 'of the pitch'),
      },
      'a ring of facets',
    ),
    'rings',
    12,
    1,
  ),
  lensTransmittance: share(),
  focalLengthMm: between(5, 100, 'mm'),
  blurMm: between(0, 5, 'mm'),
  elementWidthMm: between(0.1, 10, 'mm'),
  elementLengthMm: between(0.1, 10, 'mm'),
  elementSpacingMm: between(0.1, 10, 'mm'),
  moduleTiltDeg: between(0, 80, 'degrees'),
  thermalTimeS: between(0.01, 10, 's'),
  electricalTimeS: between(0.01, 20, 's'),
  responsivityVPerW: between(1, 1e6, 'V/W'),
  highPassHz: list(between(0.01, 10, 'Hz'), 'high-pass corners', 4),
  lowPassHz: list(between(0.1, 50, 'Hz'), 'low-pass corners', 4),
  noiseUv: between(0, 1e6, 'microvolts'),
  holdUv: between(1, 1e7, 'microvolts'),
  switchOnUv: between(1, 1e7, 'microvolts'),
  hysteresisShare: share(),
  reducedFactor: between(1, 10, ''),
  photometerTiltDeg: between(0, 80, 'degrees'),
  photometerHalfAngleDeg: between(1, 90, 'degrees'),
  photometerClearShare: optional(between(0.02, 1, '')),
};

/** A detector written into a story. */
export const detectorModel = shape(detectorKeys, 'a detector') satisfies z.ZodMiniType<DetectorModel>;

/** A file in scenarios/detectors. */
export const detectorFile = shape(
  { $schema: schemaAddress(), format: format(), title: optional(text(1, 60)), ...detectorKeys },
  'a detector',
);
export type DetectorFile = z.infer<typeof detectorFile>;

export const detectorMount = () =>
  shape(
    {
      atM: z.tuple([between(0, 30, 'm'), between(0, 30, 'm')], { error: 'a point [x, y] in metres' }),
      heightM: between(1.8, 6, 'm'),
      turnDeg: between(-360, 360, 'degrees'),
    },
    'a mount with atM, heightM and turnDeg',
  );
