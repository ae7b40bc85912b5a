/** Shape of a change of the installation, its settings or its surroundings: exercises and faults are made of these. */
import type * as z from 'zod/mini';
import { input, localDate, SKIES } from './inputs.ts';
import { momentS, personId, storyPerson, warmThingSpec } from './people.ts';
import { furnitureSpec } from './room.ts';
import { settingsChange } from './settings.ts';
import { between, list, matching, oneOf, optional, point, shape, slug, yesNo } from './words.ts';

const localTime = () => matching(/^\d{2}:\d{2}(:\d{2})?$/, 'a time written HH:MM or HH:MM:SS');

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
    doors: optional(list(shape({ doorId: slug(), open: yesNo() }, 'doorId and open'), 'doors', 4)),
    photometerClearShare: optional(between(0.02, 1, '')),
  },
  'a change',
);
export type EditFile = z.infer<typeof edit>;
