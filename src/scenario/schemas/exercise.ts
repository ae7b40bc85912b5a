/** Shape of an exercise file (scenarios/exercises/*.json) and of the edits that exercises and faults are made of. */
import * as z from 'zod/mini';
import { input, localDate, SKIES } from './inputs.ts';
import { LONGEST_S, momentS, personId, storyPerson, warmThingSpec } from './people.ts';
import { furnitureSpec } from './room.ts';
import { settingsChange } from './settings.ts';
import {
  between,
  format,
  list,
  matching,
  oneOf,
  optional,
  point,
  schemaAddress,
  shape,
  slug,
  text,
  wholeBetween,
} from './words.ts';

const localTime = () => matching(/^\d{2}:\d{2}(:\d{2})?$/, 'a time written HH:MM or HH:MM:SS');

/** A change of the installation, its settings or its surroundings. */
export const edit = shape(
  {
    settings: optional(settingsChange),
    mount: optional(
      shape(
        {
          atM: optional(point()),
          heightM: optional(between(1.5, 6, 'm')),
          turnDeg: optional(between(-360, 360, 'degrees')),
        },
        'a changed place of the detector',
      ),
    ),
    sky: optional(oneOf(SKIES)),
    localDate: optional(localDate()),
    localTime: optional(localTime()),
    airTemperatureC: optional(between(5, 40, 'degrees Celsius')),
    addFurniture: optional(list(furnitureSpec, 'pieces of furniture', 10)),
    removeFurniture: optional(list(slug(), 'ids of furniture', 10)),
    addWarmThings: optional(list(warmThingSpec, 'warm or moving things', 4)),
    addPeople: optional(list(storyPerson, 'people', 4)),
    removePeople: optional(list(personId(), 'ids of people', 8)),
    script: optional(list(shape({ atS: momentS(), input }, 'atS and input'), 'inputs', 200)),
  },
  'a change',
);
export type EditFile = z.infer<typeof edit>;

const common = {
  $schema: schemaAddress(),
  format: format(),
  id: slug(),
  job: wholeBetween(1, 18),
  title: text(1, 60),
  question: text(1, 100),
  brief: text(1, 400),
  aid: oneOf(['guided', 'practice', 'test']),
  hints: list(text(1, 200), 'hints', 3, 3),
  story: slug(),
  change: optional(edit),
  draws: optional(list(list(edit, 'changes to choose from', 12, 1), 'draws', 6)),
};

const output = () => oneOf(['innerRow', 'windowRow', 'airContact']);

const predictFile = shape(
  {
    ...common,
    kind: z.literal('predict'),
    told: list(shape({ atS: momentS(), say: text(1, 80) }, 'atS and say'), 'things told', 12),
    predict: shape(
      {
        outputs: list(output(), 'outputs', 3, 1),
        fromS: between(0, LONGEST_S, 's'),
        toS: between(1, LONGEST_S, 's'),
        toleranceS: between(5, 600, 's'),
      },
      'outputs, fromS, toS and toleranceS',
    ),
  },
  'a predict exercise',
);

export const exerciseFile = z.discriminatedUnion('kind', [predictFile], {
  error: 'an exercise whose kind is one of predict',
});
export type ExerciseFile = z.infer<typeof exerciseFile>;
