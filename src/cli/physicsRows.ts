/** Who answers which reference quantity, and which quantities nothing in the product asks for. */
import { detectionRows } from '../engine/detection/rows.ts';
import { heatRows } from '../engine/heat/rows.ts';
import { invariantRows } from '../engine/light/invariants.ts';
import { lightRows } from '../engine/light/rows.ts';
import type { RowFunctions } from '../engine/rowInputs.ts';
import { informationRows } from '../exercise/rows.ts';
import { controlRows } from './controlRows.ts';
import { labRows } from './labRows.ts';

/** The folders that answer; no quantity may appear twice (tests/reference/physics.test.ts). */
export const ROW_SOURCES: readonly RowFunctions[] = [
  heatRows,
  detectionRows,
  labRows,
  lightRows,
  invariantRows,
  controlRows,
  informationRows,
];

export const PHYSICS_ROWS: RowFunctions = Object.assign({}, ...ROW_SOURCES);

const TARGET_DESIGN = 'a formula for sizing installations by hand; the room computes lux from its own lamps';
const HAND_FORMULA = 'a hand formula for mean daylight; the room computes daylight point by point';
const ZENITH_FIT = 'a second fit for clear skies; the room scales its skies to their horizontal illuminance';
const CIRCUIT = 'not built yet: belongs to the Ceiling Box, whose wiring is solved as a network';
const COMPARE = 'not built yet: belongs to the comparison of set-ups over a year';

/** Quantity -> why nothing in the product needs it. Their rows count as neither passed nor failed. */
export const UNUSED_QUANTITIES: Readonly<Record<string, string>> = {
  clearZenithLuminance: ZENITH_FIT,
  directNormalIlluminanceFit2: 'a second fit of the sunbeam; the room uses the extinction formula alone',
  roomIndex: TARGET_DESIGN,
  lumenMethodCount: TARGET_DESIGN,
  zonalFlux: 'sums a photometric table; lamps here are formulas and files of photometry are not read yet',
  averageDaylightFactor: HAND_FORMULA,
  internallyReflectedComponent: HAND_FORMULA,
  sidelitZone: 'a zone that building codes draw on the plan; rows are judged by computed lux instead',
  cableLeakCurrent: CIRCUIT,
  ghostVoltage: CIRCUIT,
  voltageReading: CIRCUIT,
  phaseToPhaseVoltage: CIRCUIT,
  vacancyOffFraction: COMPARE,
  occupancyFactorFO: COMPARE,
  leni: COMPARE,
  switchOnProbability: 'not built yet: belongs to Stand-ins that use the wall button by themselves',
};
