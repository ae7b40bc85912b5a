/** Shape of an attempt file: what a learner did, sealed against slips of the hand. */
import * as z from 'zod/mini';
import { designChoice } from './commission.ts';
import { causeId, test } from './faults.ts';
import { tickDigest, timedInput } from './inputs.ts';
import { LONGEST_S, personId } from './people.ts';
import {
  between,
  format,
  list,
  matching,
  oneOf,
  optional,
  point,
  shape,
  slug,
  text,
  wholeBetween,
  yesNo,
} from './words.ts';

const edge = shape({ atS: between(0, LONGEST_S, 's'), on: yesNo() }, 'a switching with atS and on');
const edges = () => optional(list(edge, 'switchings', 200));
const count = () => optional(wholeBetween(0, 1000));
const output = () => oneOf(['innerRow', 'windowRow', 'airContact']);
const perOutput = <T extends z.ZodMiniType>(of: () => T) => ({ innerRow: of(), windowRow: of(), airContact: of() });

const CAUSES = [
  'seen',
  'delayFromLastPulse',
  'brightForDwell',
  'darkForDwell',
  'onDelay',
  'presenceOnly',
  'button',
  'supply',
] as const;

const predictAnswers = shape(
  {
    edges: shape(perOutput(edges), 'switchings by output'),
    seen: optional(shape(perOutput(count), 'counts by output')),
    why: optional(
      list(
        shape({ output: output(), index: wholeBetween(0, 200), cause: oneOf(CAUSES) }, 'output, index and cause'),
        'causes',
        600,
      ),
    ),
  },
  'a prediction',
);

const tick = () => wholeBetween(0, LONGEST_S * 10);
const act = { tick: tick(), serial: wholeBetween(0, 1e9) };
const value = z.union([z.number(), z.string(), z.boolean(), z.null()], {
  error: 'a number, a word, true, false or null',
});
const values = z.record(z.string({ error: 'a name' }), value, { error: 'values by name' });

export const diagnoseAnswers = shape(
  {
    clips: list(shape({ ...act, test, values }, 'a clip with tick, serial, test and values'), 'clips', 500),
    claims: list(shape({ ...act, card: causeId() }, 'a claim with tick, serial and card'), 'claims', 50),
    swaps: list(shape({ ...act, part: oneOf(['detector']) }, 'a swap with tick, serial and part'), 'swaps', 20),
    mending: optional(shape(act, 'an opening with tick and serial')),
    hints: list(shape({ tick: tick(), rung: wholeBetween(1, 3) }, 'a hint with tick and rung'), 'hints', 50),
    record: shape({ advice: text(0, 2000) }, 'a record with advice'),
  },
  'a diagnosis',
);

const pointIds = () => list(wholeBetween(1, 1e6), 'points', 400);
const walkTest = shape(
  {
    points: list(
      shape(
        {
          id: wholeBetween(1, 1e6),
          tick: tick(),
          personId: personId(),
          atM: point(),
          way: oneOf(['across', 'toward', 'seated', 'away', 'standing']),
          seen: yesNo(),
        },
        'a point of a walk-test',
      ),
      'points',
      400,
    ),
    edge: shape({ across: pointIds(), toward: pointIds(), seated: pointIds() }, 'edges across, toward and seated'),
  },
  'a walk-test',
);

const commissionAnswers = shape(
  {
    proved: list(shape(act, 'a proving run with tick and serial'), 'proving runs', 500),
    walkTest: optional(walkTest),
    design: optional(designChoice),
    handover: optional(text(0, 4000)),
    clips: list(shape({ criterion: slug(), tick: tick() }, 'a clip with criterion and tick'), 'clips', 100),
  },
  'a commissioning',
);

const walkNoted = shape(
  { tick: tick(), wayM: between(0, 100, 'm'), signalUv: between(0, 1_000_000, 'µV') },
  'a note with tick, wayM and signalUv',
);

const walkedLine = shape(
  {
    line: wholeBetween(1, 8),
    paceMps: between(0, 5, 'm/s'),
    seen: optional(walkNoted),
    unseen: optional(z.boolean({ error: 'true or false' })),
    signal: optional(walkNoted),
  },
  'a walk with line and paceMps',
);

const observeAnswers = shape(
  {
    tags: optional(
      list(
        shape({ atS: between(0, LONGEST_S, 's'), output: output(), cause: oneOf(CAUSES) }, 'atS, output and cause'),
        'tags',
        200,
      ),
    ),
    readings: optional(
      list(
        shape(
          { tick: tick(), desk: slug(), deskLx: between(0, 200_000, 'lx'), ceilingLx: between(0, 200_000, 'lx') },
          'tick, desk, deskLx and ceilingLx',
        ),
        'readings',
        500,
      ),
    ),
    ratios: optional(
      shape(
        { inner: optional(between(0, 1000, '')), window: optional(between(0, 1000, '')) },
        'ratios of inner and window',
      ),
    ),
    walks: optional(list(walkedLine, 'walks', 2)),
    earlier: optional(z.union([z.literal(0), z.literal(1)], { error: '0 or 1' })),
    why: optional(oneOf(['crossesEdges', 'comesNearer', 'looksWider', 'isWarmer'])),
  },
  'an observation',
);

export const attemptFile = shape(
  {
    format: format(),
    kind: z.literal('attempt', { error: '"attempt"' }),
    exercise: slug(),
    seed: wholeBetween(0, 0xffffffff),
    engine: z.string({ error: 'the version of the engine' }),
    names: list(text(0, 60), 'names', 2),
    aid: oneOf(['guided', 'practice', 'test']),
    inputs: list(timedInput, 'inputs', 100_000),
    headTick: wholeBetween(0, LONGEST_S * 10),
    digests: list(tickDigest, 'digests', 20_000),
    answers: shape(
      {
        predict: optional(predictAnswers),
        diagnose: optional(diagnoseAnswers),
        commission: optional(commissionAnswers),
        observe: optional(observeAnswers),
      },
      'answers',
    ),
    seal: matching(/^[0-9a-f]{16}$/, 'a seal of 16 hexadecimal digits'),
  },
  'an attempt',
);
export type AttemptFile = z.infer<typeof attemptFile>;
