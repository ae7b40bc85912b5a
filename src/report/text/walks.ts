/** Words of the job in which two walks are compared. */
import type { WalkedLine, WalkLine, WalkReason, WalkSignature } from '../../exercise/observe/types.ts';

const metre = (m: number): string => `${m.toFixed(1)}\u00a0m`;
const hundredth = (m: number): string => `${m.toFixed(2)}\u00a0m`;
const microvolt = (uv: number): string => `${Math.round(uv)}\u00a0µV`;
const WALKS = ['First walk', 'Second walk'] as const;

export const walkReason: Record<WalkReason, string> = {
  crossesEdges: 'it crosses more edges of beams in each metre',
  comesNearer: 'it comes nearer to the detector',
  looksWider: 'a body looks wider from the side',
  isWarmer: 'walking warms the body up',
};

export const walksWords = {
  lines: 'Lines from where A stands',
  columns: { line: 'line', ends: 'ends, from under the detector' },
  begins: (m: number): string => `All lines begin ${metre(m)} from under the detector.`,
  lineName: (id: number): string => `Line\u00a0${id}`,
  far: metre,
  how: 'Choose two lines, let A walk each, and note. Each walk is a record of its own: go back and forth in it at will.',
  sketch: 'Sketch of the lines',
  detector: 'detector',
  walks: WALKS,
  line: 'Line',
  pace: 'Pace',
  paceText: (mps: number): string => `${mps.toFixed(1)} m/s`,
  walk: 'Let A walk it',
  back: 'To its beginning',
  making: 'A is walking it…',
  now: ({ wayM, signalUv }: { wayM: number; signalUv: number }): string =>
    `Now: ${hundredth(wayM)} walked, signal ${microvolt(signalUv)}`,
  seenHere: 'First seen at this instant',
  notSeen: 'Not seen at all',
  signalHere: 'Largest signal at this instant',
  notes: 'Noted',
  nothing: 'nothing yet',
  seenAfter: (m: number): string => `first seen after ${hundredth(m)}`,
  never: 'not seen at all',
  signalOf: (uv: number): string => `largest signal ${microvolt(uv)}`,
  conclusion: 'What the two show',
  earlier: 'Seen after the shorter way',
  why: 'Because',
  chooseWhy: 'choose a reason',
  key: 'no fixed key: what the two walks show is measured in the room of the bench',
} as const;

/** A walk as a learner noted it. */
export function walkedText(place: number, { line, paceMps, seen, unseen, signal }: WalkedLine): string {
  const { lineName, paceText, seenAfter, never, signalOf, nothing } = walksWords;
  const noted = [seen ? seenAfter(seen.wayM) : unseen ? never : null, signal ? signalOf(signal.signalUv) : null];
  const notes = noted.filter((note) => note !== null).join(', ') || nothing;
  return `${WALKS[place]}: ${lineName(line)} at ${paceText(paceMps)}; noted: ${notes}.`;
}

const way = (m: number | null): string => (m === null ? 'not seen' : `seen after ${hundredth(m)}`);

function pairText({ both, samePace, walked }: WalkLine & { code: 'walkPair' }): string {
  if (!walked) return 'Two walks are asked for, each with a note. Next: let A walk two lines.';
  if (both && samePace)
    return 'One walk across the beams, one toward the detector, at one pace: only the direction differs.';
  if (both) return 'The two walks have different paces, so that two things differ. Next: the same pace for both.';
  return 'The two walks are not one across and one toward. Next: a line that ends under the detector, and one that keeps its distance.';
}

/** One line for points won or lost. */
export function walkLineText(say: WalkLine): string {
  switch (say.code) {
    case 'walkPair':
      return pairText(say);
    case 'walkSeen': {
      const name = WALKS[say.walk];
      if (!say.walked) return `${name}: nothing was noted of it.`;
      const said = say.saidWayM !== null ? `after ${hundredth(say.saidWayM)}` : say.unseen ? 'not at all' : 'nothing';
      const far = say.farM === null ? '' : `, ${metre(say.farM)} from under the detector`;
      return `${name}: ${way(say.trueWayM)}${far}; you noted ${said}.`;
    }
    case 'walkSignal': {
      const name = WALKS[say.walk];
      if (say.peakUv === null) return `${name}: no signal was noted.`;
      const said = say.saidUv === null ? 'none' : microvolt(say.saidUv);
      return `${name}: its signal reaches ${microvolt(say.peakUv)}; you noted ${said}.`;
    }
    case 'walkEarlier': {
      if (!say.compared || say.earlier === null) return 'Which is seen earlier: the two walks noted do not tell.';
      const truth = `${WALKS[say.earlier]} is seen after the shorter way`;
      return say.said === null ? `${truth}; nothing was said.` : `${truth}; you said ${WALKS[say.said]}.`;
    }
    case 'walkWhy': {
      if (!say.compared) return 'Why: the two walks noted do not tell.';
      const [first, second] = say.perM.map((n) => n.toFixed(1));
      const counts = `${first} pulses in each metre of the first walk, ${second} of the second`;
      if (say.said === null) return `${counts}; no reason was given.`;
      return say.fits ? `${counts}: ${walkReason[say.said]}.` : `${counts}; “${walkReason[say.said]}” does not follow.`;
    }
  }
}

/** Four short parts: you did, the room did, because, try next. */
export function walkBelief({ id, walk }: WalkSignature): string {
  const name = walk === null ? '' : WALKS[walk];
  const texts: Record<WalkSignature['id'], string> = {
    twoPaces:
      'You let the two walks differ in pace as well. The signal depends on the pace too, so neither direction can be given the credit. Next: one pace, two directions.',
    oneDirection:
      'You compared two walks without one across and one toward. The room answers, but the question stays open. Next: look at where each line ends.',
    alreadyOn: `You noted ${name} later than the room answered. The lamps are on by then, and every further pulse looks the same. Next: the instant at which the lamps come on.`,
    towardIsSooner: `You said that ${name} is seen earlier. It stays within a few beams all the way, so that its signal hardly swings. Next: compare the way walked at the two notes.`,
    nearerIsStronger:
      'You put it down to coming nearer. Whoever was seen earlier was still farther out than the other when seen. Next: count the pulses in each metre.',
  };
  return texts[id];
}
