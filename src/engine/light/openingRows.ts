/** Reference rows about openings and exchange of light, answered with the functions that the room's light uses. */
import { asin, atan2, cos, PI, sqrt } from '../math.ts';
import { numberIn, numbersIn, type RowFunctions, type RowInputs } from '../rowInputs.ts';
import { degToRad, radToDeg } from '../units.ts';
import { profileAngleRad, slatBeamFraction, slatDiffuseOpenness } from './blinds.ts';
import { polygonFactor, viewFactorParallel, viewFactorPerpendicular } from './factors.ts';
import { glazingDiffuseRatio, glazingRatio } from './glass.ts';
import { cosinePowerFluxLm, lampIntensity, pointIlluminanceLx, rectangleLampLx } from './lamps.ts';
import { skyPatchOf, skyPatchVector, TREGENZA_FINE } from './sky/sky.ts';
import { skyDirection } from './sky/sun.ts';

/** Cells of an opening are at most this large, m. Assumed: 0.1, finer than the windows of a room, because a row gives
 *  one small opening and the sky patch of a cell is that of its centre. */
const CELL_M = 0.1;

type Corner = (u: number, v: number) => [x: number, y: number, z: number];

/** Sky light at an upward point through a rectangle of cells, percent of the horizontal sky illuminance. */
function skyComponentPct(inputs: RowInputs, uM: number[], vM: number[], corner: Corner): number {
  const [px, py, pz] = numbersIn(inputs, 'point_m', 3) as [number, number, number];
  const luminance = new Float64Array(TREGENZA_FINE.count);
  const type = numberIn(inputs, 'skyType');
  skyPatchVector(
    type,
    numberIn(inputs, 'sunAltitude_deg'),
    numberIn(inputs, 'sunAzimuth_deg'),
    1,
    luminance,
    TREGENZA_FINE,
  );
  const cellsU = Math.ceil((uM[1]! - uM[0]!) / CELL_M);
  const cellsV = Math.ceil((vM[1]! - vM[0]!) / CELL_M);
  const stepU = (uM[1]! - uM[0]!) / cellsU;
  const stepV = (vM[1]! - vM[0]!) / cellsV;
  let sum = 0;
  for (let i = 0; i < cellsU; i++) {
    for (let j = 0; j < cellsV; j++) {
      const u = uM[0]! + i * stepU;
      const v = vM[0]! + j * stepV;
      const corners = [corner(u, v), corner(u + stepU, v), corner(u + stepU, v + stepV), corner(u, v + stepV)];
      const factor = polygonFactor(corners.flat(), px, py, pz, 0, 0, 1);
      const [cx, cy, cz] = corner(u + stepU / 2, v + stepV / 2);
      const distance = sqrt((cx - px) ** 2 + (cy - py) ** 2 + (cz - pz) ** 2);
      const altitudeDeg = radToDeg(asin((cz - pz) / distance));
      const patch = skyPatchOf(altitudeDeg, radToDeg(atan2(cx - px, cy - py)), TREGENZA_FINE);
      if (patch >= 0) sum += factor * PI * luminance[patch]!;
    }
  }
  return sum * 100;
}

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
    const heightM = numberIn(r, 'openingHeight_m');
    return skyComponentPct(r, numbersIn(r, 'openingX_m', 2), numbersIn(r, 'openingY_m', 2), (x, y) => [x, y, heightM]);
  },
  skyComponentFacadeOpening: (r) =>
    skyComponentPct(r, numbersIn(r, 'openingX_m', 2), numbersIn(r, 'openingZ_m', 2), (x, z) => [x, 0, z]),
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
    const heightM = numberIn(r, 'height_m');
    const distanceM = sqrt(heightM * heightM + numberIn(r, 'horizontalOffset_m') ** 2);
    return pointIlluminanceLx(numberIn(r, 'intensity_cd'), distanceM, heightM / distanceM);
  },
  areaSourceIlluminance: (r) =>
    rectangleLampLx(
      'lambert',
      numberIn(r, 'flux_lm'),
      numberIn(r, 'sourceSizeX_m'),
      numberIn(r, 'sourceSizeY_m'),
      numberIn(r, 'distance_m'),
      numberIn(r, 'offsetX_m'),
      numberIn(r, 'offsetY_m'),
    ),
  singlePointModelError: (r) => {
    const d = numberIn(r, 'distanceToSize');
    const exact = PI * polygonFactor([-0.5, -0.5, d, 0.5, -0.5, d, 0.5, 0.5, d, -0.5, 0.5, d], 0, 0, 0, 0, 0, 1);
    // A unit square of unit luminance has pi lm.
    const point = pointIlluminanceLx(PI * lampIntensity('lambert', 1), d, 1);
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
