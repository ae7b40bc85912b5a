/** Proofs of an observation: what the record holds, nothing at all, each classic mistake by its name, random tags. */
import { ENGINE_VERSION } from '../../engine/simulation.ts';
import type { Scenario } from '../../engine/types.ts';
import { secondsToTicks } from '../../engine/units.ts';
import { OUTPUTS } from '../../engine/view.ts';
import { type Dice, diceOf } from '../dice.ts';
import { benchScenario } from '../edits.ts';
import { markAttempt } from '../mark.ts';
import { SKILL_OF } from '../predict/mark.ts';
import { playFor } from '../predict/solution.ts';
import { endTickOf, type Played } from '../replay.ts';
import type { Attempt, CauseId, Mark, ProofResult } from '../types.ts';
import { allDesksRead, type Meter, metersOf, solutionRatios } from './ratios.ts';
import { classicTagMistakes, momentsOf, solutionTags } from './tags.ts';
import type {
  DeskReading,
  ObserveAnswers,
  ObserveExercise,
  ObserveSignature,
  RatiosTask,
  Tag,
  TagsTask,
} from './types.ts';
import { isWalks } from './walks.ts';
import { randomWalks, walkMistakes, walkSolution } from './walkWays.ts';

const CAUSES = Object.keys(SKILL_OF) as CauseId[];

export function attemptWith(exercise: ObserveExercise, seed: number, observe: ObserveAnswers): Attempt {
  const { id, aid } = exercise;
  return {
    format: 1,
    exercise: id,
    seed,
    engine: ENGINE_VERSION,
    names: [],
    aid,
    inputs: [],
    headTick: 0,
    digests: [],
    answers: { observe },
  };
}

/** Tags without thought: as many as there are moments, each on any output, at any whole second, with any cause. */
export function randomTags(observe: TagsTask, dice: Dice): Tag[] {
  return Array.from({ length: observe.moments }, () => ({
    atS: dice(observe.toS),
    output: OUTPUTS[dice(OUTPUTS.length)]!,
    cause: CAUSES[dice(CAUSES.length)]!,
  }));
}

type Marked = (answers: ObserveAnswers) => Mark;
/** The dice of each random attempt. */
type Rounds = (round: number) => Dice;

interface Claim {
  proof: string;
  fault: string | null;
}

/** A classic mistake costs one line, and is called by its name once. */
function mistakeClaim(id: ObserveSignature['id'], mark: Mark): Claim {
  const named = mark.signatures.filter((signature) => signature.id === id).length === 1;
  const lost = mark.parts[0]!.lines.filter(({ points, of }) => points < of);
  const fault = lost.length !== 1 ? `loses ${lost.length} lines` : named ? null : 'is not called by its name';
  return { proof: `the mistake ${id} loses one line and is named`, fault };
}

function randomClaim(randoms: number, passes: (round: number) => boolean): Claim {
  const passed = Array.from({ length: randoms }, (_, round) => round).filter(passes);
  const fault = passed.length === 0 ? null : `random answers ${passed.join(', ')} pass`;
  return { proof: `${randoms} random answers fail`, fault };
}

function commonClaims(solution: Mark, nothing: Mark): Claim[] {
  return [
    {
      proof: 'the solution passes',
      fault: solution.total === 100 ? null : `the solution has ${solution.total} of 100`,
    },
    { proof: 'doing nothing fails', fault: nothing.pass ? 'nothing at all passes' : null },
  ];
}

function tagClaims(task: TagsTask, played: Played, marked: Marked, dice: Rounds, randoms: number): Claim[] {
  const truths = momentsOf(task, played.events);
  const right = solutionTags(truths);
  const allSeen = marked({ tags: right.map((tag) => ({ ...tag, cause: 'seen' })) });
  return [
    {
      proof: 'the record holds the moments asked for',
      fault: truths.length === task.moments ? null : `it holds ${truths.length}, not ${task.moments}`,
    },
    ...commonClaims(marked({ tags: right }), marked({})),
    { proof: 'one cause for every moment fails', fault: allSeen.pass ? `it has ${allSeen.total} of 100` : null },
    ...classicTagMistakes(truths, played.events).map(({ id, tags }) => mistakeClaim(id, marked({ tags }))),
    randomClaim(randoms, (i) => marked({ tags: randomTags(task, dice(i)) }).pass),
  ];
}

/** Largest ratio drawn at random, and the step. Assumed: a meter on a desk shows up to ten times the ceiling. */
const RANDOM_MOST = 10;
const RANDOM_STEP = 0.05;

/** Some desks read, or none, and any two figures. */
export function randomRatios(readings: readonly DeskReading[], dice: Dice): ObserveAnswers {
  const figure = (): number => RANDOM_STEP * (1 + dice(RANDOM_MOST / RANDOM_STEP));
  return {
    readings: readings.filter(() => dice(2) === 1),
    ratios: { inner: figure(), window: figure() },
  };
}

function ratioClaims(
  task: RatiosTask,
  scenario: Scenario,
  meter: Meter,
  marked: Marked,
  dice: Rounds,
  randoms: number,
) {
  const readings = allDesksRead(scenario, secondsToTicks(task.fromS), meter);
  const ratios = solutionRatios(scenario, readings, meter);
  const unread = marked({ readings: [], ratios });
  return [
    ...commonClaims(marked({ readings, ratios }), marked({})),
    { proof: 'ratios without readings fail', fault: unread.pass ? `they have ${unread.total} of 100` : null },
    mistakeClaim('ratioUpsideDown', marked({ readings, ratios: { ...ratios, window: 1 / ratios.window } })),
    mistakeClaim('oneRatioForAll', marked({ readings, ratios: { ...ratios, window: ratios.inner } })),
    randomClaim(randoms, (i) => marked(randomRatios(readings, dice(i))).pass),
  ];
}

/** A mistake in how two walks are compared does not pass, and is called by its name. */
function comparedClaim(id: ObserveSignature['id'], mark: Mark): Claim {
  const named = mark.signatures.some((signature) => signature.id === id);
  const fault = mark.pass ? `it has ${mark.total} of 100` : named ? null : 'is not called by its name';
  return { proof: `the mistake ${id} does not pass and is named`, fault };
}

function walkClaims(exercise: ObserveExercise, marked: Marked, seed: number, dice: Rounds, randoms: number): Claim[] {
  if (!isWalks(exercise)) return [];
  const right = walkSolution(exercise, seed);
  const { walks, ...said } = right;
  const unnoted = walks!.map(({ line, paceMps }) => ({ line, paceMps }));
  const saying = marked({ ...said, walks: unnoted });
  const { comparing, noting } = walkMistakes(exercise, seed);
  return [
    ...commonClaims(marked(right), marked({})),
    { proof: 'saying without noting fails', fault: saying.pass ? `it has ${saying.total} of 100` : null },
    ...comparing.map(({ id, answers }) => comparedClaim(id, marked(answers))),
    ...noting.map(({ id, answers }) => mistakeClaim(id, marked(answers))),
    randomClaim(randoms, (i) => marked(randomWalks(exercise, seed, dice(i))).pass),
  ];
}

/** `randoms`: how many random answers are tried. */
export function proveObservation(exercise: ObserveExercise, seed: number, randoms: number): ProofResult[] {
  const played = playFor(exercise, seed);
  const scenario = benchScenario(exercise, seed);
  const { observe, id } = exercise;
  const dice: Rounds = (round) => diceOf(id, seed, round);
  const meter = observe.task === 'ratios' ? metersOf(scenario, [], endTickOf(exercise)) : null;
  const marked: Marked = (answers) => markAttempt(exercise, attemptWith(exercise, seed, answers), played, meter);
  const claims =
    observe.task === 'tags'
      ? tagClaims(observe, played, marked, dice, randoms)
      : observe.task === 'ratios'
        ? ratioClaims(observe, scenario, meter!, marked, dice, randoms)
        : walkClaims(exercise, marked, seed, dice, randoms);
  return claims.map((claim) => ({ exercise: id, seed, ...claim }));
}
