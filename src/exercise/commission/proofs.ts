/** Proofs of a commissioning: the stored solution, nothing at all, each classic mistake, settings set at random. */
import { ENGINE_VERSION } from '../../engine/simulation.ts';
import type { ControllerSettings, Input, TimedInput } from '../../engine/types.ts';
import { secondsToTicks } from '../../engine/units.ts';
import { type Dice, diceOf } from '../dice.ts';
import { benchScenario } from '../edits.ts';
import { markAttempt } from '../mark.ts';
import type { Attempt, Mark, ProofResult } from '../types.ts';
import { bestOf } from './best.ts';
import { mayPass } from './mark.ts';
import { factorsAt } from './ratio.ts';
import type { CommissionExercise, CommissionLine, DesignChoice, Mistake } from './types.ts';
import { coversEnough, randomWalk, type WalkDone, walkOf, wrongWalk } from './walkProofs.ts';

/** What somebody leaves, and how it came about. */
interface Way {
  settings: Partial<ControllerSettings>;
  acts: { atS: number; input: Input }[];
  clips: Record<string, number>;
  proved: boolean;
  endS: number;
  /** Inputs that stand as they are, after the settings; and the notebook filled with them. */
  walk?: WalkDone | null;
  design?: DesignChoice | undefined;
}

/** Settings are set this long after the start, s. Source: our own; the acts of a solution come after it. */
const SET_AT_S = 5;

function attemptOf(exercise: CommissionExercise, seed: number, way: Way): Attempt {
  const set: Input[] = Object.keys(way.settings).length > 0 ? [{ kind: 'setSettings', change: way.settings }] : [];
  const acts = [...set.map((input) => ({ atS: SET_AT_S, input })), ...way.acts].sort((a, b) => a.atS - b.atS);
  const own = acts.map(({ atS, input }) => ({ tick: secondsToTicks(atS), input }));
  const inputs: TimedInput[] = [...own, ...(way.walk?.inputs ?? [])].map((timed, serial) => ({ ...timed, serial }));
  const headTick = secondsToTicks(way.walk?.endS ?? way.endS);
  return {
    format: 1,
    exercise: exercise.id,
    seed,
    engine: ENGINE_VERSION,
    names: [],
    aid: exercise.aid,
    inputs,
    headTick,
    digests: [],
    answers: {
      commission: {
        proved: way.proved ? [{ tick: headTick, serial: inputs.length }] : [],
        ...(way.walk ? { walkTest: way.walk.answer } : {}),
        ...(way.design ? { design: way.design } : {}),
        clips: Object.entries(way.clips).map(([criterion, atS]) => ({ criterion, tick: secondsToTicks(atS) })),
      },
    },
  };
}

function wrongDesign({ commission }: CommissionExercise, { design }: Mistake): DesignChoice | undefined {
  const { best } = commission;
  return best.design && { ...best.design, ...design, rows: { ...best.design.rows, ...design?.rows } };
}

function randomDesign({ design, scenario }: CommissionExercise, dice: Dice): DesignChoice | undefined {
  if (!design) return undefined;
  const rows = scenario.room.luminaires.map(({ id }) => [id, dice(2) === 0 ? 'inner' : 'window']);
  return {
    point: design.points[dice(design.points.length)]!.id,
    turnDeg: 30 * dice(12),
    rows: Object.fromEntries(rows),
  };
}

/** Of the settings that this job opens, what the best has. */
function opened(exercise: CommissionExercise, settings: ControllerSettings): Partial<ControllerSettings> {
  return Object.fromEntries(exercise.commission.settings.map((key) => [key, settings[key]]));
}

export function solutionAttempt(exercise: CommissionExercise, seed: number): Attempt {
  const { solution } = exercise.commission;
  return attemptOf(exercise, seed, {
    ...solution,
    settings: opened(exercise, bestOf(exercise, seed).left.settings),
    proved: true,
    walk: walkOf(exercise, seed),
    design: exercise.commission.best.design,
  });
}

export function mistakeAttempt(exercise: CommissionExercise, seed: number, mistake: Mistake): Attempt {
  const { solution } = exercise.commission;
  const factors = mistake.factors ? factorsAt(benchScenario(exercise, seed), mistake.factors) : {};
  const best = opened(exercise, bestOf(exercise, seed).left.settings);
  const sky: Way['acts'] = mistake.factors
    ? [{ atS: SET_AT_S - 1, input: { kind: 'setSky', sky: mistake.factors.sky } }]
    : [];
  return attemptOf(exercise, seed, {
    ...solution,
    settings: { ...best, ...factors, ...mistake.settings },
    acts: [...sky, ...(mistake.acts ?? solution.acts)],
    clips: { ...solution.clips, ...mistake.clips },
    proved: mistake.unproved !== true,
    walk: wrongWalk(walkOf(exercise, seed), mistake.walk),
    design: wrongDesign(exercise, mistake),
  });
}

type Values = readonly (number | string | boolean | null)[];

/** Steps that somebody turning at random could stop at. Assumed: the device's own ranges, coarsely. */
const STEPS: Partial<Record<keyof ControllerSettings, Values>> = {
  innerSetpointLx: [10, 50, 100, 200, 350, 500, 700, 1000],
  windowSetpointLx: [10, 50, 100, 200, 350, 500, 700, 1000],
  innerDeskFactor: [0.5, 1, 1.5, 2, 3, 5, 8, 14],
  windowDeskFactor: [0.5, 1, 1.5, 2, 3, 5, 8, 14],
  innerOffDelayS: [60, 120, 180, 240, 300, 420, 600, 900, 1200, 1500, 1800],
  windowOffDelayS: [60, 120, 180, 240, 300, 420, 600, 900, 1200, 1500, 1800],
  airOnDelayS: [0, 30, 60, 120, 240, 420, 600],
  airOffDelayS: [60, 120, 300, 600, 900, 1800, 3600],
  lampShare: ['learned', 'off'],
};

export function randomAttempt(exercise: CommissionExercise, seed: number, round: number): Attempt {
  const dice = diceOf(exercise.id, seed, round);
  const { settings, solution, criteria } = exercise.commission;
  const random = Object.fromEntries(
    settings.flatMap((key) => {
      const steps = STEPS[key];
      return steps ? [[key, steps[dice(steps.length)]]] : [];
    }),
  ) as Partial<ControllerSettings>;
  const slots = criteria.filter(({ kind }) => kind === 'clip');
  const clips = Object.fromEntries(slots.map(({ id }) => [id, dice(Math.floor(solution.endS))]));
  const walk = randomWalk(exercise, seed, dice);
  return attemptOf(exercise, seed, {
    ...solution,
    settings: random,
    clips,
    proved: dice(2) === 0,
    walk,
    design: randomDesign(exercise, dice),
  });
}

/** Points that no lecturer is needed for. */
function automaticPoints({ commission }: CommissionExercise): number {
  return commission.criteria.reduce((sum, { kind, points }) => sum + (kind === 'handover' ? 0 : points), 0);
}

function notMet(mark: Mark): string[] {
  const lines = mark.parts.flatMap((part) => part.lines.map(({ say }) => say as CommissionLine));
  return lines.filter(({ verdict }) => verdict === 'half' || verdict === 'missed').map(({ id }) => id);
}

function mistakeFault(mark: Mark, { fails, signature }: Mistake): string | null {
  const lost = notMet(mark).sort().join(', ');
  const wanted = [...fails].sort().join(', ');
  if (lost !== wanted) return `loses ${lost || 'nothing'} and should lose ${wanted}`;
  if (mark.pass) return `passes with ${mark.total}`;
  const named = signature === undefined || mark.signatures.some(({ id }) => id === signature);
  return named ? null : `is not called ${signature}`;
}

/** So many of the first random set-ups have their proving runs, whatever they are. Assumed: as many as the test run tries. */
const ALWAYS_RUN = 20;

/** A job that wants its proving run looked at has no pass without; and proving runs help nobody who fails by the rest. */
function isHopeless(exercise: CommissionExercise, attempt: Attempt): boolean {
  const wanted = exercise.commission.criteria.some(({ kind, must }) => kind === 'proved' && must === 'met');
  const { proved = [], walkTest } = attempt.answers.commission ?? {};
  if (wanted && proved.length === 0) return true;
  return (walkTest && !coversEnough(exercise, attempt.seed, walkTest)) || !mayPass(exercise, attempt);
}

/** Rounds of the random set-ups that pass. Beyond the first, those that cannot pass are not proved. */
function passedRounds(exercise: CommissionExercise, seed: number, randoms: number): number[] {
  const passed: number[] = [];
  for (let round = 0; round < randoms; round++) {
    const attempt = randomAttempt(exercise, seed, round);
    if (round >= ALWAYS_RUN && isHopeless(exercise, attempt)) continue;
    if (markAttempt(exercise, attempt).pass) passed.push(round);
  }
  return passed;
}

/** `randoms`: how many random set-ups are tried. */
export function proveCommission(exercise: CommissionExercise, seed: number, randoms: number): ProofResult[] {
  const result = (proof: string, fault: string | null): ProofResult => ({ exercise: exercise.id, seed, proof, fault });
  const markOf = (attempt: Attempt): Mark => markAttempt(exercise, attempt);
  const solution = markOf(solutionAttempt(exercise, seed));
  const { endS } = exercise.commission.solution;
  const nothing = markOf(attemptOf(exercise, seed, { settings: {}, acts: [], clips: {}, proved: false, endS }));
  const results = [
    result(
      'the solution passes in full',
      solution.pass && solution.total === automaticPoints(exercise)
        ? null
        : `it has ${solution.total} and loses ${notMet(solution).join(', ')}`,
    ),
    result('doing nothing fails', nothing.pass ? `nothing at all has ${nothing.total} of 100` : null),
  ];
  for (const mistake of exercise.commission.mistakes) {
    const mark = markOf(mistakeAttempt(exercise, seed, mistake));
    results.push(result(`the mistake ${mistake.id} loses what it should and is named`, mistakeFault(mark, mistake)));
  }
  const passed = passedRounds(exercise, seed, randoms);
  results.push(
    result(`${randoms} random set-ups fail`, passed.length === 0 ? null : `set-ups ${passed.join(', ')} pass`),
  );
  return results;
}
