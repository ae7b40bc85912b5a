import { describe, expect, it } from 'vitest';
import { diskLibrary } from '../../src/cli/files.ts';
import { loadScenario } from '../../src/scenario/load.ts';

const library = diskLibrary();
const FILE = 'my-story.json';
const DETECTOR = library.texts.get('detectors/dome-a.json') ?? '';
const GOOD = library.texts.get('winter-walk-in.json') ?? '';

// biome-ignore lint/suspicious/noExplicitAny: damage is done to raw JSON, whose shape is the point of the test
type Raw = any;

function sentencesAfter(damage: (story: Raw) => void): string[] {
  const story = JSON.parse(GOOD) as Raw;
  damage(story);
  const loaded = loadScenario(JSON.stringify(story), FILE, library);
  return loaded.ok ? [] : loaded.sentences;
}

/** What was done, the path that must be named, and a part of what was expected. */
const DAMAGES: [what: string, damage: (story: Raw) => void, path: string, expected: RegExp][] = [
  ['no title', (s) => delete s.title, 'title', /missing; expected text of 1 to 60/],
  ['an unknown key', (s) => (s.colour = 'red'), 'colour', /not a known key; expected one of .*title/],
  ['a misspelt key of a person', (s) => (s.people[0].hight = 1.7), 'people[0].hight', /one of id, heightM/],
  ['a number as text', (s) => (s.people[0].heightM = 'tall'), 'people[0].heightM', /a number from 0.9 to 2.2 m/],
  ['a giant', (s) => (s.people[0].heightM = 17.4), 'people[0].heightM', /a number from 0.9 to 2.2 m/],
  ['a person without a letter', (s) => (s.people[0].id = 'bob'), 'people[0].id', /one capital letter/],
  ['a step outside the room', (s) => (s.people[0].plan[2].toM = [12, 3]), 'people[0].plan[2].toM', /inside the room/],
  [
    'a point of three numbers',
    (s) => (s.people[0].plan[0].toM = [1, 2, 3]),
    'people[0].plan[0].toM',
    /a point \[x, y\]/,
  ],
  [
    'an unknown act',
    (s) => (s.people[0].plan[1].act = 'fly'),
    'people[0].plan[1].act',
    /one of walk, leave, repeat, stand/,
  ],
  [
    'a walk without a goal',
    (s) => delete s.people[0].plan[0].toM,
    'people[0].plan[0].toM',
    /missing; expected a point/,
  ],
  ['two people of one letter', (s) => s.people.push(s.people[0]), 'people[1].id', /an id of its own/],
  [
    'nine people',
    (s) => (s.people = [...'ABCDEFGHI'].map((id) => ({ ...s.people[0], id }))),
    'people',
    /at most 8 people/,
  ],
  [
    'somebody standing in a field',
    (s) => Object.assign(s.people[0], { atM: [-7, 1], outsideAtStart: true }),
    'people[0].atM',
    /inside the room or within 2 m/,
  ],
  [
    'a step that waits for a moment gone by',
    (s) => (s.people[0].plan[3].fromS = 1),
    'people[0].plan[3].fromS',
    /not before the 1.5 s/,
  ],
  [
    'an activity that never ends before another',
    (s) => delete s.people[0].plan[5].forS,
    'people[0].plan[5].forS',
    /missing; expected a length in s/,
  ],
  [
    'a walk out of the room inside a repeat, said once',
    (s) => s.people[0].plan[6].steps.push({ act: 'walk', toM: [3, 7], speedMps: 1 }),
    'people[0].plan[6].steps[4].toM',
    /inside the room/,
  ],
  [
    'a repeat inside a repeat',
    (s) => s.people[0].plan[6].steps.push(structuredClone(s.people[0].plan[6])),
    'people[0].plan[6].steps[4].act',
    /one of walk, leave, stand/,
  ],
  [
    'repeats without measure',
    (s) => s.people[0].plan.push({ ...s.people[0].plan[6], times: 500 }, { ...s.people[0].plan[6], times: 400 }),
    'people[0].plan',
    /at most 3000 steps/,
  ],
  ['five warm things', (s) => (s.warmThings = [1, 2, 3, 4, 5].map(warm)), 'warmThings', /at most 4 warm/],
  [
    'a warm thing outside',
    (s) => (s.warmThings = [{ ...warm(1), atM: [1, -3] }]),
    'warmThings[0].atM',
    /inside the room/,
  ],
  ['a room that is not there', (s) => (s.room = 'ballroom'), 'room', /a file in scenarios\/rooms \(corner-office/],
  ['a detector that is not there', (s) => (s.detector = 'eye'), 'detector', /a file in scenarios\/detectors/],
  ['a lens whose ring does not fall into quarters', withRing(10), 'detector.rings[1].facets', /a multiple of 4 from 4/],
  ['a lens with a ring of nothing', withRing(0), 'detector.rings[1].facets', /a multiple of 4 from 4 to 64/],
  ['a lens with a ring of half facets', withRing(4.5), 'detector.rings[1].facets', /a multiple of 4 from 4 to 64/],
  ['a setpoint too high', (s) => (s.settings.innerSetpointLx = 2000), 'settings.innerSetpointLx', /10 to 1000 lx/],
  ['an off-delay too short', (s) => (s.settings.windowOffDelayS = 5), 'settings.windowOffDelayS', /60 to 1800 s/],
  ['an on-delay too long', (s) => (s.settings.airOnDelayS = 700), 'settings.airOnDelayS', /0 to 600 s/],
  ['a mode of another trade', (s) => (s.settings.innerMode = 'on'), 'settings.innerMode', /one of autoOn, manualOn/],
  ['a thirteenth sector', (s) => (s.settings.maskedSectors = [12]), 'settings.maskedSectors[0]', /from 0 to 11/],
  ['a date that does not exist', (s) => (s.start.localDate = '2026-02-30'), 'start.localDate', /a date that exists/],
  ['a date in another order', (s) => (s.start.localDate = '17.11.2026'), 'start.localDate', /YYYY-MM-DD/],
  ['a time past midnight', (s) => (s.start.localTime = '25:10'), 'start.localTime', /00:00 to 23:59:59/],
  ['a latitude beyond the pole', (s) => (s.site.latitudeDeg = 95), 'site.latitudeDeg', /-90 to 90 degrees/],
  ['a clock of the other side of the earth', (s) => (s.start.utcOffsetH = -9), 'start.utcOffsetH', /within 3.5 h/],
  ['a detector above the ceiling', (s) => (s.mount.heightM = 3.4), 'mount.heightM', /room's height, 3 m/],
  ['a detector outside', (s) => (s.mount.atM = [9.5, 3]), 'mount.atM', /inside the room/],
  ['a question of ten words', (s) => (s.question = 'a b c d e f g h i j'), 'question', /at most 9 words/],
  ['a newer format', (s) => (s.format = 2), 'format', /newer than the 1/],
  ['no format', (s) => delete s.format, 'format', /missing; expected 1/],
  [
    'a script for nobody',
    (s) => (s.script = [{ atS: 5, input: { kind: 'removePerson', personId: 'Z' } }]),
    'script[0].input.personId',
    /the id of a person \(A\)/,
  ],
  [
    'a blind on a wall',
    (s) => (s.script = [{ atS: 5, input: { kind: 'setBlind', windowId: 'roof', closedShare: 1 } }]),
    'script[0].input.windowId',
    /the id of a window \(window-left/,
  ],
  [
    'an unknown input',
    (s) => (s.script = [{ atS: 5, input: { kind: 'explode' } }]),
    'script[0].input.kind',
    /one of setSettings, takePresentLight/,
  ],
  [
    'a script out of order',
    (s) =>
      (s.script = [
        { atS: 9, input: sky },
        { atS: 5, input: sky },
      ]),
    'script[1].atS',
    /not before the 9 s/,
  ],
  ['a list for an object', (s) => (s.site = []), 'site', /a site with latitudeDeg/],
];

/** The bundled detector written into the story, its second ring with another number of facets. */
function withRing(facets: number) {
  return (story: Raw) => {
    const { $schema: _, format: __, title: ___, ...detector } = JSON.parse(DETECTOR) as Raw;
    detector.rings[1].facets = facets;
    story.detector = detector;
  };
}

const sky = { kind: 'setSky', sky: 'hazy' };

function warm(n: number) {
  return { id: `thing-${n}`, kind: 'fan', atM: [1, 1], heightM: 1, excessK: 5, on: true };
}

describe('a damaged story', () => {
  it('is told from a good one', () => {
    expect(sentencesAfter(() => undefined)).toEqual([]);
    expect(sentencesAfter(withRing(44))).toEqual([]);
  });

  for (const [what, damage, path, expected] of DAMAGES) {
    it(`with ${what} is refused in one sentence that names ${path}`, () => {
      const sentences = sentencesAfter(damage);
      expect(sentences).toHaveLength(1);
      expect(sentences[0]).toContain(`${FILE}: ${path} `);
      expect(sentences[0]).toMatch(expected);
      expect(sentences[0]).toMatch(/\.$/);
    });
  }

  it('that is no JSON is refused with the place where it stops being JSON', () => {
    const loaded = loadScenario(`${GOOD.slice(0, 60)}\n!`, FILE, library);
    expect(loaded).toMatchObject({
      ok: false,
      sentences: [expect.stringMatching(/^my-story.json: expected JSON.*line/)],
    });
  });

  it('that holds no object is refused', () => {
    expect(loadScenario('7', FILE, library)).toMatchObject({
      ok: false,
      sentences: [`${FILE}: the file must be a JSON object, but is 7.`],
    });
  });

  it('with several faults gets a sentence for each', () => {
    const sentences = sentencesAfter((s) => {
      s.seed = -1;
      s.sky = 'green';
      s.people[0].clothingClo = 9;
    });
    expect(sentences).toHaveLength(3);
  });
});
