/** The marks of two walks: each note against what the walk showed, and what can be concluded from such a pair. */
import type { Tick } from '../../engine/types.ts';
import { TICKS_PER_S } from '../../engine/units.ts';
import type { MarkLine } from '../types.ts';
import type { ObserveAnswers, WalkedLine, WalkLine, WalkReason, WalkSignature } from './types.ts';
import {
  type Direction,
  directionOf,
  type WalksExercise,
  type WalkTruth,
  walkOffers,
  walkPaces,
  walkTruth,
} from './walks.ts';

/** A note counts so near to the true instant, ticks. Assumed: one step at a walk. */
export const SEEN_WITHIN_TICKS = 5;
/** A signal noted counts in full from this share of the largest of the walk on, and half from the second on. */
const SIGNAL_FULL = 0.8;
const SIGNAL_HALF = 0.5;
/** The walk that is seen after the shorter way; null: neither is seen, or both after the same. */
export function earlierOf(walks: readonly (WalkTruth | null)[]): 0 | 1 | null {
  const [first, second] = walks.map((walk) =>
    walk && walk.seenTick !== null ? walk.wayM[walk.seenTick]! : Number.POSITIVE_INFINITY,
  );
  if (first === undefined || second === undefined || first === second) return null;
  return first < second ? 0 : 1;
}

/** Which reasons the two walks bear out. */
function reasonFits(reason: WalkReason, earlier: WalkTruth, later: WalkTruth): boolean {
  if (reason === 'crossesEdges') return earlier.pulsesPerM > later.pulsesPerM;
  // Nearer counts only if whoever is seen earlier is nearer to the detector then than the other when seen.
  if (reason !== 'comesNearer' || earlier.seenTick === null || later.seenTick === null) return false;
  return earlier.farM[earlier.seenTick]! < later.farM[later.seenTick]!;
}

interface Walk {
  noted: WalkedLine;
  direction: Direction;
  truth: WalkTruth;
}

/** A walk along a line and at a pace of this bench, with something noted of it; else nothing was walked. */
function walkOf(exercise: WalksExercise, seed: number, noted: WalkedLine | undefined): Walk | null {
  if (!noted?.seen && !noted?.unseen && !noted?.signal) return null;
  const offer = noted && walkOffers(exercise, seed).find(({ id }) => id === noted.line);
  if (!offer || !walkPaces(exercise, seed).includes(noted.paceMps)) return null;
  return { noted, direction: directionOf(offer, exercise.observe), truth: walkTruth(exercise, seed, noted) };
}

const at = (tick: Tick | null): number | null => (tick === null ? null : tick / TICKS_PER_S);

function seenLine(walk: Walk | null, place: 0 | 1): MarkLine {
  const tick = walk?.noted.seen?.tick ?? null;
  const trueTick = walk?.truth.seenTick ?? null;
  const right =
    tick === null
      ? walk !== null && walk.noted.unseen === true && trueTick === null
      : trueTick !== null && Math.abs(tick - trueTick) <= SEEN_WITHIN_TICKS;
  const way = (t: Tick | null) => (t === null ? null : (walk?.truth.wayM[t] ?? null));
  const say: WalkLine = {
    code: 'walkSeen',
    walk: place,
    walked: walk !== null,
    unseen: walk?.noted.unseen === true,
    trueWayM: way(trueTick),
    saidWayM: way(tick),
    farM: trueTick === null ? null : walk!.truth.farM[trueTick]!,
  };
  return { points: right ? 15 : 0, of: 15, atS: at(trueTick), say };
}

function signalLine(walk: Walk | null, place: 0 | 1): MarkLine {
  const said = walk?.noted.signal ? (walk.truth.signalUv[walk.noted.signal.tick] ?? 0) : null;
  const peakUv = walk?.truth.peakUv ?? null;
  const share = said === null || !peakUv ? 0 : said / peakUv;
  return {
    points: share >= SIGNAL_FULL ? 10 : share >= SIGNAL_HALF ? 5 : 0,
    of: 10,
    atS: walk ? at(walk.truth.peakTick) : null,
    say: { code: 'walkSignal', walk: place, peakUv, saidUv: said },
  };
}

export interface JudgedWalks {
  lines: MarkLine[];
  signatures: WalkSignature[];
}

/** Whether the two walks differ in their direction alone, and are the two that are asked for. */
function pairOf(walks: readonly (Walk | null)[]) {
  const [first, second] = walks;
  const directions = walks.map((walk) => walk?.direction);
  const both = directions.includes('toward') && directions.includes('across');
  const samePace = first != null && second != null && first.noted.paceMps === second.noted.paceMps;
  return { both, samePace, walked: first != null && second != null };
}

function beliefs(walks: readonly (Walk | null)[], answers: ObserveAnswers, lines: readonly MarkLine[]) {
  const pair = pairOf(walks);
  const lost = (place: number) => lines[place]!.points < lines[place]!.of;
  const found: WalkSignature[] = [];
  if (pair.walked && !pair.samePace) found.push({ id: 'twoPaces', walk: null, atS: null });
  if (pair.walked && !pair.both) found.push({ id: 'oneDirection', walk: null, atS: null });
  walks.forEach((walk, i) => {
    const tick = walk?.noted.seen?.tick;
    const first = walk?.truth.seenTick ?? null;
    if (tick === undefined || first === null || tick <= first + SEEN_WITHIN_TICKS) return;
    found.push({ id: 'alreadyOn', walk: i as 0 | 1, atS: at(first) });
  });
  const said = answers.earlier === undefined ? null : walks[answers.earlier];
  if (lost(5) && said?.direction === 'toward') {
    found.push({ id: 'towardIsSooner', walk: answers.earlier!, atS: at(said.truth.seenTick) });
  }
  if (lost(6) && answers.why === 'comesNearer') found.push({ id: 'nearerIsStronger', walk: null, atS: null });
  return found;
}

export function judgeWalks(exercise: WalksExercise, seed: number, answers: ObserveAnswers): JudgedWalks {
  const walks = ([0, 1] as const).map((i) => walkOf(exercise, seed, answers.walks?.[i]));
  const pair = pairOf(walks);
  const fair = pair.both && pair.samePace;
  const truths = walks.map((walk) => walk?.truth ?? null);
  const earlier = earlierOf(truths);
  // What is concluded stands on what was measured: without both notes there is nothing to compare.
  const compared = fair && earlier !== null && walks.every((walk) => walk?.noted.seen || walk?.noted.unseen);
  const borneOut =
    compared && answers.why && reasonFits(answers.why, truths[earlier]!, truths[1 - earlier]!) ? answers.why : null;
  const perM = (i: number): number => truths[i]?.pulsesPerM ?? 0;
  const lines: MarkLine[] = [
    { points: fair ? 20 : 0, of: 20, atS: null, say: { code: 'walkPair', ...pair } },
    seenLine(walks[0]!, 0),
    seenLine(walks[1]!, 1),
    signalLine(walks[0]!, 0),
    signalLine(walks[1]!, 1),
    {
      points: compared && answers.earlier === earlier ? 15 : 0,
      of: 15,
      atS: null,
      say: { code: 'walkEarlier', compared, earlier, said: answers.earlier ?? null },
    },
    {
      points: borneOut ? 15 : 0,
      of: 15,
      atS: null,
      say: { code: 'walkWhy', compared, said: answers.why ?? null, perM: [perM(0), perM(1)], fits: borneOut !== null },
    },
  ];
  return { lines, signatures: beliefs(walks, answers, lines) };
}
