/** A small room that is quick to build, with enough going on: a walker, a sitter, passing clouds, a wall button. */

import { diskLibrary } from '../../src/cli/files.ts';
import type { Input, Scenario, TimedInput } from '../../src/engine/types.ts';
import { loadScenario } from '../../src/scenario/load.ts';

const FACE = 0.6;

const STORY = {
  format: 1,
  id: 'small-story',
  title: 'Small story',
  question: 'What happens in a small room?',
  brief: 'For tests.',
  seed: 7,
  start: { localDate: '2026-03-18', localTime: '08:40', utcOffsetH: 1 },
  endS: 300,
  site: { latitudeDeg: 50, longitudeDeg: 10 },
  room: {
    widthM: 4,
    depthM: 4,
    heightM: 2.8,
    backWallFacesDeg: 160,
    reflectance: { front: FACE, back: FACE, left: FACE, right: FACE, floor: 0.3, ceiling: 0.8 },
    windows: [
      {
        id: 'window',
        wall: 'back',
        fromM: 1,
        widthM: 2,
        sillM: 0.9,
        headM: 2.4,
        transmittance: 0.75,
        frameFactor: 0.75,
        dirtFactor: 0.9,
        revealM: 0.2,
      },
    ],
    doors: [{ id: 'door', wall: 'left', fromM: 0.3, widthM: 0.9, headM: 2.1, openAtStart: true, corridorLx: 50 }],
    furniture: [
      {
        id: 'desk',
        kind: 'desk',
        atM: [2.8, 2.6],
        turnDeg: 90,
        widthM: 1.4,
        depthM: 0.7,
        heightM: 0.74,
        reflectance: 0.5,
      },
    ],
    luminaires: [lamp('inner', 1.2), lamp('window', 2.8)],
    maintenanceFactor: 0.8,
    deskPoints: [{ id: 'desk', label: 'Desk', row: 'window', atM: [2.7, 2.6], heightM: 0.74 }],
    airTemperatureC: 21,
    radiantTemperatureC: 21,
  },
  sky: 'passingClouds',
  detector: 'dome-a',
  mount: { atM: [2, 2], heightM: 2.8, turnDeg: 0 },
  settings: {
    innerOffDelayS: 60,
    windowOffDelayS: 60,
    brightDwellS: 60,
    airOnDelayS: 20,
    airOffDelayS: 60,
    innerSetpointLx: 900,
  },
  people: [
    {
      id: 'A',
      heightM: 1.75,
      clothingClo: 0.9,
      cameFromC: 12,
      atM: [-0.4, 0.75],
      headingDeg: 90,
      outsideAtStart: true,
      plan: [
        { act: 'walk', toM: [1.2, 0.75], speedMps: 1.1, fromS: 2 },
        { act: 'walk', toM: [2.1, 2.6], speedMps: 1 },
        { act: 'type', forS: 40, headingDeg: 90 },
        { act: 'walk', toM: [0.4, 0.75], speedMps: 1.2, fromS: 60 },
        { act: 'leave' },
      ],
    },
  ],
  script: [{ atS: 30, input: { kind: 'press', input: 'inner' } }],
};

function lamp(row: 'inner' | 'window', y: number) {
  return {
    id: `lamp-${row}`,
    row,
    atM: [2, y],
    heightM: 2.5,
    lengthM: 1.5,
    widthM: 0.1,
    turnDeg: 0,
    fluxLm: 5000,
    distribution: 'lambert',
    upShare: 0.2,
  };
}

/** The same as a file holds it. */
export const SMALL_STORY_TEXT = JSON.stringify(STORY);

export function smallStory(): Scenario {
  const loaded = loadScenario(SMALL_STORY_TEXT, 'small-story.json', diskLibrary());
  if (!loaded.ok) throw new Error(loaded.sentences.join('\n'));
  return loaded.scenario;
}

/** Acts of a learner in the first two minutes, at ticks. */
export const ACTS: { tick: number; input: Input }[] = [
  { tick: 250, input: { kind: 'setSettings', change: { airOnDelayS: 10 } } },
  { tick: 420, input: { kind: 'press', input: 'window' } },
  { tick: 777, input: { kind: 'moveSun', shiftS: 3600, localDate: null } },
  { tick: 900, input: { kind: 'setPlan', personId: 'A', plan: [{ act: 'walk', toM: [2, 1], speedMps: 1 }] } },
];

export function timedActs(): TimedInput[] {
  return ACTS.map(({ tick, input }, serial) => ({ tick, serial, input }));
}
