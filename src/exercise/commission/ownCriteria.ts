/** Criteria that only the learner's own work can meet: clips, a proving run in time, a walk-test, words. */
import { TICKS_PER_S } from '../../engine/units.ts';
import { edgeOf, NEEDED_DIRECTIONS } from './edges.ts';
import type { Evidence } from './evidence.ts';
import { graded, NOTHING, type Of } from './judging.ts';
import { allHold, type Timeline } from './timeline.ts';
import type { Criterion, Judged } from './types.ts';
import { edgeError, placesOf, sectorsOf, truePoints } from './walk.ts';

function switchedLately(own: Timeline, { output, on, withinS }: Switched, s: number): boolean {
  return own.events.some((event) => {
    const agoS = s - event.tick / TICKS_PER_S;
    return event.output === output && event.on === on && agoS >= 0 && agoS <= withinS;
  });
}

type Switched = NonNullable<Of<'clip'>['switched']>;

function clip(c: Of<'clip'> & { id: string }, { attempt, own, lastChange }: Evidence): Judged {
  const taken = (attempt.answers.commission?.clips ?? []).filter(({ criterion }) => criterion === c.id).at(-1);
  if (!taken) return NOTHING;
  const s = Math.floor(taken.tick / TICKS_PER_S);
  const since = lastChange ? lastChange.tick : 0;
  let holdsAll = taken.tick > since && taken.tick <= attempt.headTick;
  const { switched } = c;
  if (switched && !switchedLately(own, switched, s)) holdsAll = false;
  for (let back = 0; holdsAll && back <= c.forS; back++) holdsAll = allHold(own, c.is, s - back);
  return { ...NOTHING, verdict: holdsAll ? 'met' : 'missed', ownS: s };
}

function proved({ attempt, lastChange }: Evidence): Judged {
  const { proved: asked = [] } = attempt.answers.commission ?? {};
  const after = asked.filter((act) => !lastChange || act.serial > lastChange.serial).at(-1);
  return after ? { ...NOTHING, verdict: 'met', ownS: after.tick / TICKS_PER_S } : NOTHING;
}

function walk(c: Of<'walkPoints'> | Of<'sectors'> | Of<'outline'>, evidence: Evidence): Judged {
  const { attempt, played, walked } = evidence;
  const answer = attempt.answers.commission?.walkTest;
  if (!answer) return NOTHING;
  const { scenario, state, tables } = played.sim;
  const { control, setup } = state;
  const room = {
    model: scenario.detectorModel,
    room: scenario.room,
    setup,
    settings: control.settings,
    tables: tables.movement,
  };
  const points = truePoints(answer, walked);
  if (c.kind === 'outline') {
    const marked = answer.edge[c.movement];
    const { counted, uncounted } = edgeOf(points, marked, c.movement, setup.mount.atM, scenario.room);
    const error = edgeError(counted, room, c.movement);
    // A direction that the outline leaves out says nothing about the detector: most of them must be there.
    const { directions } = error ?? { directions: 0 };
    const edge = { marked: marked.length, uncounted, directions, needed: NEEDED_DIRECTIONS };
    if (!error) return { ...NOTHING, limit: c.meanM, unit: 'm', edge };
    const verdict = directions >= NEEDED_DIRECTIONS ? graded(error.meanM, c.meanM, c.halfM) : 'missed';
    return { ...NOTHING, verdict, value: error.meanM, limit: c.meanM, unit: 'm', edge };
  }
  const places = placesOf(points);
  const value = c.kind === 'sectors' ? sectorsOf(places, setup.mount) : places.length;
  const fewest = Math.min(...(['across', 'seated'] as const).map((w) => places.filter(({ way }) => way === w).length));
  const enough = value >= c.atLeast && (c.kind === 'sectors' || fewest >= c.eachWay);
  const half = value >= c.atLeast / 2;
  return { ...NOTHING, verdict: enough ? 'met' : half ? 'half' : 'missed', value, limit: c.atLeast, unit: 'none' };
}

type OwnCriterion = Of<'clip' | 'proved' | 'walkPoints' | 'sectors' | 'outline' | 'handover'>;

const OWN: readonly Criterion['kind'][] = ['clip', 'proved', 'walkPoints', 'sectors', 'outline', 'handover'];

export function isOwn(criterion: Criterion): criterion is OwnCriterion {
  return OWN.includes(criterion.kind);
}

export function judgeOwn(criterion: OwnCriterion, evidence: Evidence): Judged {
  switch (criterion.kind) {
    case 'clip':
      return clip(criterion, evidence);
    case 'proved':
      return proved(evidence);
    case 'handover':
      // Free text earns nothing by itself: a lecturer reads it.
      return { ...NOTHING, verdict: 'lecturer' };
    default:
      return walk(criterion, evidence);
  }
}
