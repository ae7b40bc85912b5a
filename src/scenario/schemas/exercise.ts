/** Shape of an exercise file (scenarios/exercises/*.json). */
import * as z from 'zod/mini';
import { diagnoseAnswers } from './attempt.ts';
import { commission, design } from './commission.ts';
import { edit } from './edit.ts';
import { example } from './example.ts';
import { candidate, causeId, output, test } from './faults.ts';
import { timedInput } from './inputs.ts';
import { LONGEST_S, momentS } from './people.ts';
import { storyFile } from './story.ts';
import {
  between,
  format,
  list,
  oneOf,
  optional,
  point,
  schemaAddress,
  shape,
  slug,
  text,
  wholeBetween,
} from './words.ts';

const common = {
  $schema: schemaAddress(),
  format: format(),
  id: slug(),
  /** 0: a lecturer's own, outside the advised order. */
  job: wholeBetween(0, 18),
  title: text(1, 60),
  question: text(1, 100),
  brief: text(1, 400),
  aid: oneOf(['guided', 'practice', 'test']),
  hints: list(text(1, 200), 'hints', 3, 3),
  story: z.union([slug(), storyFile], { error: 'the id of a story, or a whole story' }),
  change: optional(edit),
  draws: optional(list(list(edit, 'changes to choose from', 12, 1), 'draws', 6)),
  example: optional(example),
};

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

const place = () => slug();
const lit = () => optional(shape({ place: place(), lx: between(0, 20_000, 'lx') }, 'place and lx'));
const window = {
  fromS: between(0, LONGEST_S, 's'),
  toS: between(1, LONGEST_S, 's'),
  output: output(),
};

/** How the client's complaint shows: time in a state, or too many switchings. */
const complaint = z.discriminatedUnion(
  'kind',
  [
    shape(
      {
        ...window,
        kind: z.literal('time'),
        is: oneOf(['on', 'off']),
        who: oneOf(['someone', 'nobody', 'either']),
        longerThanS: between(0, LONGEST_S, 's'),
        below: lit(),
        above: lit(),
      },
      'a time in a state',
    ),
    shape({ ...window, kind: z.literal('switchings'), moreThan: wholeBetween(0, 100) }, 'a number of switchings'),
  ],
  { error: 'a complaint whose kind is one of time, switchings' },
);

/** What an author did to solve it, on the bench of this seed; it is done again by the proofs. */
const recorded = shape(
  {
    seed: wholeBetween(0, 0xffffffff),
    inputs: list(timedInput, 'inputs', 10_000),
    headTick: wholeBetween(1, LONGEST_S * 10),
    answers: diagnoseAnswers,
  },
  'a recorded way with seed, inputs, headTick and answers',
);

const diagnoseFile = shape(
  {
    ...common,
    kind: z.literal('diagnose'),
    diagnose: shape(
      {
        complaint,
        candidates: list(candidate, 'candidates', 12, 4),
        truths: list(causeId(), 'cards that a bench can have', 12, 1),
        beginS: between(1, LONGEST_S, 's'),
        places: optional(list(shape({ id: slug(), label: text(1, 40), atM: point() }, 'a place'), 'places', 12)),
        tests: list(test, 'tests', 60, 3),
        skill: oneOf(['powerUp', 'delays', 'brightness', 'buttons', 'airContact']),
        /** What the client says; absent: the words of the bench's own card. */
        says: optional(list(text(1, 160), "lines in the client's words", 3, 1)),
        recorded: optional(recorded),
      },
      'complaint, candidates, truths, beginS, tests and skill',
    ),
  },
  'a diagnose exercise',
);

const commissionFile = shape({ ...common, kind: z.literal('commission'), commission }, 'a commission exercise');

const designFile = shape({ ...common, kind: z.literal('design'), commission, design }, 'a design exercise');

const pace = () => between(0.2, 2.5, 'm/s');
const walks = shape(
  {
    task: z.literal('walks'),
    toS: between(15, 120, 's'),
    beginsM: between(1, 20, 'm'),
    bearingsDeg: list(between(0, 360, 'deg'), 'bearings', 12, 1),
    lengthM: between(1, 15, 'm'),
    turnsDeg: list(between(0, 180, 'deg'), 'turns aside', 8, 2),
    pacesMps: list(z.tuple([pace(), pace()]), 'pairs of paces', 8, 1),
  },
  'task, toS, beginsM, bearingsDeg, lengthM, turnsDeg and pacesMps',
);

const observeFile = shape(
  {
    ...common,
    kind: z.literal('observe'),
    observe: z.discriminatedUnion(
      'task',
      [
        shape(
          { task: z.literal('tags'), toS: between(60, LONGEST_S, 's'), moments: wholeBetween(2, 20) },
          'task, toS and moments',
        ),
        shape(
          { task: z.literal('ratios'), fromS: between(1, LONGEST_S, 's'), toS: between(1, LONGEST_S, 's') },
          'task, fromS and toS',
        ),
        walks,
      ],
      { error: 'an observation whose task is one of tags, ratios, walks' },
    ),
  },
  'an observe exercise',
);

export const exerciseFile = z.discriminatedUnion(
  'kind',
  [predictFile, observeFile, diagnoseFile, commissionFile, designFile],
  { error: 'an exercise whose kind is one of predict, observe, diagnose, commission, design' },
);
export type ExerciseFile = z.infer<typeof exerciseFile>;
