/** Shape of Stand-ins, their plans, and warm or moving things. */
import * as z from 'zod/mini';
import type { Activity, PersonSpec, PlanStep, WarmThingSpec } from '../../engine/types.ts';
import { between, list, matching, oneOf, optional, point, shape, slug, wholeBetween, yesNo } from './words.ts';

export const ACTIVITIES = [
  'stand',
  'sway',
  'stretch',
  'sit',
  'type',
  'read',
  'reach',
  'lean',
  'sitStill',
  'standStill',
  'ladder',
] as const satisfies readonly Activity[];

/** Longest scenario time, s. Assumed: two days; longer runs only fill memory with clones. */
export const LONGEST_S = 172_800;

export const momentS = () => between(0, LONGEST_S, 's');
export const personId = () => matching(/^[A-Z]$/, 'one capital letter');
export const headingDeg = () => between(-360, 360, 'degrees');

const walkStep = shape(
  {
    act: z.literal('walk'),
    toM: point(),
    speedMps: between(0.1, 2.5, 'm/s'),
    fromS: optional(momentS()),
  },
  'a walk with toM and speedMps',
);
const leaveStep = shape({ act: z.literal('leave'), fromS: optional(momentS()) }, 'a leave');
const activityStep = shape(
  {
    act: oneOf(ACTIVITIES),
    forS: optional(between(0.1, LONGEST_S, 's')),
    fromS: optional(momentS()),
    headingDeg: optional(headingDeg()),
    gestureEveryS: optional(between(0.1, 3600, 's')),
  },
  'an activity',
);

const stepError = (more: string) => `a step whose act is one of walk, leave, ${more}${ACTIVITIES.join(', ')}`;

/** What a Stand-in of the engine does: one step after the other. */
export const planStep = z.discriminatedUnion('act', [walkStep, leaveStep, activityStep], {
  error: stepError(''),
}) satisfies z.ZodMiniType<PlanStep>;

export const plan = () => list(planStep, 'steps', 500);

/** In story files, a stretch of steps can be repeated; the loader writes it out. */
const repeatStep = shape(
  { act: z.literal('repeat'), times: wholeBetween(1, 500), steps: list(planStep, 'steps', 50, 1) },
  'a repeat with times and steps',
);
const storyStep = z.discriminatedUnion('act', [walkStep, leaveStep, activityStep, repeatStep], {
  error: stepError('repeat, '),
});
export type StoryStep = z.infer<typeof storyStep>;

const personKeys = {
  id: personId(),
  heightM: between(0.9, 2.2, 'm'),
  clothingClo: between(0, 3, 'clo'),
  cameFromC: between(-30, 45, 'degrees Celsius'),
  atM: point(),
  headingDeg: headingDeg(),
  outsideAtStart: yesNo(),
};

/** A person as a story file writes them. */
export const storyPerson = shape({ ...personKeys, plan: list(storyStep, 'steps', 500) }, 'a person');

export const personSpec = shape({ ...personKeys, plan: plan() }, 'a person') satisfies z.ZodMiniType<PersonSpec>;

export const warmThingSpec = shape(
  {
    id: slug(),
    kind: oneOf(['radiator', 'fan', 'curtain', 'warmAirOutlet', 'cleaningRobot', 'dog']),
    atM: point(),
    heightM: between(0, 4, 'm'),
    excessK: between(-30, 80, 'K'),
    on: yesNo(),
    pathM: optional(list(point(), 'points', 50)),
    speedMps: optional(between(0.01, 3, 'm/s')),
    turnDeg: optional(headingDeg()),
  },
  'a warm or moving thing',
) satisfies z.ZodMiniType<WarmThingSpec>;
