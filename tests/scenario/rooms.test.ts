import { describe, expect, it } from 'vitest';
import { diskLibrary } from '../../src/cli/files.ts';
import { DEFAULT_SETTINGS } from '../../src/scenario/defaults.ts';
import { idsIn, libraryOf } from '../../src/scenario/library.ts';
import { loadRoom, loadScenario, loadStory } from '../../src/scenario/load.ts';

const library = diskLibrary();
const STORY = library.texts.get('winter-walk-in.json') ?? '';
const ROOM = library.texts.get('rooms/corner-office.json') ?? '';

// biome-ignore lint/suspicious/noExplicitAny: damage is done to raw JSON, whose shape is the point of the test
type Raw = any;

function sentencesOfRoom(damage: (room: Raw) => void): string[] {
  const room = JSON.parse(ROOM) as Raw;
  damage(room);
  const damaged = libraryOf({ 'scenarios/rooms/corner-office.json': JSON.stringify(room) });
  const loaded = loadRoom(damaged, 'corner-office');
  return loaded.ok ? [] : loaded.sentences;
}

function storyWith(change: (story: Raw) => void) {
  const story = JSON.parse(STORY) as Raw;
  change(story);
  return loadScenario(JSON.stringify(story), 'story.json', library);
}

const DAMAGES: [what: string, damage: (room: Raw) => void, path: string, expected: RegExp][] = [
  ['a window past its wall', (r) => (r.windows[2].fromM = 7), 'windows[2].widthM', /at most 2.00 m/],
  ['windows on top of each other', (r) => (r.windows[1].fromM = 2), 'windows[1].fromM', /clear of "window-left"/],
  ['a window through the ceiling', (r) => (r.windows[0].headM = 3.5), 'windows[0].headM', /room's height, 3 m/],
  ['a sill above its head', (r) => (r.windows[0].sillM = 2.8), 'windows[0].sillM', /below its headM/],
  [
    'a door in a window',
    (r) => Object.assign(r.doors[0], { wall: 'back', fromM: 1 }),
    'doors[0].fromM',
    /clear of "window-left"/,
  ],
  ['no door', (r) => (r.doors = []), 'doors', /a list of 1 to 4 doors/],
  ['a desk in the corridor', (r) => (r.furniture[0].atM = [-1, 2]), 'furniture[0].atM', /inside the room/],
  ['two desks of one id', (r) => (r.furniture[1].id = r.furniture[0].id), 'furniture[1].id', /an id of its own/],
  ['a desk turned by 45 degrees', (r) => (r.furniture[0].turnDeg = 45), 'furniture[0].turnDeg', /one of 0, 90/],
  ['a thirteenth luminaire', (r) => (r.luminaires = fill(r.luminaires, 13)), 'luminaires', /at most 12 luminaires/],
  ['a lamp above the ceiling', (r) => (r.luminaires[0].heightM = 4), 'luminaires[0].heightM', /room's height/],
  ['a mirror for a floor', (r) => (r.reflectance.floor = 1), 'reflectance.floor', /from 0 to 0.95/],
  ['a wall of another house', (r) => (r.windows[0].wall = 'north'), 'windows[0].wall', /one of front, back/],
];

function fill(list: Raw[], length: number): Raw[] {
  return Array.from({ length }, (_, i) => ({ ...list[i % list.length], id: `lamp-${i}` }));
}

describe('a damaged room', () => {
  for (const [what, damage, path, expected] of DAMAGES) {
    it(`with ${what} is refused in one sentence that names ${path}`, () => {
      const sentences = sentencesOfRoom(damage);
      expect(sentences).toHaveLength(1);
      expect(sentences[0]).toContain(`rooms/corner-office.json: ${path} `);
      expect(sentences[0]).toMatch(expected);
    });
  }
});

describe('a story', () => {
  it('may change a room of the library in place', () => {
    const loaded = storyWith((s) => {
      s.room = {
        base: 'corner-office',
        airTemperatureC: 27,
        reflectance: { floor: 0.5 },
        removeFurniture: ['plant'],
        addFurniture: [
          {
            id: 'pane',
            kind: 'glassScreen',
            atM: [4, 2],
            turnDeg: 0,
            widthM: 2,
            depthM: 0.04,
            heightM: 1.8,
            reflectance: 0.1,
          },
        ],
      };
    });
    expect(loaded.ok).toBe(true);
    if (!loaded.ok) return;
    const { room } = loaded.scenario;
    const ids = room.furniture.map((f) => f.id);
    expect([room.airTemperatureC, room.reflectance.floor, room.reflectance.ceiling]).toEqual([27, 0.5, 0.8]);
    expect(ids).toContain('pane');
    expect(ids).not.toContain('plant');
  });

  it('names its own file when what it changes does not fit', () => {
    const loaded = storyWith((s) => (s.room = { base: 'corner-office', heightM: 2.5 }));
    expect(loaded.ok ? [] : loaded.sentences[0]).toMatch(/^story.json: room\.windows\[0\]\.headM must be at most/);
  });

  it('has its repeats written out', () => {
    const step = { act: 'type', forS: 5 };
    const loaded = storyWith(
      (s) => (s.people[0].plan = [{ act: 'repeat', times: 3, steps: [step] }, { act: 'leave' }]),
    );
    expect(loaded.ok && loaded.scenario.people[0]?.plan).toEqual([step, step, step, { act: 'leave' }]);
  });

  it('names an unknown key of a changed room', () => {
    const loaded = storyWith((s) => (s.room = { base: 'corner-office', floor: 1 }));
    expect(loaded.ok ? [] : loaded.sentences).toEqual([
      expect.stringContaining('story.json: room.floor is not a known'),
    ]);
  });

  it('keeps the defaults of settings that it does not name', () => {
    const loaded = loadStory(library, 'winter-walk-in');
    expect(loaded.ok).toBe(true);
    if (!loaded.ok) return;
    const { settings } = loaded.scenario;
    expect(settings).toEqual({ ...DEFAULT_SETTINGS, innerOffDelayS: 600, windowOffDelayS: 600, airOnDelayS: 30 });
  });

  it('gets a sentence of the room file when that is the broken one', () => {
    const broken = libraryOf({
      'scenarios/rooms/corner-office.json': ROOM.replace('"widthM": 9,', '"widthM": "9",'),
      'scenarios/detectors/dome-a.json': library.texts.get('detectors/dome-a.json') ?? '',
    });
    const loaded = loadScenario(STORY, 'story.json', broken);
    expect(loaded.ok ? '' : loaded.sentences[0]).toMatch(/^rooms\/corner-office.json: widthM must be a number/);
  });
});

describe('the library', () => {
  it('takes the paths of a bundler and of a disk alike', () => {
    const paths = ['../../scenarios/rooms/a.json', '/home/x/scenarios/b.json', 'scenarios/detectors/c.json'];
    const made = libraryOf(Object.fromEntries(paths.map((path) => [path, '{}'])));
    expect([idsIn(made, 'rooms'), idsIn(made, ''), idsIn(made, 'detectors')]).toEqual([['a'], ['b'], ['c']]);
  });
});
