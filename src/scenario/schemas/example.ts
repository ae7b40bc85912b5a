/** Shape of the worked example that an exercise may carry. */

import * as z from 'zod/mini';
import { conditions, design, designChoice } from './commission.ts';
import { edit } from './edit.ts';
import { causeId, output } from './faults.ts';
import { LONGEST_S, momentS } from './people.ts';
import { between, list, oneOf, optional, shape, slug, text, wholeBetween, yesNo } from './words.ts';

const afterS = () => optional(between(-LONGEST_S, LONGEST_S, 's'));

const when = z.union(
  [
    shape({ act: wholeBetween(0, 200), is: text(1, 40), afterS: afterS() }, 'act and is'),
    shape({ atS: momentS() }, 'atS'),
    shape(
      {
        switches: output(),
        on: yesNo(),
        nth: optional(wholeBetween(1, 100)),
        lastSeen: optional(yesNo()),
        afterS: afterS(),
      },
      'switches and on',
    ),
  ],
  { error: "an act of the expert's (act, is), a moment (atS), or a switching (switches, on)" },
);

const part = () => text(1, 200);

const option = shape(
  { say: text(1, 90), leads: optional(yesNo()), did: part(), room: part(), because: part(), next: part() },
  'say, did, room, because and next',
);

export const example = shape(
  {
    change: optional(edit),
    card: optional(causeId()),
    design: optional(shape({ points: design.def.shape.points, best: designChoice }, 'points and best')),
    steps: list(
      shape(
        {
          when,
          plan: optional(oneOf(['found', 'best'])),
          day: optional(slug()),
          say: text(1, 320),
          holds: optional(conditions()),
          stop: optional(
            shape(
              { question: text(1, 90), options: list(option, 'choices', 4, 3) },
              'a stop with question and 3 or 4 options',
            ),
          ),
        },
        'a step with when and say',
      ),
      'steps',
      16,
      5,
    ),
  },
  'an example with steps',
);
export type ExampleFile = z.infer<typeof example>;
