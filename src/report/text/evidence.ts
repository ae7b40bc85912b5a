/** Words of tests, readings and refusals: what an instrument is called with its parameter, and what it shows. */

import type { ControllerSettings } from '../../engine/types.ts';
import type { Place, Refusal, Test, Value } from '../../exercise/diagnose/types.ts';
import { luxText, minuteSecond } from './format.ts';
import { buttonName, outputName, phaseName, rowName, stateName } from './names.ts';
import { settingChangeText, settingName } from './settings.ts';

const lookName = {
  clips: 'the clips on the dome',
  arrow: 'the arrow of the detector',
  lightWindows: 'its two light windows',
  doors: 'the doors',
  things: 'what moves or blows in the room',
  lamps: 'the lamps',
} as const;

/** Instruments in the order of the bag; the tests of one stand together under its name. */
export const instrumentName: Record<Test['instrument'], string> = {
  ask: 'Ask the client',
  repeat: 'Play the complaint again',
  drawing: 'Read the drawing',
  look: 'Look from below',
  button: 'Press a button',
  handHeld: 'Hand-held setter',
  settings: 'Settings sheet',
  luxMeter: 'Lux meter',
  thermometer: 'Thermometer',
  seenAt: 'Move about and watch',
  stopwatch: 'Stopwatch',
  log: 'Input log',
  watch: 'Leave the room alone',
  cloth: 'Cover cloth',
  torch: 'Torch',
};

const placeLabel = (places: readonly Place[], id: string): string => places.find((p) => p.id === id)?.label ?? id;

/** The parameter of a test, as the second word of its choice; null: it has none. */
export function testParameter(test: Test, places: readonly Place[]): string | null {
  switch (test.instrument) {
    case 'look':
      return lookName[test.part];
    case 'settings':
      return settingName[test.key];
    case 'handHeld':
      return test.page === 'states' ? 'phase and states' : `light of the ${rowName[test.page].toLowerCase()}`;
    case 'luxMeter':
    case 'seenAt':
      return placeLabel(places, test.place);
    case 'stopwatch':
      return `${outputName[test.output]} ${test.edge}`;
    case 'button':
      return buttonName[test.button];
    case 'log':
      return `${test.of}, last ${test.lastMin} min`;
    case 'watch':
      return `${test.forMin} min`;
    case 'cloth':
      return `over the detector, ${test.forMin} min`;
    case 'torch':
      return `at the detector from the ${test.side === 'window' ? 'window' : 'inner'} side, ${test.forMin} min`;
    default:
      return null;
  }
}

/** "Lux meter: Desk 2". */
export function testLine(test: Test, places: readonly Place[]): string {
  const parameter = testParameter(test, places);
  return parameter === null ? instrumentName[test.instrument] : `${instrumentName[test.instrument]}: ${parameter}`;
}

type Values = Record<string, Value>;

function settingText(key: keyof ControllerSettings, value: Value): string {
  const plain = key === 'maskedSectors' && typeof value === 'string' ? (JSON.parse(value) as unknown) : value;
  return settingChangeText(key, { [key]: plain } as Partial<ControllerSettings>);
}

const lux = (value: Value | undefined): string => (typeof value === 'number' ? luxText(value) : '–');
const time = (value: Value | undefined): string => (typeof value === 'number' ? minuteSecond(value) : 'none');

function looked(part: keyof typeof lookName, value: Value | undefined): string {
  if (part === 'clips') return value === 'none' ? 'No clip is on the dome.' : `Clips on sectors ${value}.`;
  if (part === 'arrow') return `The arrow points ${value}° from the back wall.`;
  if (part === 'lightWindows') return `The light windows are ${value}.`;
  if (value === 'none') return 'Nothing moves or blows.';
  const text = String(value);
  return `${text[0]?.toUpperCase()}${text.slice(1)}.`;
}

function stateText(values: Values): string {
  const phase = phaseName[values.phase as keyof typeof phaseName];
  const state = (key: string): string => stateName[values[key] as keyof typeof stateName];
  return `Phase: ${phase}. Inner row: ${state('inner')}. Window row: ${state('window')}. Air contact: ${state('air')}.`;
}

/** What the instrument showed, as a sentence. */
export function readingText(test: Test, values: Values): string {
  switch (test.instrument) {
    case 'ask':
      return 'The client tells it as it stands above.';
    case 'drawing':
      return 'Rows, detector and door are where the picture has them.';
    case 'repeat':
      return values.holds
        ? `The complaint is there: ${time(values.timeS)} in that state, ${values.switchings} switchings.`
        : `The complaint is gone: ${time(values.timeS)} in that state, ${values.switchings} switchings.`;
    case 'look':
      return looked(test.part, values.is);
    case 'settings':
      return settingText(test.key, values.is ?? null);
    case 'handHeld':
      if (test.page === 'states') return stateText(values);
      return `Ceiling reading ${lux(values.ceilingReadingLx)}, desk estimate ${lux(values.deskEstimateLx)}, daylight estimate ${lux(values.daylightEstimateLx)}.`;
    case 'luxMeter':
      return `${lux(values.deskLx)} on the desk; the ceiling reading of its row is ${lux(values.ceilingLx)}.`;
    case 'thermometer':
      return `Air ${Math.round(Number(values.airC))} °C.`;
    case 'seenAt':
      return values.seen ? `Seen there, ${values.times} times in 10 s.` : 'Not seen there in 10 s.';
    case 'stopwatch':
      return `${time(values.timeS)} from the last movement or press; it switched ${time(values.agoS)} ago.`;
    case 'button':
      return `Its output ${values.output}.`;
    case 'log':
      return `${values.times} ${test.of} in the log.`;
    case 'watch':
      return `Rows came on ${values.cameOn} times; movement was counted ${values.seen} times.`;
    case 'cloth':
    case 'torch':
      return `Ceiling readings meanwhile: inner ${lux(values.innerLx)}, window ${lux(values.windowLx)}. The inner row ${values.inner}, the window row ${values.window}; movement was counted ${values.seen} times.`;
  }
}

export const refusalText: Record<Refusal, string> = {
  notAllowed: 'That is not in the bag of this job.',
  noSuchPlace: 'There is no such place.',
  youAreNotThere: 'You are not there: go to the place first.',
  youAreStill: 'You stand still: move there to be counted.',
  notUpTheLadder: 'You are not up the ladder at the detector.',
  notHeldSoLong: 'It has not been held to the detector for so long.',
  nothingPressed: 'Nothing was pressed just now.',
  nothingSwitched: 'That output has not switched so.',
  somebodyWasInside: 'Somebody was inside; the room was not left alone.',
  tooEarly: 'The room has not stood for so long.',
};
