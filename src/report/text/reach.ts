/** Words of the reach outlines and of the Walk-test notebook. English. */
import { metres } from './format.ts';

type Kind = 'across' | 'toward' | 'seated';
type Way = Kind | 'away' | 'standing';

const kinds: Record<Kind, string> = { across: 'across', toward: 'toward', seated: 'seated' };

/** The direction of a bearing in the room, by the walls. */
function directionOf(bearingDeg: number): string {
  const names = ['back', 'back right', 'right', 'front right', 'front', 'front left', 'left', 'back left'];
  return names[Math.round(bearingDeg / 45) % 8]!;
}

/** 4.6 m: a tenth is finer than the tries can tell. */
export function tenths(m: number): string {
  return metres(Math.round(m * 10) / 10);
}

export const reachWords = {
  kinds,
  group: 'How far it sees',
  kindSays: {
    across: 'somebody walks across the line of sight',
    toward: 'somebody walks straight in',
    seated: 'somebody seated reaches with one arm',
  } satisfies Record<Kind, string>,
  /** How the lines look, for the legend. */
  kindLine: { across: 'long dashes', toward: 'dots', seated: 'dash and dot' } satisfies Record<Kind, string>,
  computedFor: (heightM: number, roomC: number, speedMps: number, reduced: boolean): string =>
    `Computed for ${metres(heightM)}, ${Math.round(roomC * 10) / 10} °C, ${speedMps} m/s${reduced ? ', reduced sensitivity' : ''}; seen in half of all tries.`,
  working: (share: number): string => `Working it out: ${Math.round(share * 100)} %`,
  outOfDate: (share: number): string => `Out of date, working it out again: ${Math.round(share * 100)} %`,
  shut: 'How far it sees is for you to find in this job.',
  choose: 'Choose a movement to see how far it is noticed.',
  tag: (kind: Kind, m: number, wall: boolean): string => `${kinds[kind]} ${tenths(m)}${wall ? ', wall' : ''}`,
  table: 'How far it sees, by direction',
  direction: 'Direction',
  bearing: (bearingDeg: number): string => `${Math.round(bearingDeg)}°, ${directionOf(bearingDeg)}`,
  cell: (halfM: number | null, wall: boolean, gaps: readonly (readonly [number, number])[]): string => {
    if (halfM === null) return 'not seen';
    const holes = gaps.map(([from, to]) => `${tenths(from)} to ${tenths(to)}`).join(' and ');
    return `${tenths(halfM)}${wall ? ', to the wall' : ''}${holes ? `, but not from ${holes}` : ''}`;
  },
  tableNote:
    'Metres from the point under the detector, clockwise from the back wall. Nobody walks round furniture here, and nobody else is in the room.',
  words: 'How far the detector sees',
};

const ways: Record<Way, string> = {
  across: 'walking across',
  toward: 'walking in',
  seated: 'seated, reaching',
  away: 'walking away',
  standing: 'standing',
};

export const walkTestWords = {
  region: 'Walk-test',
  ways,
  start: 'Start walk-test',
  end: 'End walk-test',
  rule: {
    walkTest: 'Walk-test is on: two pulses of one quadrant within 4 s count, as for the outlines across and toward.',
    lit: 'A row is lit: one pulse over the hold threshold counts, as for the outline seated.',
    dark: 'No row is lit: two pulses of one quadrant within 4 s count, as for the outlines across and toward.',
    blind: 'The detector is not sensing now.',
  },
  standIn: 'Stand-in',
  nobody: 'There is no Stand-in in the room. Add one under People.',
  others: (letters: string): string => `${letters} may be seen as well: a pulse need not be of the one you test.`,
  make: 'Let the Stand-in do it',
  direction: 'Direction',
  distance: 'Distance',
  go: (kind: Kind): string =>
    ({ across: 'Walk across there', toward: 'Walk in from there', seated: 'Sit there and reach' })[kind],
  waits: 'Time stands still: press Run and the Stand-in begins.',
  record: 'Record this point',
  auto: 'record while walking, every second',
  recorded: (n: number, seen: boolean, way: string, place: string): string =>
    `Point ${n}: ${seen ? 'seen' : 'not seen'}, ${way}, ${place}.`,
  seen: 'seen here',
  notSeen: 'not seen here',
  seenRule: 'Seen: a pulse counted within the last 2 s.',
  undo: 'Take back the last',
  clear: 'Clear the page',
  empty: 'No points yet.',
  list: 'Recorded points',
  columns: { number: 'Point', way: 'Moving', place: 'Place', seen: 'Result', edge: 'Edge', remove: 'Remove' },
  place: (m: number, bearingDeg: number): string => `${tenths(m)} at ${Math.round(bearingDeg)}°`,
  isEdge: (n: number): string => `Point ${n} is on my edge`,
  removePoint: (n: number): string => `Remove point ${n}`,
  earlier: 'before the detector was moved',
  outline: 'My outline',
  outlineOf: 'Outline for',
  outlinePoints: (n: number): string =>
    n === 0
      ? 'Tick the points that lie on your edge.'
      : n < 3
        ? `${n} of your points so far; an outline needs three.`
        : `Through ${n} points, in order round the detector.`,
  lay: 'Lay over the true outline',
  error: (meanM: number, directions: number, all: number): string =>
    `Your outline is ${tenths(meanM)} off on average, in ${directions} of ${all} directions.`,
  noError: 'With three points round the detector the mean error is told here.',
  shown: 'show on the floor',
  legend: 'Square: across. Triangle: in or away. Circle: seated. Diamond: standing. Solid: seen. Open: not seen.',
  notKept: 'This browser does not let the page keep anything: the points are gone with the page.',
  yours: 'your outline',
};
