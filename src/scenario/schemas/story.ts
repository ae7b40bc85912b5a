/** Shape of a story file: scenarios/*.json. */
import * as z from 'zod/mini';
import { detectorModel, detectorMount } from './detector.ts';
import { input, localDate, SKIES } from './inputs.ts';
import { LONGEST_S, momentS, storyPerson, warmThingSpec } from './people.ts';
import { changedRoom, roomSpec, share } from './room.ts';
import { settingsChange } from './settings.ts';
import {
  between,
  format,
  list,
  matching,
  oneOf,
  optional,
  orNull,
  schemaAddress,
  shape,
  slug,
  text,
  wholeBetween,
  yesNo,
} from './words.ts';

/** Most people in one room. Source: the product's own limits. */
export const MAX_PEOPLE = 8;
/** Most warm or moving things in one room. Source: the product's own limits. */
export const MAX_WARM_THINGS = 4;

export const storyFile = shape(
  {
    $schema: schemaAddress(),
    format: format(),
    id: slug(),
    title: text(1, 60),
    question: text(1, 100),
    brief: text(1, 400),
    seed: optional(wholeBetween(0, 0xffffffff)),
    start: shape(
      {
        localDate: localDate(),
        localTime: matching(/^\d{2}:\d{2}(:\d{2})?$/, 'a time written HH:MM or HH:MM:SS'),
        utcOffsetH: between(-12, 14, 'h'),
      },
      'localDate, localTime and utcOffsetH',
    ),
    endS: between(1, LONGEST_S, 's'),
    speed: optional(between(0.1, 600, '')),
    site: shape(
      {
        latitudeDeg: between(-90, 90, 'degrees'),
        longitudeDeg: between(-180, 180, 'degrees'),
        groundReflectance: optional(share()),
        obstructionAltitudeDeg: optional(between(0, 80, 'degrees')),
        obstructionReflectance: optional(share()),
        outsideAirC: optional(between(-40, 50, '°C')),
      },
      'a site with latitudeDeg and longitudeDeg',
    ),
    room: z.union([slug(), changedRoom, roomSpec], {
      error: 'the name of a file in scenarios/rooms, a changed room with its "base", or a whole room',
    }),
    sky: oneOf(SKIES),
    detector: z.union([slug(), detectorModel], {
      error: 'the name of a file in scenarios/detectors, or a whole detector',
    }),
    mount: detectorMount(),
    settings: optional(settingsChange),
    supplyAtStart: optional(yesNo()),
    people: list(storyPerson, 'people', MAX_PEOPLE),
    warmThings: optional(list(warmThingSpec, 'warm or moving things', MAX_WARM_THINGS)),
    script: optional(list(shape({ atS: momentS(), input }, 'atS and input'), 'inputs', 2000)),
    suggested: optional(
      list(
        shape({ say: text(1, 80), input: orNull(input, 'an input') }, 'a suggestion with say and input'),
        'suggested acts',
        4,
      ),
    ),
  },
  'a story',
);
export type StoryFile = z.infer<typeof storyFile>;
