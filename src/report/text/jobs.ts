/** Words of exercises: the Prediction Card, what is asked after the run, and the result. */

import type { CauseId, PredictLine, PredictSignature, PredictSignatureId } from '../../exercise/types.ts';
import { minuteSecond, spokenLength } from './format.ts';
import { outputName } from './names.ts';

export const jobWords = {
  head: (job: number, aid: string): string => `${job === 0 ? 'Own job' : `Job ${job} of 18`} · ${aid}`,
  aids: { guided: 'guided', practice: 'practice', test: 'test' },
  cards: {
    predict: 'Prediction Card',
    observe: 'Job Card',
    diagnose: 'Job Card',
    commission: 'Job Card',
    design: 'Job Card',
  },
  shortcuts: 'Shortcuts',
  toJob: 'To the job',
  toEdges: 'To the edges',
  bench: (bench: number): string => `Bench ${bench}`,
  room: (seed: number): string => `Room ${seed}`,
  preparing: 'Working out the movements to come…',
  given: 'both given',
  givenPulses: 'Pulses to come, by stretches of movement',
  firstPulse: 'first pulse',
  lastPulse: 'last pulse',
  pulses: 'pulses',
  givenEstimates: 'Daylight estimates to come',
  lockAndRun: 'Lock and run',
  edgesSet: (n: number): string => (n === 1 ? '1 edge set.' : `${n} edges set.`),
  lockNote: 'Locked edges stay on the Recorder beside what the room does.',
  pausedAt: (speed: number): string => `Paused · runs at ${speed}×`,
  addEdge: 'Add an edge',
  remove: 'Remove',
  editor: 'Edges',
  strip: 'Strip of what is given, with the edges foretold',
  none: 'no edge yet',
  startsOn: (on: boolean): string => (on ? 'begins on' : 'begins off'),
  steps: { backMinute: '−1 min', back: '−5 s', on: '+5 s', onMinute: '+1 min' },
  pulseBefore: 'Count from the pulse before',
  pulseAfter: 'Count from the pulse after',
  pulsePlus: 'this pulse plus the delay',
  pulseLine: (pulse: string, delay: string): string => `pulse ${pulse} + ${delay}`,
  noPulse: (delay: string): string => `no pulse ${delay} before it`,
  edge: (on: boolean, clock: string): string => `${on ? 'on' : 'off'} ${clock}`,
  delay: (text: string): string => `delay ${text}`,
  told: 'What will happen',
  setup: 'Set-up',
  setupLocked: 'locked in this job',
  columns: { setpoint: 'setpoint', release: 'release', offDelay: 'off-delay' },
  wait: (text: string): string => `on-delay ${text}`,
  dwell: 'Bright dwell of both rows',
  tolerance: (s: number): string =>
    `Full points within ${spokenLength(s)}, or a twentieth of the delay concerned if that is more. Half within three times as much.`,
  names: 'Who works here',
  name: (place: number): string => `Name ${place + 1}`,
  hint: (n: number): string => `Hint ${n} of 3`,
  running: 'The room runs. It stops by itself where the strip ends.',
  toTheEnd: 'To the end',
  seenHead: 'What did you see?',
  seenAsk: 'How often did each output switch since the start of the strip?',
  seenOf: (name: string): string => `${name} switched`,
  times: (n: number): string => (n === 1 ? '1 time' : `${n} times`),
  handIn: 'Hand in',
  marking: 'The room is played again to mark it…',
  result: 'Result',
  of100: 'of 100',
  passed: 'Enough for a pass.',
  notYet: (needed: number): string => `A pass needs ${needed}.`,
  sawRight: 'What you saw is what the Recorder holds.',
  sawWrong: (name: string, said: number, truly: number): string =>
    `${name}: you saw ${said === 1 ? '1 switching' : `${said} switchings`}, the Recorder holds ${truly}.`,
  show: 'show',
  why: 'Why did it switch then?',
  chooseCause: 'choose a cause',
  causeRight: 'That is the reason the controller gives.',
  causeWrong: (text: string): string => `The controller gives another reason: ${text}.`,
  save: 'Save attempt',
  stop: 'Stop for today',
  stopped: (file: string): string =>
    `Saved as ${file}. On any machine, Open a file takes the work up where it was left; this browser keeps it as well.`,
  copy: 'Copy as text',
  copied: 'Copied',
  copyFailed: 'This browser does not let the page use the clipboard.',
  again: 'Same room again',
  next: 'Next room',
  leave: 'Back to the stories',
  points: (points: number, of: number): string => `${points} of ${of}`,
  storage: 'This browser does not keep the attempt; save it as a file before you leave.',
} as const;

export const causeName: Record<CauseId, string> = {
  seen: 'someone was seen and it was dark enough',
  delayFromLastPulse: 'its off-delay ran out after the last pulse',
  brightForDwell: 'it stayed bright for the bright dwell',
  darkForDwell: 'it stayed dark for the dark dwell',
  onDelay: 'its on-delay was over',
  presenceOnly: 'nobody was seen for its off-delay; light does not matter to it',
  button: 'its button was pressed',
  supply: 'the supply or the start-up did it',
};

const onOff = (on: boolean): string => (on ? 'on' : 'off');

/** One line for points won or lost. `clock` turns seconds of the story into a time of day. */
export function markLineText(say: PredictLine, clock: (s: number) => string): string {
  const name = outputName[say.output];
  switch (say.code) {
    case 'edgeRight':
      return `${name} ${onOff(say.on)} at ${clock(say.trueS)}: you said ${clock(say.saidS)}.`;
    case 'edgeNear':
      return `${name} ${onOff(say.on)} at ${clock(say.trueS)}: you said ${clock(say.saidS)}; full points within ${minuteSecond(say.toleranceS)}.`;
    case 'edgeWrong':
      return say.saidS === null
        ? `${name} ${onOff(say.on)} at ${clock(say.trueS)}: not foretold.`
        : `${name} ${onOff(say.on)} at ${clock(say.trueS)}: you said ${clock(say.saidS)}.`;
    case 'edgeExtra':
      return `${name} ${onOff(say.on)} at ${clock(say.saidS)} was foretold; it did not switch.`;
  }
}

/** Four short parts: you did, the room did, because, try next. */
export function signatureText(signature: PredictSignature, clock: (s: number) => string): string {
  const name = outputName[signature.output];
  const at = signature.atS === null ? '' : clock(signature.atS);
  const said = signature.saidS === null ? '' : clock(signature.saidS);
  const texts: Record<PredictSignatureId, string> = {
    delayFromEntering: `You counted ${minuteSecond(signature.delayS)} from coming in and set ${said}. The last pulse came at ${at}. Each pulse starts the delay anew. Next: find the last pulse before the edge.`,
    peopleNotMovement: `You left ${name} on. It went off although somebody was there: the last pulse before came at ${at}. It sees movement, not people. Next: look for gaps longer than ${minuteSecond(signature.delayS)}.`,
    brightAtOnce: `You set ${said}. The daylight estimate passed its line at ${at}. It must stay above for ${minuteSecond(signature.delayS)} first. Next: add the bright dwell to the crossing.`,
    daylightStopsFan: `You set ${name} off at ${said}. A row was released by daylight then. The air contact asks for presence only. Next: look at the pulses alone for it.`,
  };
  return texts[signature.id];
}
