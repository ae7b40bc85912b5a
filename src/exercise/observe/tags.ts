/** Tags beside the switchings of the record: each belongs to the nearest switching of its output, or to none. */
import type { TraceEvent } from '../../engine/trace.ts';
import type { OutputId } from '../../engine/types.ts';
import { TICKS_PER_S } from '../../engine/units.ts';
import { OUTPUTS } from '../../engine/view.ts';
import { type TrueEdge, trueEdges } from '../predict/truth.ts';
import type { CauseId, MarkLine } from '../types.ts';
import type { Tag, TagLine, TagSignature, TagsTask } from './types.ts';

/** A tag belongs to a switching this near, s. Source: the product's own marking rule. */
export const TAG_WITHIN_S = 2;

export interface JudgedTag {
  truth: TrueEdge | null;
  tag: Tag | null;
}

/** All switchings of the record, in order of time. */
export function momentsOf(task: Pick<TagsTask, 'toS'>, events: readonly TraceEvent[]): TrueEdge[] {
  const window = { fromS: 0, toS: task.toS };
  return OUTPUTS.flatMap((output) => trueEdges(events, output, window)).sort((a, b) => a.atS - b.atS);
}

/** The air contact goes off a delay after the last pulse, and only presence counts: both say the same of it. */
export function causeFits(truth: TrueEdge, said: CauseId): boolean {
  return said === truth.cause || (truth.cause === 'presenceOnly' && said === 'delayFromLastPulse');
}

/** Nearest first; no tag and no switching is used twice. What stays alone is listed after the pairs. */
export function judgeTags(truths: readonly TrueEdge[], tags: readonly Tag[]): JudgedTag[] {
  const near = truths.flatMap((truth) =>
    tags
      .filter((tag) => tag.output === truth.output)
      .map((tag) => ({ truth, tag, apartS: Math.abs(tag.atS - truth.atS) }))
      .filter(({ apartS }) => apartS <= TAG_WITHIN_S),
  );
  const partnerOf = new Map<TrueEdge, Tag>();
  const used = new Set<Tag>();
  for (const { truth, tag } of near.sort((a, b) => a.apartS - b.apartS)) {
    if (partnerOf.has(truth) || used.has(tag)) continue;
    partnerOf.set(truth, tag);
    used.add(tag);
  }
  return [
    ...truths.map((truth) => ({ truth, tag: partnerOf.get(truth) ?? null })),
    ...tags.filter((tag) => !used.has(tag)).map((tag) => ({ truth: null, tag })),
  ];
}

function sayOf({ truth, tag }: JudgedTag): TagLine {
  if (!truth) return { code: 'nothingThere', output: tag!.output, saidS: tag!.atS };
  const { output, on, cause, atS: trueS } = truth;
  if (!tag) return { code: 'notTagged', output, on, trueS, cause };
  if (causeFits(truth, tag.cause)) return { code: 'tagRight', output, on, trueS, cause };
  return { code: 'tagOtherCause', output, on, trueS, cause, said: tag.cause };
}

/** One line per switching and per tag without one; all points together are 100 for a complete reading. */
export function tagLines(judged: readonly JudgedTag[]): MarkLine[] {
  const truths = judged.filter(({ truth }) => truth).length;
  const tags = judged.filter(({ tag }) => tag).length;
  const worth = 100 / Math.max(1, truths, tags);
  return judged.map((pair) => {
    const say = sayOf(pair);
    const of = pair.truth ? worth : 0;
    return { points: say.code === 'tagRight' ? of : 0, of, atS: pair.truth?.atS ?? pair.tag!.atS, say };
  });
}

function signatureOf({ truth, tag }: JudgedTag, events: readonly TraceEvent[]): TagSignature | null {
  if (!tag) return null;
  const { output } = tag;
  if (truth) {
    const about = { output, atS: truth.atS, delayS: truth.delayS };
    if (truth.cause === 'brightForDwell' && tag.cause === 'delayFromLastPulse') {
      return { id: 'rowOffNobodySeen', ...about };
    }
    const byLight: readonly CauseId[] = ['seen', 'brightForDwell', 'darkForDwell'];
    return output === 'airContact' && byLight.includes(tag.cause) ? { id: 'fanFollowsLight', ...about } : null;
  }
  const row = rowOf(output);
  const crossing = events.find(
    (e) =>
      e.kind === 'crossing' && e.row === row && e.rising && Math.abs(e.tick / TICKS_PER_S - tag.atS) <= TAG_WITHIN_S,
  );
  return crossing ? { id: 'crossingSwitches', output, atS: crossing.tick / TICKS_PER_S, delayS: 0 } : null;
}

/** Each belief once per output. */
export function tagSignatures(judged: readonly JudgedTag[], events: readonly TraceEvent[]): TagSignature[] {
  const found = new Map<string, TagSignature>();
  for (const pair of judged) {
    const signature = signatureOf(pair, events);
    if (signature) found.set(`${signature.id} ${pair.tag!.output}`, signature);
  }
  return [...found.values()];
}

/** What the record holds, said as tags. */
export function solutionTags(truths: readonly TrueEdge[]): Tag[] {
  return truths.map(({ atS, output, cause }) => ({ atS, output, cause }));
}

/** Classic mistakes that this record gives the occasion for. Each changes one tag. */
export function classicTagMistakes(
  truths: readonly TrueEdge[],
  events: readonly TraceEvent[],
): { id: TagSignature['id']; tags: Tag[] }[] {
  const right = solutionTags(truths);
  const changed = (id: TagSignature['id'], i: number, change: Partial<Tag>) =>
    i === -1 ? [] : [{ id, tags: right.map((tag, j) => (j === i ? { ...tag, ...change } : tag)) }];
  const released = truths.findIndex(({ cause }) => cause === 'brightForDwell');
  const crossing = releasedAt(truths[released], events);
  const fan = truths.findIndex(({ output, cause }) => output === 'airContact' && cause === 'onDelay');
  return [
    ...changed('rowOffNobodySeen', released, { cause: 'delayFromLastPulse' }),
    ...(crossing === null ? [] : changed('crossingSwitches', released, { atS: crossing })),
    ...changed('fanFollowsLight', fan, { cause: 'seen' }),
  ];
}

/** When the daylight estimate passed the release level before a row was released, s; null: it did not. */
function releasedAt(truth: TrueEdge | undefined, events: readonly TraceEvent[]): number | null {
  if (!truth) return null;
  const row = rowOf(truth.output);
  const before = events.filter(
    (e) =>
      e.kind === 'crossing' && e.row === row && e.rising && e.level === 'release' && e.tick / TICKS_PER_S < truth.atS,
  );
  const last = before.at(-1);
  return last ? last.tick / TICKS_PER_S : null;
}

function rowOf(output: OutputId): 'inner' | 'window' | null {
  return output === 'innerRow' ? 'inner' : output === 'windowRow' ? 'window' : null;
}
