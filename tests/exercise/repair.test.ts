/** What counts as putting something right, and what the proving run of a complaint starts from. */
import { describe, expect, it } from 'vitest';
import { diskLibrary } from '../../src/cli/files.ts';
import { createSimulation } from '../../src/engine/simulation.ts';
import type { Input, TimedInput } from '../../src/engine/types.ts';
import { sceneWith, setUpOf } from '../../src/exercise/diagnose/complaint.ts';
import { repairsAmong } from '../../src/exercise/diagnose/repair.ts';
import { exerciseById } from '../../src/exercise/load.ts';
import { smallStory } from '../support/smallStory.ts';

const timed = (...inputs: Input[]): TimedInput[] => inputs.map((input, i) => ({ tick: 10 * i, serial: i, input }));
const fan = (on: boolean): Input => ({ kind: 'setWarmThing', thingId: 'fan', on });
const door = (open: boolean): Input => ({ kind: 'setDoor', doorId: 'door', open });

describe('acts that change the installation', () => {
  it('count a thing that was stopped and left so, and a door', () => {
    expect(repairsAmong(timed(fan(false), door(false))).map(({ serial }) => serial)).toEqual([0, 1]);
  });

  it('do not count what was tried and put back', () => {
    expect(repairsAmong(timed(fan(false), door(true), fan(true), door(false)))).toEqual([]);
    expect(repairsAmong(timed(fan(false), fan(true), fan(false))).map(({ serial }) => serial)).toEqual([2]);
  });
});

describe('the complaint played again', () => {
  const start = { atS: 0, input: fan(true) };
  const story = {
    ...smallStory(),
    warmThings: [
      { id: 'fan', kind: 'fan' as const, atM: [1, 1] as [number, number], heightM: 1, excessK: 3, on: false },
    ],
    script: [start, { atS: 5, input: { kind: 'walkTest' as const, action: 'start' as const } }],
  };
  const setUp = setUpOf(createSimulation(story).state);

  it('does not begin again what was stopped', () => {
    expect(sceneWith(story, setUp).script).toEqual([]);
    const running = { ...setUp, things: [{ id: 'fan', on: true }], walkTest: true };
    expect(sceneWith(story, running).script).toEqual(story.script);
  });
});

describe('an exercise of the library', () => {
  it('is read once for the same text, and anew when its text has changed', () => {
    const texts = new Map(diskLibrary().texts);
    const library = { texts };
    const path = 'exercises/stays-dark.json';
    const first = exerciseById(library, 'stays-dark');
    expect(exerciseById(library, 'stays-dark')).toBe(first);
    texts.set(path, texts.get(path)!.replace('"title": "Stays dark"', '"title": "Still dark"'));
    expect(exerciseById(library, 'stays-dark')).toMatchObject({ ok: true, value: { title: 'Still dark' } });
  });
});
