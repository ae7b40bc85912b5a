/** Shape of the file of fault cards (scenarios/faults.json), and of tests, remedies and proofs as exercises write them. */
import * as z from 'zod/mini';
import type { ControllerSettings } from '../../engine/types.ts';
import { edit } from './edit.ts';
import { input } from './inputs.ts';
import { settingsChange } from './settings.ts';
import {
  between,
  format,
  list,
  matching,
  oneOf,
  optional,
  schemaAddress,
  shape,
  slug,
  text,
  wholeBetween,
  yesNo,
} from './words.ts';

const settingNames = Object.keys(settingsChange.def.shape) as [
  keyof ControllerSettings,
  ...(keyof ControllerSettings)[],
];
export const settingKey = () => oneOf(settingNames);
export const button = () => oneOf(['inner', 'window', 'air']);
export const output = () => oneOf(['innerRow', 'windowRow', 'airContact']);
const value = () =>
  z.union([z.number(), z.string(), z.boolean(), z.null()], { error: 'a number, a word, true, false or null' });

const tests = [
  shape({ instrument: z.literal('ask') }, 'asking the client'),
  shape({ instrument: z.literal('drawing') }, 'the drawing'),
  shape(
    {
      instrument: z.literal('look'),
      part: oneOf(['clips', 'arrow', 'lightWindows', 'doors', 'things', 'lamps']),
    },
    'a look at a part',
  ),
  shape({ instrument: z.literal('repeat') }, 'the complaint repeated'),
  shape({ instrument: z.literal('settings'), key: settingKey() }, 'a setting read'),
  shape({ instrument: z.literal('handHeld'), page: oneOf(['states', 'inner', 'window']) }, 'the hand-held setter'),
  shape({ instrument: z.literal('luxMeter'), place: slug() }, 'the lux meter at a place'),
  shape({ instrument: z.literal('thermometer') }, 'the thermometer'),
  shape({ instrument: z.literal('seenAt'), place: slug() }, 'movement at a place'),
  shape(
    { instrument: z.literal('stopwatch'), output: output(), edge: oneOf(['on', 'off']) },
    'the stopwatch on an output',
  ),
  shape({ instrument: z.literal('button'), button: button() }, 'a press of a button'),
  shape(
    { instrument: z.literal('log'), of: oneOf(['presses', 'pulses']), lastMin: wholeBetween(1, 120) },
    'the log of the last minutes',
  ),
  shape({ instrument: z.literal('watch'), forMin: wholeBetween(1, 60) }, 'the room left alone'),
  shape({ instrument: z.literal('cloth'), forMin: wholeBetween(1, 30) }, 'the cover cloth'),
  shape(
    { instrument: z.literal('torch'), side: oneOf(['inner', 'window']), forMin: wholeBetween(1, 30) },
    'the torch from a side',
  ),
] as const;

export const test = z.discriminatedUnion('instrument', tests, {
  error: `a test whose instrument is one of ${tests.map((t) => t.def.shape.instrument.def.values[0]).join(', ')}`,
});
export type TestFile = z.infer<typeof test>;

const sectors = () => list(wholeBetween(0, 11), 'sectors', 12, 1);
const requirement = z.union(
  [
    shape(
      { setting: settingKey(), atLeast: optional(z.number()), atMost: optional(z.number()), is: optional(value()) },
      'a setting with atLeast, atMost or is',
    ),
    shape({ clipsOn: sectors() }, 'sectors with a clip'),
    shape({ clipsOff: sectors() }, 'sectors without a clip'),
    shape({ turnDeg: between(-360, 360, 'degrees'), withinDeg: between(1, 90, 'degrees') }, 'a bearing of the arrow'),
    shape({ movedM: between(0.1, 10, 'm') }, 'a way that the detector was moved'),
    shape({ thing: slug(), on: yesNo() }, 'a thing on or off'),
    shape({ door: slug(), open: yesNo() }, 'a door open or shut'),
    shape({ furniture: slug(), awayM: between(0.1, 20, 'm') }, 'a piece of furniture moved'),
    shape({ phase: oneOf(['off', 'warmUp', 'running', 'walkTest']) }, 'a phase'),
    shape({ lightWindowsClean: z.literal(true) }, 'clean light windows'),
  ],
  { error: 'a setting, clipsOn, clipsOff, turnDeg, movedM, thing, door, furniture, phase or lightWindowsClean' },
);
export const remedy = () => list(list(requirement, 'things that must be so', 6), 'ways to put it right', 6, 1);

export const specialProof = shape(
  {
    test,
    value: text(1, 40),
    atLeast: optional(z.number()),
    atMost: optional(z.number()),
    is: optional(value()),
  },
  'a proof with its test and value',
);

const repairInputs = () => list(input, 'inputs', 10);

export const faultCard = shape(
  {
    id: slug(),
    title: text(1, 60),
    healthy: yesNo(),
    complaints: list(text(1, 160), "lines in the client's words", 3, 2),
    edit: optional(edit),
    draws: optional(list(list(edit, 'changes to choose from', 12, 1), 'draws', 4)),
    remedy: remedy(),
    repair: repairInputs(),
    proof: specialProof,
    because: text(1, 200),
  },
  'a fault card',
);
export type FaultCardFile = z.infer<typeof faultCard>;

export const faultsFile = shape(
  { $schema: schemaAddress(), format: format(), cards: list(faultCard, 'cards', 60, 1) },
  'a file of fault cards',
);

/** What a candidate is called: a card, or two of them joined. */
export const causeId = () => matching(/^[a-z0-9][a-z0-9-]{0,84}$/, 'the id of a card, or of two joined by -and-');

/** A card in one exercise: what belongs to this room wins over the card's own. */
export const candidate = shape(
  {
    card: slug(),
    /** A second cause that is there at the same time. */
    and: optional(slug()),
    prior: between(0.01, 1, ''),
    edit: optional(edit),
    draws: optional(list(list(edit, 'changes to choose from', 12, 1), 'draws', 4)),
    remedy: optional(remedy()),
    repair: optional(repairInputs()),
    proof: optional(specialProof),
  },
  'a candidate with card and prior',
);
export type CandidateFile = z.infer<typeof candidate>;
