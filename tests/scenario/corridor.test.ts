/** Where people may stand: in the room and in the corridor outside its doors. */
import { describe, expect, it } from 'vitest';
import { diskLibrary } from '../../src/cli/files.ts';
import { corridorAt, corridorsUsed, isInRoom, wallInTheWay } from '../../src/engine/room/corridor.ts';
import type { Input, PointM } from '../../src/engine/types.ts';
import { checkInputs } from '../../src/scenario/checks.ts';
import { loadScenario } from '../../src/scenario/load.ts';

const library = diskLibrary();
/** Corner office: 9 x 6 m, its door in the left wall from 0.4 to 1.35 m. */
const GOOD = library.texts.get('winter-walk-in.json') ?? '';

const walk = (toM: PointM) => ({ act: 'walk', toM, speedMps: 1.2 });

function loadedWith(atM: PointM, ways: PointM[]) {
  const story = JSON.parse(GOOD) as { people: object[] };
  const person = { ...story.people[0], id: 'P', atM, outsideAtStart: false, plan: ways.map(walk) };
  return loadScenario(JSON.stringify({ ...story, people: [...story.people, person] }), 'story.json', library);
}

function sentencesWith(atM: PointM, ...ways: PointM[]): string[] {
  const loaded = loadedWith(atM, ways);
  return loaded.ok ? [] : loaded.sentences;
}

const INSIDE: PointM = [1, 0.9];
const OUTSIDE: PointM = [-1, 0.9];

describe('somebody of a story', () => {
  it('may walk along the corridor, and in and out through the door', () => {
    expect(sentencesWith([-1, 5.8], OUTSIDE, INSIDE, OUTSIDE, [-1.9, 0.1])).toEqual([]);
  });

  it('may not walk to a place beyond the corridor, and the sentence names place and corridor', () => {
    const [first, ...more] = sentencesWith(OUTSIDE, [-2.4, 0.9]);
    expect(first).toMatch(
      /^story\.json: people\[1\]\.plan\[0\]\.toM must be .*in the corridor 0\.3 to 2 m outside the left wall/,
    );
    expect(more).toEqual([]);
  });

  it.each<[what: string, atM: PointM]>([
    ['before a wall without a door', [4, -1]],
    ['in the wall itself', [-0.1, 3]],
    ['past the end of the wall', [-1, 6.5]],
  ])('may not stand %s', (_, atM) => {
    expect(sentencesWith(atM)[0]).toMatch(/people\[1\]\.atM must be .*inside the room/);
  });

  it('may not walk through the wall, on the way out or in', () => {
    expect(sentencesWith([1, 3], [-1, 3])[0]).toMatch(/plan\[0\]\.toM must be .*the left wall is in the way/);
    expect(sentencesWith([-1, 3], [1, 3])[0]).toMatch(/plan\[0\]\.toM must be .*the left wall is in the way/);
  });
});

describe('an input', () => {
  const loaded = loadedWith(INSIDE, []);
  if (!loaded.ok) throw new Error(loaded.sentences.join(' '));
  const { scenario } = loaded;
  const sentences = (input: Input) => checkInputs('acts.json', scenario, [input]);

  it('may set somebody down in the corridor, furniture and detector only in the room', () => {
    expect(sentences({ kind: 'placePerson', personId: 'P', atM: OUTSIDE })).toEqual([]);
    expect(sentences({ kind: 'placePerson', personId: 'P', atM: [-3, 0.9] })).toHaveLength(1);
    expect(sentences({ kind: 'moveDetector', mount: { ...scenario.mount, atM: OUTSIDE } })).toHaveLength(1);
  });
});

describe('the corridor', () => {
  const room = { widthM: 9, depthM: 6, doors: [{ wall: 'right', fromM: 2, widthM: 1 } as const] };

  it('lies outside the wall of a door, from the thickness of the wall on', () => {
    expect(corridorAt(room, [10, 5.5])).toBe('right');
    expect(corridorAt(room, [9.2, 5.5])).toBeNull();
    expect(corridorAt(room, [11.1, 5.5])).toBeNull();
    expect(corridorAt(room, [-1, 5.5])).toBeNull();
  });

  it('begins in the doorway, where the room ends', () => {
    expect(isInRoom(room, [9, 2.5])).toBe(true);
    expect(corridorAt(room, [9, 2.5])).toBeNull();
    expect(corridorAt(room, [9.1, 2.5])).toBe('right');
  });

  it('is reached through the door alone, at a slant too', () => {
    expect(wallInTheWay(room, [8, 1.5], [10, 3.1])).toBeNull();
    expect(wallInTheWay(room, [8, 1], [10, 2.6])).toBe('right');
    expect(wallInTheWay(room, [2, 2], [7, 5])).toBeNull();
    expect(wallInTheWay(room, [10, 0.5], [10, 5.5])).toBeNull();
  });

  it('is drawn where somebody of the story comes to it', () => {
    const used = (...ways: PointM[]) => {
      const story = loadedWith(INSIDE, ways);
      return story.ok ? corridorsUsed(story.scenario) : null;
    };
    expect(used([2, 2])).toEqual([]);
    expect(used(OUTSIDE)).toEqual(['left']);
  });
});
