/**
 * Instruments: each is a pure function of a running room and its parameters. Nothing inside the device is read but what
 * the hand-held setter shows. The same function reads the true room and the rivals'.
 */
import { TICKS_PER_S } from '../../engine/units.ts';
import { countBin, luxBin, temperatureBin } from './bins.ts';
import { repeatComplaint, setUpOf } from './complaint.ts';
import { heldBefore } from './heldBefore.ts';
import { type Moment, nearest, rowOf, secondsAgo } from './moment.ts';
import { stopwatch } from './stopwatch.ts';
import type { LookPart, Reading, Test, Value } from './types.ts';
import { someoneAt, tickOf } from './world.ts';

/** A movement counts for a place when its cause was this near, m. Assumed: an arm and the sway of a walker. */
const SEEN_WITHIN_M = 1.3;
/** Movement at a place is looked for in the last so many seconds. Assumed: as long as somebody waves there. */
const SEEN_FOR_S = 10;
/** A press is judged within this, s: the longest press acts after 1.5 s. Source: the controller's own rule. */
const ANSWER_S = 2;
/** A press is looked for in the last so many seconds. Assumed: a hand that presses and looks up. */
const PRESS_AGO_S = 30;
/** Bearings of an arrow are read to this step, degrees. Assumed: by eye from the floor. */
const ARROW_STEP_DEG = 30;

const word = (value: string | boolean): Reading => ({ values: { is: value }, bin: String(value) });

function look({ world }: Moment, part: LookPart): Reading {
  const { setup, control, plant } = world.sim.state;
  switch (part) {
    case 'clips': {
      const sectors = [...control.settings.maskedSectors].sort((a, b) => a - b);
      return word(sectors.length === 0 ? 'none' : sectors.join(' '));
    }
    case 'arrow': {
      const turned = Math.round(setup.mount.turnDeg / ARROW_STEP_DEG) * ARROW_STEP_DEG;
      return word(String(((turned % 360) + 360) % 360));
    }
    case 'lightWindows':
      return word((setup.photometerClearShare ?? 1) < 0.8 ? 'dirty' : 'clean');
    case 'doors':
      return word(setup.doors.map(({ doorId, open }) => `${doorId} ${open ? 'open' : 'shut'}`).join(', '));
    case 'things':
      return word(setup.warmThings.map(({ id, on }) => `${id} ${on ? 'on' : 'off'}`).join(', ') || 'none');
    case 'lamps':
      return word(`inner ${plant.innerLevel > 0 ? 'lit' : 'dark'}, window ${plant.windowLevel > 0 ? 'lit' : 'dark'}`);
  }
}

function settingValue(value: unknown): Value {
  return typeof value === 'object' && value !== null ? JSON.stringify(value) : (value as Value);
}

function handHeld({ world }: Moment, page: 'states' | 'inner' | 'window'): Reading {
  const { control } = world.sim.state;
  if (page === 'states') {
    const { phase, inner, window, air } = control;
    const values = { phase, inner: inner.state, window: window.state, air: air.state };
    return { values, bin: Object.values(values).join(' ') };
  }
  const { ceilingReadingLx, deskEstimateLx, daylightEstimateLx } = control[page].light;
  const values = { ceilingReadingLx, deskEstimateLx, daylightEstimateLx };
  return { values, bin: Object.values(values).map(luxBin).join(' ') };
}

function luxMeter(at: Moment, place: string): Reading {
  const { world } = at;
  const index = world.scenario.room.deskPoints.findIndex(({ id }) => id === place);
  const deskPoint = world.scenario.room.deskPoints[index];
  if (!deskPoint) return { refused: 'noSuchPlace' };
  const refused = at.you(deskPoint.atM, 'beThere');
  if (refused) return { refused };
  const deskLx = world.light.deskLx[index] ?? 0;
  const { innerLx, windowLx } = world.light.readings;
  const ceilingLx = deskPoint.row === 'inner' ? innerLx : windowLx;
  return { values: { deskLx, ceilingLx }, bin: `${luxBin(deskLx)} ${luxBin(ceilingLx)}` };
}

function seenAt(at: Moment, placeId: string): Reading {
  const place = at.places.find(({ id }) => id === placeId);
  if (!place) return { refused: 'noSuchPlace' };
  const refused = at.you(place.atM, 'move');
  if (refused) return { refused };
  const since = secondsAgo(at, SEEN_FOR_S);
  const near = at.world.events.filter(
    (event) => event.kind === 'seen' && event.tick >= since && nearest(event.atM, place.atM) <= SEEN_WITHIN_M,
  );
  return { values: { seen: near.length > 0, times: near.length }, bin: near.length > 0 ? 'seen' : 'not seen' };
}

function buttonPress(at: Moment, button: 'inner' | 'window' | 'air'): Reading {
  const since = secondsAgo(at, PRESS_AGO_S);
  const { events } = at.world;
  const pressed = events.filter(
    (event) =>
      event.kind === 'input' && event.input.kind === 'press' && event.input.input === button && event.tick >= since,
  );
  const last = pressed.at(-1);
  if (!last) return { refused: 'nothingPressed' };
  const output = rowOf(button);
  const until = last.tick + ANSWER_S * TICKS_PER_S;
  const answer = events.find(
    (event) => event.kind === 'output' && event.output === output && event.tick >= last.tick && event.tick <= until,
  );
  const now = answer?.kind === 'output' ? (answer.on ? 'came on' : 'went off') : 'did nothing';
  return { values: { answered: answer !== undefined, output: now }, bin: now };
}

function logOf(at: Moment, of: 'presses' | 'pulses', lastMin: number): Reading {
  const since = secondsAgo(at, lastMin * 60);
  const recent = at.world.events.filter(({ tick }) => tick >= since);
  if (of === 'pulses') {
    const times = recent.filter(({ kind }) => kind === 'seen').length;
    return { values: { times }, bin: countBin(times) };
  }
  const presses = recent.filter(({ kind }) => kind === 'press').length;
  return { values: { times: presses }, bin: String(Math.min(presses, 3)) };
}

function watch(at: Moment, forMin: number): Reading {
  const since = secondsAgo(at, forMin * 60);
  if (since < 0) return { refused: 'tooEarly' };
  if (at.isTrue) {
    for (let tick = since; tick < tickOf(at.world); tick++) {
      if (someoneAt(at.world, tick)) return { refused: 'somebodyWasInside' };
    }
  }
  const recent = at.world.events.filter(({ tick }) => tick >= since);
  const cameOn = recent.filter((event) => event.kind === 'output' && event.on && event.output !== 'airContact').length;
  const seen = recent.filter(({ kind }) => kind === 'seen').length;
  return { values: { cameOn, seen }, bin: `${countBin(cameOn)} ${seen === 0 ? 'none' : 'some'}` };
}

function repeat({ world, complaint, plain }: Moment): Reading {
  const result = repeatComplaint(plain, setUpOf(world.sim.state), complaint);
  const { holds, timeS, switchings } = result;
  return { values: { holds, timeS, switchings }, bin: holds ? 'as complained' : 'gone' };
}

/** Reads an instrument at a moment. Unless refused, it always shows something. */
export function readTest(test: Test, at: Moment): Reading {
  switch (test.instrument) {
    case 'ask':
    case 'drawing':
      return { values: {}, bin: 'known' };
    case 'look':
      return look(at, test.part);
    case 'repeat':
      return repeat(at);
    case 'settings': {
      const value = settingValue(at.world.sim.state.control.settings[test.key]);
      return { values: { is: value }, bin: JSON.stringify(value) };
    }
    case 'handHeld':
      return handHeld(at, test.page);
    case 'luxMeter':
      return luxMeter(at, test.place);
    case 'thermometer': {
      const airC = at.world.sim.state.setup.airTemperatureC;
      return { values: { airC }, bin: temperatureBin(airC) };
    }
    case 'seenAt':
      return seenAt(at, test.place);
    case 'stopwatch':
      return stopwatch(at, test.output, test.edge);
    case 'button':
      return buttonPress(at, test.button);
    case 'log':
      return logOf(at, test.of, test.lastMin);
    case 'watch':
      return watch(at, test.forMin);
    case 'cloth':
    case 'torch':
      return heldBefore(at, test);
  }
}
