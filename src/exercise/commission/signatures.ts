/** Beliefs that explain how a room was set up, known by what they leave behind. */

import type { PointM, RowId, SkyCondition } from '../../engine/types.ts';
import { TICKS_PER_S } from '../../engine/units.ts';
import { benchScenario } from '../edits.ts';
import { inOrder, polarOf, rayReachM } from '../reach/polygon.ts';
import type { Evidence } from './evidence.ts';
import type { LineMark } from './mark.ts';
import { ratioAt } from './ratio.ts';
import { allHold } from './timeline.ts';
import type { CommissionLine, CommissionSignature, CommissionSignatureId } from './types.ts';
import { truePoints } from './walk.ts';

/** Two values within this are taken for one. Assumed: half of the 10 % that a factor may be off. */
const SAME_SHARE = 0.05;

const near = (a: number, b: number): boolean => Math.abs(a / b - 1) < SAME_SHARE;

/** Rows whose switching level is not as asked, with the demand. */
function offRows({ exercise }: Evidence, lines: readonly LineMark[]): { row: RowId; demandLx: number }[] {
  const missed = new Set(lines.filter(({ say }) => say.verdict !== 'met').map(({ say }) => say.id));
  return exercise.commission.criteria.flatMap((c) => (c.kind === 'level' && missed.has(c.id) ? [c] : []));
}

function settingsOf(
  row: RowId,
  { innerDeskFactor, windowDeskFactor, innerSetpointLx, windowSetpointLx }: Evidence['left']['settings'],
) {
  return row === 'inner'
    ? { factor: innerDeskFactor, setpointLx: innerSetpointLx }
    : { factor: windowDeskFactor, setpointLx: windowSetpointLx };
}

/** The demand as the plan has it, while the factor is still the one found. */
function setpointIsDeskLux(evidence: Evidence, lines: readonly LineMark[]): boolean {
  const found = evidence.played.sim.scenario.settings;
  return offRows(evidence, lines).some(({ row, demandLx }) => {
    const { factor, setpointLx } = settingsOf(row, evidence.left.settings);
    return factor === settingsOf(row, found).factor && setpointLx !== null && near(setpointLx, demandLx);
  });
}

/** A factor between that of the windows and that of the lamps alone: so it comes out when the lamps are lit. */
function lampsInReading(evidence: Evidence, lines: readonly LineMark[]): boolean {
  const { factors } = evidence.exercise.commission.best;
  if (!factors) return false;
  const scenario = benchScenario(evidence.exercise, evidence.attempt.seed);
  return offRows(evidence, lines).some(({ row }) => {
    const day = ratioAt(scenario, row, factors);
    const both = ratioAt(scenario, row, { ...factors, lamps: true });
    const lamps = (both.deskLx - day.deskLx) / (both.readingLx - day.readingLx);
    const { factor } = settingsOf(row, evidence.left.settings);
    const share = (factor - day.factor) / (lamps - day.factor);
    return !near(factor, day.factor) && share > 0 && share < 1 + SAME_SHARE;
  });
}

/** The sky when the light was last taken for a setting. */
function skyWhenSet({ attempt, played }: Evidence): SkyCondition {
  let sky = played.sim.scenario.sky;
  let whenSet = sky;
  for (const { input } of attempt.inputs) {
    if (input.kind === 'setSky') sky = input.sky;
    const sets =
      input.kind === 'takePresentLight' ||
      (input.kind === 'setSettings' && ('innerDeskFactor' in input.change || 'windowDeskFactor' in input.change));
    if (sets) whenSet = sky;
  }
  return whenSet;
}

function lampsFeedBack({ left }: Evidence, lines: readonly LineMark[]): boolean {
  return left.settings.lampShare === 'off' && lines.some(({ say }) => say.kind === 'count' && say.verdict !== 'met');
}

/** Whether a row's off-delay is shorter than what works. */
function delayTooShort({ left, best }: Evidence): boolean {
  const { innerOffDelayS, windowOffDelayS, delaysCoupled } = left.settings;
  const least = delaysCoupled ? innerOffDelayS : Math.min(innerOffDelayS, windowOffDelayS);
  return best.shortestS !== null && least < best.shortestS;
}

/** A clip of the fan in daylight that was taken while a row was lit. */
function fanByLight({ own, exercise }: Evidence, lines: readonly LineMark[]): LineMark | undefined {
  const daylit = exercise.commission.criteria.filter(
    (c) => c.kind === 'clip' && c.is.some((is) => 'row' in is && is.state === 'daylightIsEnough'),
  );
  return lines.find(({ say }) => {
    if (say.verdict === 'met' || say.ownS === null || !daylit.some(({ id }) => id === say.id)) return false;
    const lit = (output: 'innerRow' | 'windowRow') => allHold(own, [{ output, on: true }], say.ownS!);
    return lit('innerRow') || lit('windowRow');
  });
}

/** The walkers' outline drawn for the seated too. */
function oneCircle(evidence: Evidence, lines: readonly LineMark[]): boolean {
  const answer = evidence.attempt.answers.commission?.walkTest;
  const missed = lines.some(({ say }) => say.verdict !== 'met' && say.kind === 'outline');
  if (!answer || !missed) return false;
  const points = truePoints(answer, evidence.walked);
  const places = (kind: 'across' | 'seated') =>
    points.filter(({ id }) => answer.edge[kind].includes(id)).map(({ atM }) => atM);
  const { atM } = evidence.left.setup.mount;
  const [walking, seated] = [places('across'), places('seated')];
  if (walking.length < 3 || seated.length < 3) return false;
  const far = (place: PointM) => {
    const { bearingDeg, radiusM } = polarOf(atM, place);
    return Math.abs((rayReachM(inOrder(walking, atM), atM, bearingDeg) ?? 0) - radiusM);
  };
  return seated.reduce((sum, place) => sum + far(place), 0) / seated.length < SAME_OUTLINE_M;
}

/** Two outlines that differ by less on the mean are one, m. Source: the product's own signature. */
const SAME_OUTLINE_M = 0.2;

export function signaturesOf(evidence: Evidence, lines: readonly LineMark[]): CommissionSignature[] {
  const found: CommissionSignature[] = [];
  const changedS = evidence.lastChange ? evidence.lastChange.tick / TICKS_PER_S : null;
  const add = (id: CommissionSignatureId, is: boolean, atS: number | null = changedS): void => {
    if (is) found.push({ id, atS });
  };
  const off = offRows(evidence, lines).length > 0;
  const byPlan = setpointIsDeskLux(evidence, lines);
  const byLamps = !byPlan && lampsInReading(evidence, lines);
  add('setpointIsDeskLux', byPlan);
  add('lampsInReading', byLamps);
  add('setInSun', off && !byPlan && !byLamps && skyWhenSet(evidence) !== 'overcast');
  add('lampsFeedBack', lampsFeedBack(evidence, lines));
  add('delayTooShort', delayTooShort(evidence));
  add(
    'delayTooLong',
    lines.some(({ say }) => say.kind === 'shortest' && say.verdict !== 'met'),
  );
  const fan = fanByLight(evidence, lines);
  add('fanByLight', fan !== undefined, fan?.say.ownS ?? null);
  const missed = (kind: CommissionLine['kind']) => lines.some(({ say }) => say.kind === kind && say.verdict !== 'met');
  add('airMoves', missed('clear') && missed('count'));
  add('oneCircle', oneCircle(evidence, lines));
  add(
    'provedNothing',
    (evidence.lastChange !== null || evidence.exercise.design !== undefined) &&
      lines.some(({ say }) => say.kind === 'proved' && say.verdict === 'missed'),
  );
  return found;
}
