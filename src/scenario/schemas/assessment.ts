/** Shape of an assessor's sheet as a file: what was computed and what somebody says of it, side by side. */
import * as z from 'zod/mini';
import { between, format, list, matching, oneOf, orNull, shape, slug, text, wholeBetween, yesNo } from './words.ts';

const computed = shape(
  {
    verdict: oneOf(['met', 'half', 'missed', 'lecturer']),
    points: between(-100, 100, 'points'),
    of: between(0, 100, 'points'),
  },
  'what was computed: verdict, points and of',
);

const ruling = shape(
  { verdict: oneOf(['met', 'half', 'missed']), points: wholeBetween(0, 100), reason: text(0, 1000) },
  'a ruling with verdict, points and reason',
);

const criterion = shape(
  { id: slug(), computed, code: text(0, 40), comment: text(0, 2000), ruling: orNull(ruling, 'a ruling') },
  'a criterion with id, computed, code, comment and ruling',
);

const seal = () => matching(/^[0-9a-f]{16}$/, 'a seal of 16 hexadecimal digits');

export const assessmentFile = shape(
  {
    format: format(),
    kind: z.literal('assessment', { error: '"assessment"' }),
    /** Seal of the attempt that it speaks of. */
    attempt: seal(),
    exercise: slug(),
    seed: wholeBetween(0, 0xffffffff),
    names: list(text(0, 60), 'names', 2),
    engine: z.string({ error: 'the version of the engine' }),
    total: between(0, 100, 'points'),
    pass: yesNo(),
    criteria: list(criterion, 'criteria', 200),
    assessor: text(0, 80),
    date: text(0, 40),
    seal: seal(),
  },
  "an assessor's sheet",
);
export type AssessmentFile = z.infer<typeof assessmentFile>;
