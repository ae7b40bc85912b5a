/** Reading a commissioning task: what its shape cannot say. */
import { checkStory } from '../../scenario/checks.ts';
import type { CommissionFile } from '../../scenario/schemas/commission.ts';
import { sentence } from '../../scenario/sentences.ts';
import { editOf } from '../editFile.ts';
import { edited } from '../edits.ts';
import type { CommissionExercise, CommissionTask, Condition } from './types.ts';

export function commissionOf(file: CommissionFile): CommissionTask {
  return { ...file, days: file.days.map((day) => ({ ...day, change: editOf(day.change) })) };
}

/** Points of a whole exercise. Source: the product's own rubric. */
const WHOLE = 100;

function conditionsOf(criterion: CommissionTask['criteria'][number]): Condition[] {
  const { when = [], is = [] } = criterion as { when?: Condition[]; is?: Condition[] };
  return [...when, ...is];
}

/** Choices name points and lamps that the plan has, and no point lies outside the room. */
function designFaults(fileName: string, { scenario, commission, design }: CommissionExercise): string[] {
  if (!design) return [];
  const { widthM, depthM, luminaires } = scenario.room;
  const outside = design.points.flatMap(({ atM: [x, y] }, i) =>
    x > 0 && x < widthM && y > 0 && y < depthM
      ? []
      : [sentence(fileName, ['design', 'points', i], 'a point in the room', [x, y])],
  );
  const { best, mistakes } = commission;
  const choices = [best.design, ...mistakes.map((mistake) => mistake.design)];
  const unknown = choices.flatMap((choice) => {
    if (!choice) return [];
    const lamps = Object.keys(choice.rows ?? {}).filter((id) => !luminaires.some((lamp) => lamp.id === id));
    const point = design.points.some(({ id }) => id === choice.point) ? [] : [choice.point];
    return [...lamps, ...point];
  });
  const wrong = unknown.map((id) =>
    sentence(fileName, ['commission'], 'choices of points and lamps that the plan has', id),
  );
  const noBest = best.design ? [] : [sentence(fileName, ['commission', 'best'], 'a best design', best)];
  return [...outside, ...wrong, ...noBest];
}

/** Points add up to a whole; criteria, desks and settings that are named exist; every proving day is a room. */
export function commissionFaults(fileName: string, exercise: CommissionExercise): string[] {
  const { scenario, commission } = exercise;
  const { criteria, mistakes, days, settings } = commission;
  const sentences: string[] = [];
  const say = (path: (string | number)[], expected: string, found: unknown): void => {
    sentences.push(sentence(fileName, ['commission', ...path], expected, found));
  };
  const sum = criteria.reduce((total, { points }) => total + points, 0);
  if (sum !== WHOLE) say(['criteria'], `criteria whose points add up to ${WHOLE}`, sum);
  const ids = criteria.map(({ id }) => id);
  criteria.forEach((criterion, i) => {
    if (ids.indexOf(criterion.id) !== i) say(['criteria', i, 'id'], 'an id that no other criterion has', criterion.id);
    for (const id of criterion.days ?? []) {
      if (!days.some((day) => day.id === id)) say(['criteria', i, 'days'], 'the id of a proving day', id);
    }
    for (const condition of conditionsOf(criterion)) {
      if (!('desk' in condition) || scenario.room.deskPoints.some(({ id }) => id === condition.desk)) continue;
      say(['criteria', i], 'a desk point of the room', condition.desk);
    }
  });
  mistakes.forEach((mistake, i) => {
    mistake.fails.forEach((id, j) => {
      if (!ids.includes(id)) say(['mistakes', i, 'fails', j], 'the id of a criterion', id);
    });
    for (const key of Object.keys(mistake.settings)) {
      if (!settings.includes(key as (typeof settings)[number]))
        say(['mistakes', i, 'settings'], 'a setting of this job', key);
    }
  });
  days.forEach((day, i) => {
    const faults = checkStory(fileName, { ...edited(scenario, day.change), endS: day.forS });
    sentences.push(...faults.map((text) => `${text} (with commission.days[${i}])`));
  });
  return [...sentences, ...designFaults(fileName, exercise)];
}
