/**
 * Reading a story: text in, a complete Scenario out, or sentences that each name the file, the path in it and what
 * was expected. Pure: the library of rooms and detectors is handed in.
 */
import type { ControllerSettings, DetectorModel, RoomSpec, Scenario } from '../engine/types.ts';
import { checkStory, checkStoryPeople } from './checks.ts';
import { DEFAULT_SEED, DEFAULT_SETTINGS, DEFAULT_SITE, DEFAULT_SPEED } from './defaults.ts';
import { idsIn, type Library } from './library.ts';
import { type Parsed, parseFile } from './parse.ts';
import { writtenOut } from './plans.ts';
import { checkRoom } from './roomChecks.ts';
import { detectorFile } from './schemas/detector.ts';
import { type ChangedRoom, roomFile } from './schemas/room.ts';
import { type StoryFile, storyFile } from './schemas/story.ts';
import { sentence } from './sentences.ts';

export type Loaded = { ok: true; scenario: Scenario } | { ok: false; sentences: string[] };

/** A room of the library by its file's name. */
export function loadRoom(library: Library, id: string): Parsed<RoomSpec> {
  const fileName = `rooms/${id}.json`;
  const text = library.texts.get(fileName);
  if (text === undefined) return { ok: false, sentences: [`${fileName}: expected this file, but there is none.`] };
  const parsed = parseFile(roomFile, text, fileName);
  if (!parsed.ok) return parsed;
  const { $schema: _schema, format: _format, id: _id, title: _title, ...room } = parsed.value;
  const sentences = checkRoom(fileName, [], room);
  return sentences.length > 0 ? { ok: false, sentences } : { ok: true, value: room };
}

/** A detector of the library by its file's name. */
export function loadDetector(library: Library, id: string): Parsed<DetectorModel> {
  const fileName = `detectors/${id}.json`;
  const text = library.texts.get(fileName);
  if (text === undefined) return { ok: false, sentences: [`${fileName}: expected this file, but there is none.`] };
  const parsed = parseFile(detectorFile, text, fileName);
  if (!parsed.ok) return parsed;
  const { $schema: _schema, format: _format, title: _title, ...model } = parsed.value;
  return { ok: true, value: model };
}

function missing(fileName: string, path: string[], library: Library, folder: 'rooms' | 'detectors', id: string) {
  const known = idsIn(library, folder).join(', ') || 'there is none';
  return { ok: false as const, sentences: [sentence(fileName, path, `a file in scenarios/${folder} (${known})`, id)] };
}

function changedFrom(base: RoomSpec, change: ChangedRoom): RoomSpec {
  const { base: _base, reflectance, addFurniture, removeFurniture, ...replaced } = change;
  const furniture = (replaced.furniture ?? base.furniture).filter((f) => !removeFurniture?.includes(f.id));
  return {
    ...base,
    ...replaced,
    reflectance: { ...base.reflectance, ...reflectance },
    furniture: [...furniture, ...(addFurniture ?? [])],
  };
}

function roomOf(story: StoryFile, fileName: string, library: Library): Parsed<RoomSpec> {
  const { room } = story;
  if (typeof room === 'string') {
    return library.texts.has(`rooms/${room}.json`)
      ? loadRoom(library, room)
      : missing(fileName, ['room'], library, 'rooms', room);
  }
  let whole: RoomSpec;
  if ('base' in room) {
    if (!library.texts.has(`rooms/${room.base}.json`)) {
      return missing(fileName, ['room', 'base'], library, 'rooms', room.base);
    }
    const base = loadRoom(library, room.base);
    if (!base.ok) return base;
    const there = base.value.furniture.map((f) => f.id);
    const unknown = (room.removeFurniture ?? []).findIndex((id) => !there.includes(id));
    if (unknown >= 0) {
      const expected = `the id of furniture in ${room.base}`;
      const at = ['room', 'removeFurniture', unknown];
      return { ok: false, sentences: [sentence(fileName, at, expected, room.removeFurniture?.[unknown])] };
    }
    whole = changedFrom(base.value, room);
  } else whole = room;
  const sentences = checkRoom(fileName, ['room'], whole);
  return sentences.length > 0 ? { ok: false, sentences } : { ok: true, value: whole };
}

function detectorOf(story: StoryFile, fileName: string, library: Library): Parsed<DetectorModel> {
  const { detector } = story;
  if (typeof detector !== 'string') return { ok: true, value: detector };
  return library.texts.has(`detectors/${detector}.json`)
    ? loadDetector(library, detector)
    : missing(fileName, ['detector'], library, 'detectors', detector);
}

export function completeSettings(change: Partial<ControllerSettings> = {}): ControllerSettings {
  return { ...structuredClone(DEFAULT_SETTINGS), ...change };
}

function assemble(story: StoryFile, room: RoomSpec, detectorModel: DetectorModel): Scenario {
  return {
    id: story.id,
    title: story.title,
    question: story.question,
    brief: story.brief,
    seed: story.seed ?? DEFAULT_SEED,
    start: story.start,
    endS: story.endS,
    speed: story.speed ?? DEFAULT_SPEED,
    site: { ...DEFAULT_SITE, ...story.site },
    room,
    sky: story.sky,
    detectorModel,
    mount: story.mount,
    settings: completeSettings(story.settings),
    supplyAtStart: story.supplyAtStart ?? true,
    people: story.people.map((person) => ({ ...person, plan: writtenOut(person.plan).map(({ step }) => step) })),
    warmThings: story.warmThings ?? [],
    script: story.script ?? [],
    ...(story.suggested ? { suggested: story.suggested } : {}),
  };
}

/** Text of a story file to a Scenario with everything resolved. `fileName` only appears in sentences. */
export function loadScenario(text: string, fileName: string, library: Library): Loaded {
  const story = parseFile(storyFile, text, fileName);
  if (!story.ok) return story;
  const room = roomOf(story.value, fileName, library);
  const detector = detectorOf(story.value, fileName, library);
  if (!room.ok || !detector.ok) {
    return { ok: false, sentences: [room, detector].flatMap((part) => (part.ok ? [] : part.sentences)) };
  }
  const people = checkStoryPeople(fileName, room.value, story.value.people);
  const scenario = assemble(story.value, room.value, detector.value);
  const sentences = [...people, ...checkStory(fileName, scenario)];
  return sentences.length > 0 ? { ok: false, sentences } : { ok: true, scenario };
}

/** A story of the library by its id. */
export function loadStory(library: Library, id: string): Loaded {
  const text = library.texts.get(`${id}.json`);
  if (text !== undefined) return loadScenario(text, `${id}.json`, library);
  const known = idsIn(library, '').join(', ') || 'there is none';
  return { ok: false, sentences: [`${id}.json: expected a story in scenarios (${known}), but there is none.`] };
}
