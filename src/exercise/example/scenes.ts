/** The rooms that an example is shown in: the expert's own run, the room as found or left, proving days of either. */
import type { Scenario, Tick } from '../../engine/types.ts';
import { secondsToTicks } from '../../engine/units.ts';
import { bestOf } from '../commission/best.ts';
import { designedRoom, foundChoice, hungScenario } from '../commission/design.ts';
import { provingScenario } from '../commission/proving.ts';
import { foundRoom } from '../commission/ratio.ts';
import type { CommissionExercise, LeftRoom } from '../commission/types.ts';
import { cardScenario, trueCard } from '../diagnose/cards.ts';
import { benchScenario } from '../edits.ts';
import { endTickOf } from '../replay.ts';
import type { Attempt, Exercise } from '../types.ts';
import { EXAMPLE_SEED } from './twin.ts';
import type { ExampleStep, WorkedScene } from './types.ts';

export interface Scene extends WorkedScene {
  key: string;
  /** It can be shown up to here. */
  endTick: Tick;
}

export function sceneKey({ plan, day }: Pick<ExampleStep, 'plan' | 'day'>): string {
  return [plan ?? 'own', ...(day === undefined ? [] : [day])].join('-');
}

function leftAs(exercise: CommissionExercise, plan: ExampleStep['plan']): LeftRoom {
  if (plan !== 'found') return bestOf(exercise, EXAMPLE_SEED).left;
  if (exercise.design) return designedRoom(exercise, EXAMPLE_SEED, foundChoice(exercise, EXAMPLE_SEED));
  return foundRoom(benchScenario(exercise, EXAMPLE_SEED));
}

function commissionRoom(twin: CommissionExercise, attempt: Attempt, { plan, day }: ExampleStep): Omit<Scene, 'key'> {
  const proving = twin.commission.days.find(({ id }) => id === day);
  if (proving) {
    const scenario = provingScenario(twin, EXAMPLE_SEED, leftAs(twin, plan), proving);
    return { scenario, inputs: [], endTick: secondsToTicks(proving.forS) };
  }
  const { design } = twin.commission.best;
  if (design) {
    const choice = plan === 'found' ? foundChoice(twin, EXAMPLE_SEED) : design;
    const scenario = hungScenario(twin, EXAMPLE_SEED, choice);
    return { scenario, inputs: [], endTick: secondsToTicks(scenario.endS) };
  }
  const inputs = plan === 'found' ? [] : attempt.inputs;
  return { scenario: benchScenario(twin, EXAMPLE_SEED), inputs, endTick: attempt.headTick };
}

function roomOf(twin: Exercise, attempt: Attempt, step: ExampleStep): Omit<Scene, 'key'> {
  if (twin.kind === 'commission' || twin.kind === 'design') return commissionRoom(twin, attempt, step);
  if (twin.kind === 'diagnose') {
    const scenario = cardScenario(twin, EXAMPLE_SEED, trueCard(twin, EXAMPLE_SEED));
    return { scenario, inputs: attempt.inputs, endTick: attempt.headTick + 1 };
  }
  return { scenario: benchScenario(twin, EXAMPLE_SEED), inputs: attempt.inputs, endTick: endTickOf(twin) };
}

/** The room of a step, under a name of its own; nothing that is kept of a learner's bench has it. */
export function sceneOf(twin: Exercise, attempt: Attempt, step: ExampleStep): Scene {
  const key = sceneKey(step);
  const { scenario, ...rest } = roomOf(twin, attempt, step);
  return { ...rest, key, scenario: named(scenario, `${twin.id}-${key}`) };
}

function named(scenario: Scenario, id: string): Scenario {
  return { ...scenario, id, suggested: [] };
}
