/** The bench that an example is shown on: the exercise's own story with another change, under a seed that no class gives. */
import { canonicalJson } from '../../engine/digest.ts';
import type { Scenario } from '../../engine/types.ts';
import { benchScenario, edited } from '../edits.ts';
import type { Exercise } from '../types.ts';

/** Source: our own; class codes give benches of 1 to 9999. */
export const EXAMPLE_SEED = 20_001;

/** The exercise with one bench only. Its id is its own: nothing that is kept of a learner's bench is touched. */
export function twinOf(exercise: Exercise): Exercise {
  const { example, ...own } = exercise;
  const scenario = edited(own.scenario, example?.change ?? {});
  const twin = { ...own, id: `${own.id}-example`, scenario, draws: [] };
  const { card, design } = example ?? {};
  if (twin.kind === 'design' && design) {
    const { points, best } = design;
    const commission = { ...twin.commission, best: { ...twin.commission.best, design: best }, mistakes: [] };
    return { ...twin, design: { points }, commission };
  }
  if (twin.kind !== 'diagnose' || card === undefined) return twin;
  return { ...twin, diagnose: { ...twin.diagnose, truths: [card] } };
}

function bare({ id: _id, seed: _seed, ...room }: Scenario): string {
  return canonicalJson(room);
}

/** Every room that the seeds of an exercise can draw, whatever its cause; seeds only add chance to it. */
function* drawnRooms({ scenario, draws }: Exercise): Generator<Scenario> {
  let rooms: Generator<Scenario> | Scenario[] = [scenario];
  for (const list of draws) rooms = withEach(rooms, list);
  yield* rooms;
}

function* withEach(rooms: Iterable<Scenario>, list: Exercise['draws'][number]): Generator<Scenario> {
  for (const room of rooms) for (const edit of list) yield edited(room, edit);
}

/** Whether some seed gives a learner the room, the cause or the point of the example. */
export function isDrawn(exercise: Exercise): boolean {
  const { card, design } = exercise.example ?? {};
  if (exercise.kind === 'diagnose' && card !== undefined && !exercise.diagnose.truths.includes(card)) return false;
  if (exercise.kind === 'design' && design) {
    const chosen = design.points.find(({ id }) => id === design.best.point)?.atM;
    return exercise.design?.points.some(({ atM }) => canonicalJson(atM) === canonicalJson(chosen)) === true;
  }
  const twin = bare({ ...benchScenario(twinOf(exercise), EXAMPLE_SEED), endS: exercise.scenario.endS });
  for (const room of drawnRooms(exercise)) if (bare(room) === twin) return true;
  return false;
}
