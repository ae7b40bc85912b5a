/** Events as one line each, for tables, narration and the command line. */
import type { Reason, TraceEvent } from '../../engine/trace.ts';
import type { ControllerSettings, Input, PlanStep } from '../../engine/types.ts';
import { dayMonth, luxBeside, luxText, metres, minuteSecond } from './format.ts';
import {
  actName,
  buttonName,
  lampKindName,
  outputInSentence,
  outputName,
  phaseName,
  rowName,
  skyName,
  stateName,
} from './names.ts';
import { reasonSentence } from './reasons.ts';
import { settingChangeText } from './settings.ts';

/** Events that a table of "what happened" lists; pulses and crossings stay on the Recorder. */
export function isTold(event: TraceEvent): boolean {
  return event.kind !== 'pulse' && event.kind !== 'seen' && event.kind !== 'row' && event.kind !== 'lampShare';
}

function settingsSentence(change: Partial<ControllerSettings>): string {
  const parts = (Object.keys(change) as (keyof ControllerSettings)[]).map((key) => settingChangeText(key, change));
  return `Set: ${parts.join('; ')}.`;
}

/** What a Stand-in was asked to do: where it goes first, or what it does. */
function planSentence(personId: string, plan: readonly PlanStep[]): string {
  const [first, next] = plan;
  if (!first) return `${personId} stays.`;
  if (first.act === 'leave') return `${personId} leaves.`;
  if (first.act !== 'walk') return `${personId} ${actName[first.act]}.`;
  const then = next && next.act !== 'walk' && next.act !== 'leave' ? `, then ${actName[next.act]}` : '';
  return `${personId} walks to ${metres(first.toM[0])}, ${metres(first.toM[1])}${then}.`;
}

export function inputSentence(input: Input): string {
  switch (input.kind) {
    case 'setSettings':
      return settingsSentence(input.change);
    case 'takePresentLight':
      return `${rowName[input.row]}: present light taken as setpoint.`;
    case 'walkTest':
      return input.action === 'start' ? 'Walk-test started.' : 'Walk-test ended.';
    case 'contact':
      return `${buttonName[input.input]} ${input.closed ? 'closed' : 'opened'}.`;
    case 'press':
      return `${buttonName[input.input]} pressed for ${((input.closedMs ?? 300) / 1000).toFixed(1)} s.`;
    case 'supply':
      return input.on ? 'Supply switched on.' : 'Supply switched off.';
    case 'addPerson':
      return `${input.person.id} added to the room.`;
    case 'removePerson':
      return `${input.personId} taken out of the room.`;
    case 'placePerson':
      return `${input.personId} set down ${metres(input.atM[0])} from the left wall, ${metres(input.atM[1])} from the front wall.`;
    case 'setPlan':
      return planSentence(input.personId, input.plan);
    case 'moveSun':
      return input.localDate ? `Sun moved, date ${dayMonth(input.localDate)}.` : 'Sun moved.';
    case 'setSky':
      return `Sky: ${skyName[input.sky]}.`;
    case 'setBlind':
      return `Blind ${Math.round(input.closedShare * 100)} % closed.`;
    case 'setDoor':
      return input.open ? 'Door opened.' : 'Door closed.';
    case 'moveDetector':
      return 'Detector moved.';
    case 'setTemperature':
      return `Room at ${Math.round(input.airTemperatureC)} °C.`;
    case 'setWarmThing':
      return input.on ? 'A warm thing was switched on.' : 'A warm thing was switched off.';
    case 'moveFurniture':
      return 'Furniture moved.';
    case 'moveLuminaire':
      return 'A luminaire was moved.';
    case 'setLampKind':
      return `${rowName[input.row]}: other lamps, ${lampKindName[input.distribution]}.`;
    case 'setReflectance':
      return 'A surface was made lighter or darker.';
    case 'cleanPhotometers':
      return 'Light windows of the detector wiped clean.';
    case 'coverDetector':
      if (input.forS === 0) return 'The cloth taken off the detector.';
      return `A cloth over the detector for ${Math.round(input.forS)} s.`;
    case 'holdTorch':
      if (input.forS === 0) return 'The torch taken away.';
      return `A torch held to the detector from the ${input.side === 'window' ? 'window' : 'inner'} side for ${Math.round(input.forS)} s.`;
  }
}

/** One line that says what happened. */
export function eventSentence(event: TraceEvent, withReason = true): string {
  const because = (reason: Reason): string => (withReason ? ` ${reasonSentence(reason)}` : '');
  switch (event.kind) {
    case 'output':
      return `${outputName[event.output]} ${event.on ? 'on' : 'off'}.${because(event.reason)}`;
    case 'row':
      return `${rowName[event.row]}: ${stateName[event.to]}.${because(event.reason)}`;
    case 'air':
      return `Air contact: ${stateName[event.to]}.${because(event.reason)}`;
    case 'phase':
      return `Detector: ${phaseName[event.to]}.${because(event.reason)}`;
    case 'pulse':
      return event.counted ? 'Pulse, counted as movement.' : 'Pulse, not counted.';
    case 'seen':
      return event.by === 'extension' ? 'Movement reported by an extension detector.' : 'Movement seen.';
    case 'press':
      return `${buttonName[event.input]} press taken.`;
    case 'flag':
      return event.state === 'raised'
        ? `${buttonName[event.input]}: input stuck closed, ignored.`
        : `${buttonName[event.input]}: input open again.`;
    case 'note':
      return noteSentence(event.note, event.input ? buttonName[event.input] : null);
    case 'adaptiveDelay':
      return `Learned off-delay now ${minuteSecond(event.delayS)}.`;
    case 'crossing':
      return crossingSentence(event);
    case 'lampShare':
      return `${rowName[event.row]}: own lamps add ${luxText(event.shareLx)} to its desk estimate.`;
    case 'input':
      return inputSentence(event.input);
  }
}

function crossingSentence(event: Extract<TraceEvent, { kind: 'crossing' }>): string {
  const level = event.level === 'setpoint' ? 'setpoint' : 'release level';
  const estimate = luxBeside(event.estimateLx, event.limitLx);
  const way = event.rising ? 'rose past' : 'fell under';
  return `Daylight estimate of ${outputInSentence(event.row === 'inner' ? 'innerRow' : 'windowRow')} ${way} its ${level} of ${luxText(event.limitLx)} (${estimate}).`;
}

function noteSentence(note: Extract<TraceEvent, { kind: 'note' }>['note'], button: string | null): string {
  switch (note) {
    case 'dialIgnoredLocked':
      return 'Dial moved, ignored (locked).';
    case 'handHeldIgnoredLocked':
      return 'Hand-held setter ignored (locked).';
    case 'closureInGuardBand':
      return `${button ?? 'Button'}: closure too short for a press and too long for an extension pulse, ignored.`;
    case 'storedUntilRunning':
      return 'Stored; acts when the detector is running.';
    case 'ignoredOutsideRunning':
      return `${button ?? 'Input'} ignored: the detector is not running.`;
  }
}
