/** Shape of inputs: the script of a story, suggested acts, and files of inputs for the command line. */
import * as z from 'zod/mini';
import type { Input } from '../../engine/types.ts';
import { detectorMount } from './detector.ts';
import { LONGEST_S, momentS, personId, personSpec, plan } from './people.ts';
import { lampDistribution, reflectance, share } from './room.ts';
import { settingsChange } from './settings.ts';
import {
  between,
  format,
  list,
  matching,
  oneOf,
  optional,
  orNull,
  point,
  schemaAddress,
  shape,
  slug,
  wholeBetween,
  yesNo,
} from './words.ts';

export const SKIES = ['clear', 'hazy', 'passingClouds', 'overcast'] as const;
const DATE = /^\d{4}-\d{2}-\d{2}$/;
export const localDate = () => matching(DATE, 'a date written YYYY-MM-DD');
const button = () => oneOf(['inner', 'window', 'air']);
const offsetMs = () => optional(wholeBetween(0, 99));

const kinds = [
  shape(
    {
      kind: z.literal('setSettings'),
      change: settingsChange,
      via: optional(oneOf(['dial', 'handHeld'])),
    },
    'changed settings',
  ),
  shape({ kind: z.literal('takePresentLight'), row: oneOf(['inner', 'window']) }, 'take present light'),
  shape({ kind: z.literal('walkTest'), action: oneOf(['start', 'end']) }, 'walk-test'),
  shape({ kind: z.literal('contact'), input: button(), closed: yesNo(), offsetMs: offsetMs() }, 'a contact'),
  shape(
    {
      kind: z.literal('press'),
      input: button(),
      closedMs: optional(wholeBetween(1, 600_000)),
      offsetMs: offsetMs(),
    },
    'a press',
  ),
  shape({ kind: z.literal('supply'), on: yesNo(), offsetMs: offsetMs() }, 'supply'),
  shape({ kind: z.literal('addPerson'), person: personSpec }, 'an added person'),
  shape({ kind: z.literal('removePerson'), personId: personId() }, 'a removed person'),
  shape(
    {
      kind: z.literal('placePerson'),
      personId: personId(),
      atM: point(),
      headingDeg: optional(between(-360, 360, 'degrees')),
    },
    'a placed person',
  ),
  shape({ kind: z.literal('setPlan'), personId: personId(), plan: plan() }, 'a new plan'),
  shape(
    {
      kind: z.literal('moveSun'),
      shiftS: between(-86_400, 86_400, 's'),
      localDate: orNull(localDate(), 'a date written YYYY-MM-DD'),
    },
    'a moved sun',
  ),
  shape({ kind: z.literal('setSky'), sky: oneOf(SKIES) }, 'a sky'),
  shape({ kind: z.literal('setBlind'), windowId: slug(), closedShare: share() }, 'a blind'),
  shape({ kind: z.literal('setDoor'), doorId: slug(), open: yesNo() }, 'a door'),
  shape({ kind: z.literal('moveDetector'), mount: detectorMount() }, 'a moved detector'),
  shape(
    { kind: z.literal('setTemperature'), airTemperatureC: between(5, 40, 'degrees Celsius') },
    'an air temperature',
  ),
  shape({ kind: z.literal('setWarmThing'), thingId: slug(), on: yesNo() }, 'a warm thing'),
  shape({ kind: z.literal('moveFurniture'), furnitureId: slug(), atM: point() }, 'moved furniture'),
  shape({ kind: z.literal('moveLuminaire'), luminaireId: slug(), atM: point() }, 'a moved luminaire'),
  shape(
    { kind: z.literal('setLampKind'), row: oneOf(['inner', 'window']), distribution: lampDistribution() },
    'other lamps',
  ),
  shape({ kind: z.literal('setReflectance'), target: slug(), reflectance: reflectance() }, 'a reflectance'),
  shape({ kind: z.literal('cleanPhotometers') }, 'cleaned photometers'),
  shape({ kind: z.literal('coverDetector'), forS: between(0, 3600, 's') }, 'a covered detector'),
  shape(
    { kind: z.literal('holdTorch'), side: oneOf(['inner', 'window']), forS: between(0, 3600, 's') },
    'a torch held to the detector',
  ),
] as const;

const kindNames = kinds.map((kind) => kind.def.shape.kind.def.values[0]);

export const input = z.discriminatedUnion('kind', kinds, {
  error: `an input whose kind is one of ${kindNames.join(', ')}`,
}) satisfies z.ZodMiniType<Input>;

const digest = matching(/^[0-9a-f]{16}$/, 'a digest of 16 hexadecimal digits');
const tick = () => wholeBetween(0, LONGEST_S * 10);

/** Inputs by scenario time, as a person writes them. */
export const inputsFile = shape(
  {
    $schema: schemaAddress(),
    format: format(),
    inputs: list(shape({ atS: momentS(), input }, 'atS and input'), 'inputs', 100_000),
  },
  'a list of inputs',
);

/** An input with its tick and its place among those of the same tick. */
export const timedInput = shape({ tick: tick(), serial: wholeBetween(0, 1e9), input }, 'tick, serial, input');
export const tickDigest = shape({ tick: tick(), digest }, 'tick and digest');

/** A recording as the app saves it. */
export const recordingFile = shape(
  {
    format: format(),
    engine: z.string({ error: 'the version of the engine' }),
    scenarioId: z.string({ error: 'the id of a scenario' }),
    seed: wholeBetween(0, 0xffffffff),
    inputs: list(timedInput, 'inputs', 1e6),
    headTick: tick(),
    digests: list(tickDigest, 'digests', 1e6),
  },
  'a recording',
);
