/** Reference rows about openings and lamps, answered by the functions and, where light crosses a room, by whole rooms. */
import { cos, PI, sqrt } from '../math.ts';
import { numberIn, numbersIn, type RowFunctions, type RowInputs } from '../rowInputs.ts';
import type { Vector3 } from '../types.ts';
import { degToRad, radToDeg } from '../units.ts';
import { lightUp } from './balance.ts';
import { profileAngleRad, slatBeamFraction, slatDiffuseOpenness } from './blinds.ts';
import { polygonFactor, viewFactorParallel, viewFactorPerpendicular } from './factors.ts';
import { glazingDiffuseRatio, glazingRatio } from './glass.ts';
import { closedBox, daylightLx } from './invariants.ts';
import { lampAtPoint } from './lampLight.ts';
import { cosinePowerFluxLm, lampIntensity } from './lamps.ts';
import { buildMesh } from './mesh.ts';
import type { LightScene, SceneLamp } from './scene.ts';
import { skyDirection } from './sky/sun.ts';

/** Room around the opening and the point, m; nothing in it reflects, so its size does not matter. */
const MARGIN_M = 0.5;

/**
 * Sky light at an upward point in a black room whose one opening is a hole in the ceiling or in the wall to the south,
 * percent of the horizontal sky illuminance. The whole chain: mesh, sky patches, window cells, sensor row.
 */
function skyComponentPct(inputs: RowInputs, face: 'ceiling' | 'front', minM: Vector3, maxM: Vector3): number {
  const point = numbersIn(inputs, 'point_m', 3) as Vector3;
  const [widthM, depthM, heightM] = [0, 1, 2].map((k) => Math.max(maxM[k]!, point[k]!) + MARGIN_M) as Vector3;
  const scene: LightScene = {
    ...closedBox([widthM, depthM, face === 'ceiling' ? maxM[2] : heightM], 0, 0),
    openings: [
      {
        id: 'opening',
        face,
        minM,
        maxM,
        kind: 'window',
        transmittance: 1,
        glazed: false,
        insideReflectance: 0,
        revealM: 0,
        exitanceLx: 0,
      },
    ],
    sensors: [{ id: 'point', positionM: point, normal: [0, 0, 1], halfAngleDeg: null }],
  };
  const altitudeDeg = numberIn(inputs, 'sunAltitude_deg');
  const azimuthDeg = numberIn(inputs, 'sunAzimuth_deg');
  const [lx] = daylightLx(lightUp(scene), {
    cieType: numberIn(inputs, 'skyType'),
    sunAltitudeDeg: altitudeDeg,
    sunAzimuthDeg: azimuthDeg,
    horizontalSkyLx: 100,
    directNormalLx: 0,
    sunDirection: skyDirection(altitudeDeg, azimuthDeg),
  });
  return lx!;
}

/** Light of one lamp on an upward point without any obstacle, by the room's own sum over parts of the lamp. */
function lampOnPointLx(lamp: Pick<SceneLamp, 'centreM' | 'sizeM' | 'downLm'>): number {
  const empty = buildMesh(closedBox([1, 1, 1], 0, 0));
  return lampAtPoint(empty, { ...lamp, upLm: 0, distribution: 'lambert' }, 0, 0, 0, (_x, _y, z) => z, 1);
}

/** Side of a lamp that counts as a point, m. */
const POINT_M = 1e-4;

export const openingRows: RowFunctions = {
  glazingTransmittanceRatio: (r) =>
    glazingRatio(cos(degToRad(numberIn(r, 'incidence_deg'))), numberIn(r, 'refractiveIndex')),
  glazingDiffuseRatio: (r) => glazingDiffuseRatio(numberIn(r, 'refractiveIndex')),
  profileAngle: (r) =>
    radToDeg(profileAngleRad(degToRad(numberIn(r, 'sunAltitude_deg')), degToRad(numberIn(r, 'azimuthFromNormal_deg')))),
  slatBeamFraction: (r) =>
    slatBeamFraction(
      numberIn(r, 'slatWidthToSpacing'),
      degToRad(numberIn(r, 'slatTilt_deg')),
      degToRad(numberIn(r, 'profileAngle_deg')),
    ),
  slatDiffuseOpenness: (r) =>
    slatDiffuseOpenness(numberIn(r, 'slatWidthToSpacing'), degToRad(numberIn(r, 'slatTilt_deg'))),
  sunPatchDepth: (r) => {
    // A facade that faces north: how far its head's shadow edge travels along the normal while it falls to the plane.
    const [, inward, down] = skyDirection(numberIn(r, 'sunAltitude_deg'), numberIn(r, 'azimuthFromNormal_deg'));
    return ((numberIn(r, 'headHeight_m') - numberIn(r, 'planeHeight_m')) * inward) / down;
  },
  skyComponentRoofOpening: (r) => {
    const [x0, x1] = numbersIn(r, 'openingX_m', 2) as [number, number];
    const [y0, y1] = numbersIn(r, 'openingY_m', 2) as [number, number];
    const z = numberIn(r, 'openingHeight_m');
    return skyComponentPct(r, 'ceiling', [x0, y0, z], [x1, y1, z]);
  },
  skyComponentFacadeOpening: (r) => {
    const [x0, x1] = numbersIn(r, 'openingX_m', 2) as [number, number];
    const [z0, z1] = numbersIn(r, 'openingZ_m', 2) as [number, number];
    return skyComponentPct(r, 'front', [x0, 0, z0], [x1, 0, z1]);
  },
  viewFactorParallel: (r) =>
    viewFactorParallel(numberIn(r, 'width_m'), numberIn(r, 'depth_m'), numberIn(r, 'distance_m')),
  viewFactorPerpendicular: (r) =>
    viewFactorPerpendicular(
      numberIn(r, 'commonEdge_m'),
      numberIn(r, 'emitterWidth_m'),
      numberIn(r, 'receiverHeight_m'),
    ),
  configurationFactorRectangle: (r) => {
    const [x0, x1] = numbersIn(r, 'rectangleX_m', 2) as [number, number];
    const [y0, y1] = numbersIn(r, 'rectangleY_m', 2) as [number, number];
    const z = numberIn(r, 'height_m');
    return polygonFactor([x0, y0, z, x1, y0, z, x1, y1, z, x0, y1, z], 0, 0, 0, 0, 0, 1);
  },
};

/** Corners that stand for a disc in `discSourceIlluminance`; its area is 0.16 % small. */
const DISC_CORNERS = 64;

export const lampRows: RowFunctions = {
  pointSourceIlluminance: (r) => {
    // A tiny Lambert lamp that sends the asked intensity towards the point.
    const x = numberIn(r, 'horizontalOffset_m');
    const z = numberIn(r, 'height_m');
    const downLm = numberIn(r, 'intensity_cd') / lampIntensity('lambert', z / sqrt(x * x + z * z));
    return lampOnPointLx({ centreM: [x, 0, z], sizeM: [POINT_M, POINT_M], downLm });
  },
  areaSourceIlluminance: (r) =>
    lampOnPointLx({
      centreM: [numberIn(r, 'offsetX_m'), numberIn(r, 'offsetY_m'), numberIn(r, 'distance_m')],
      sizeM: [numberIn(r, 'sourceSizeX_m'), numberIn(r, 'sourceSizeY_m')],
      downLm: numberIn(r, 'flux_lm'),
    }),
  singlePointModelError: (r) => {
    const d = numberIn(r, 'distanceToSize');
    // A unit square of unit luminance has pi lm.
    const exact = PI * polygonFactor([-0.5, -0.5, d, 0.5, -0.5, d, 0.5, 0.5, d, -0.5, 0.5, d], 0, 0, 0, 0, 0, 1);
    const point = lampOnPointLx({ centreM: [0, 0, d], sizeM: [POINT_M, POINT_M], downLm: PI });
    return (point / exact - 1) * 100;
  },
  discSourceIlluminance: (r) => {
    const radiusM = numberIn(r, 'radius_m');
    const corners = Array.from({ length: DISC_CORNERS }, (_, k) => {
      const [x, y] = skyDirection(0, (360 * k) / DISC_CORNERS);
      return [x * radiusM, y * radiusM, numberIn(r, 'height_m')];
    });
    return PI * numberIn(r, 'luminance_cdm2') * polygonFactor(corners.flat(), 0, 0, 0, 0, 0, 1);
  },
  lambertPowerFlux: (r) => cosinePowerFluxLm(numberIn(r, 'axialIntensity_cd'), numberIn(r, 'cosinePower')),
};
