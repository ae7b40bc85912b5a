/** Shape of a commissioning task: what is asked, proving days, criteria, the stored best, and classic mistakes. */
import * as z from 'zod/mini';
import { edit } from './edit.ts';
import { output } from './faults.ts';
import { input, localDate, SKIES } from './inputs.ts';
import { headingDeg, LONGEST_S, momentS } from './people.ts';
import { settingsChange } from './settings.ts';
import { between, list, matching, oneOf, optional, point, shape, slug, text, wholeBetween, yesNo } from './words.ts';

const INPUT_KINDS = [
  'setSettings',
  'takePresentLight',
  'walkTest',
  'press',
  'placePerson',
  'setPlan',
  'addPerson',
  'removePerson',
  'moveSun',
  'setSky',
  'setBlind',
  'setDoor',
  'moveDetector',
] as const;

const NUMBERS = [
  'innerSetpointLx',
  'windowSetpointLx',
  'innerOffDelayS',
  'windowOffDelayS',
  'innerDeskFactor',
  'windowDeskFactor',
  'airOnDelayS',
  'airOffDelayS',
] as const;
const SETTINGS = [...NUMBERS, 'lampShare', 'releaseMarginLx', 'maskedSectors'] as const;

const row = () => oneOf(['inner', 'window']);
const lx = () => between(0, 100_000, 'lx');
const seconds = () => between(0, LONGEST_S, 's');
const share = () => between(0, 2, '');
const times = () => wholeBetween(0, 1000);

const condition = z.union(
  [
    shape({ output: output(), on: yesNo() }, 'output and on'),
    shape(
      { row: row(), state: oneOf(['waiting', 'litByAutomatic', 'daylightIsEnough', 'heldOn', 'heldOff']) },
      'row and state',
    ),
    shape({ air: oneOf(['airOff', 'watching', 'airOn', 'airHeldOn', 'airHeldOff']) }, 'air'),
    shape({ someone: yesNo() }, 'someone'),
    shape({ desk: slug(), below: optional(lx()), above: optional(lx()) }, 'desk, below and above'),
  ],
  { error: 'a condition on an output, a row, the air contact, somebody there, or light on a desk' },
);
export const conditions = () => list(condition, 'conditions', 8);

const base = {
  id: slug(),
  part: oneOf(['position', 'orientation', 'light', 'delays', 'walkTest', 'functional', 'handover']),
  points: wholeBetween(2, 60),
  title: text(1, 90),
  next: text(1, 200),
  days: optional(list(slug(), 'proving days', 4, 1)),
  must: optional(oneOf(['half', 'met'])),
};
const kind = <const K extends string>(name: K) => ({ ...base, kind: z.literal(name) });

const criteria = [
  shape(
    { ...kind('always'), when: conditions(), is: conditions(), exceptS: seconds(), halfS: optional(seconds()) },
    'always with when, is and exceptS',
  ),
  shape({ ...kind('sometime'), is: conditions(), forS: seconds() }, 'sometime with is and forS'),
  shape(
    {
      ...kind('respondsWithin'),
      after: oneOf(['entering', 'leaving']),
      output: output(),
      on: yesNo(),
      withinS: seconds(),
      halfS: optional(seconds()),
    },
    'respondsWithin with after, output, on and withinS',
  ),
  shape(
    {
      ...kind('count'),
      outputs: list(output(), 'outputs', 3, 1),
      on: optional(yesNo()),
      reason: optional(oneOf(['nobodySeen'])),
      when: conditions(),
      atMost: times(),
      halfAtMost: optional(times()),
    },
    'count with outputs, when and atMost',
  ),
  shape(
    { ...kind('deskShort'), demandLx: lx(), over: between(0, 100, '%'), halfOver: optional(between(0, 100, '%')) },
    'deskShort with demandLx and over',
  ),
  shape({ ...kind('lampHours'), share: share(), halfShare: optional(share()) }, 'lampHours with share'),
  shape({ ...kind('level'), row: row(), demandLx: lx(), share: share(), halfShare: share() }, 'level with row'),
  shape(
    {
      ...kind('setting'),
      setting: oneOf(NUMBERS),
      value: between(0, 10_000, ''),
      share: share(),
      halfShare: optional(share()),
    },
    'setting with value and share',
  ),
  shape(
    {
      ...kind('shortest'),
      setting: oneOf(['innerOffDelayS', 'windowOffDelayS']),
      times: between(1, 10, ''),
      halfTimes: optional(between(1, 10, '')),
    },
    'shortest with setting and times',
  ),
  shape(
    {
      ...kind('clip'),
      is: conditions(),
      forS: seconds(),
      switched: optional(shape({ output: output(), on: yesNo(), withinS: seconds() }, 'output, on and withinS')),
    },
    'clip with is and forS',
  ),
  shape({ ...kind('walkPoints'), atLeast: times(), eachWay: times() }, 'walkPoints with atLeast and eachWay'),
  shape({ ...kind('sectors'), atLeast: wholeBetween(1, 12) }, 'sectors with atLeast'),
  shape(
    {
      ...kind('outline'),
      movement: oneOf(['across', 'seated']),
      meanM: between(0.1, 5, 'm'),
      halfM: between(0.1, 5, 'm'),
    },
    'outline with movement, meanM and halfM',
  ),
  shape({ ...kind('seats'), seats: list(slug(), 'chairs', 20, 1) }, 'seats'),
  shape(
    { ...kind('clear'), thing: slug(), atLeastM: between(0, 20, 'm'), halfM: between(0, 20, 'm') },
    'clear with thing, atLeastM and halfM',
  ),
  shape(
    {
      ...kind('turned'),
      bearingDeg: headingDeg(),
      withinDeg: between(0, 180, 'degrees'),
      halfDeg: between(0, 180, 'degrees'),
    },
    'turned with bearingDeg, withinDeg and halfDeg',
  ),
  shape({ ...kind('handover') }, 'handover'),
  shape({ ...kind('proved') }, 'proved'),
] as const;

const kindNames = criteria.map((one) => one.def.shape.kind.def.values[0]);

const criterion = z.discriminatedUnion('kind', criteria, {
  error: `a criterion whose kind is one of ${kindNames.join(', ')}`,
});

const measured = shape(
  {
    sky: oneOf(SKIES),
    localDate: localDate(),
    localTime: matching(/^\d{2}:\d{2}$/, 'a time written HH:MM'),
    lamps: yesNo(),
  },
  'a moment with sky, localDate, localTime and lamps',
);
/** A lamp that is not named stays in the row that the plan found it in. */
export const designChoice = shape(
  {
    point: slug(),
    turnDeg: headingDeg(),
    rows: z.record(z.string({ error: 'a luminaire' }), row(), { error: 'rows by luminaire' }),
  },
  'a choice with point, turnDeg and rows',
);
export const design = shape(
  {
    points: list(shape({ id: slug(), label: text(1, 40), atM: point() }, 'id, label and atM'), 'points', 6, 2),
  },
  'a design with points',
);
const moments = () => z.record(z.string({ error: 'a criterion' }), momentS(), { error: 'instants by criterion' });
const SIGNATURES = [
  'setpointIsDeskLux',
  'setInSun',
  'lampsInReading',
  'lampsFeedBack',
  'delayTooShort',
  'delayTooLong',
  'fanByLight',
  'oneCircle',
  'airMoves',
  'provedNothing',
] as const;

export const commission = shape(
  {
    allows: list(oneOf(INPUT_KINDS), 'kinds of input', 20),
    settings: list(oneOf(SETTINGS), 'settings', 20),
    asked: list(shape({ what: text(1, 60), value: text(1, 60) }, 'what and value'), 'lines', 12),
    untilS: between(60, LONGEST_S, 's'),
    days: list(
      shape({ id: slug(), title: text(1, 40), change: edit, forS: between(60, 86_400, 's') }, 'a proving day'),
      'proving days',
      4,
    ),
    criteria: list(criterion, 'criteria', 16, 2),
    best: shape(
      {
        settings: settingsChange,
        shortestOf: optional(list(between(60, 1800, 's'), 'off-delays', 20, 1)),
        factors: optional(measured),
        design: optional(designChoice),
      },
      'a stored best with settings',
    ),
    solution: shape(
      {
        endS: between(1, LONGEST_S, 's'),
        acts: list(shape({ atS: momentS(), input }, 'atS and input'), 'acts', 100),
        clips: moments(),
      },
      'a solution with endS, acts and clips',
    ),
    mistakes: list(
      shape(
        {
          id: slug(),
          settings: settingsChange,
          factors: optional(measured),
          acts: optional(list(shape({ atS: momentS(), input }, 'atS and input'), 'acts', 100)),
          clips: optional(moments()),
          unproved: optional(yesNo()),
          design: optional(designChoice),
          walk: optional(oneOf(['oneCircle', 'tooFew', 'invented', 'noneBeyond'])),
          fails: list(slug(), 'criteria', 16, 1),
          signature: optional(oneOf(SIGNATURES)),
        },
        'a mistake with id, settings and fails',
      ),
      'mistakes',
      8,
      1,
    ),
    skill: oneOf(['powerUp', 'delays', 'brightness', 'buttons', 'airContact', 'extensions']),
  },
  'allows, settings, asked, untilS, days, criteria, best, solution, mistakes and skill',
);
export type CommissionFile = z.infer<typeof commission>;
