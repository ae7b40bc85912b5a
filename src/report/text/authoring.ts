/** Words of making a job of one's own: the recording, the sheet that asks for the rest, and its proofs. */
import type { Input } from '../../engine/types.ts';
import type { ProofResult } from '../../exercise/types.ts';
import { inputSentence } from './events.ts';

/** Longest line that tells what will happen, characters. Source: the schema of exercises. */
const TOLD_LENGTH = 80;

export const authoringWords = {
  head: 'Make a job of your own',
  intro:
    'Go to the instant where the question begins and record what you do: people, sun, sky, doors, buttons, settings. What you did before belongs to the room as well.',
  record: 'Record a job',
  notInJob: 'A job is made from a story. Open a story first.',
  recordingSince: (clock: string): string => `A job is being recorded since ${clock}.`,
  recordingNote: 'Do what shall happen, and let the room run as far as the question goes.',
  stop: 'Stop here',
  giveUp: 'Give up',
  tooShort: 'Nothing has passed since the recording began. Let the room run on first.',
  title: 'Your job',
  close: 'Back to the recording',
  kind: 'Kind of job: a prediction. The learner sees the movements to come and says what will switch, and when.',
  fields: { title: 'Title', question: 'Question, at most nine words', brief: 'Brief' },
  question: 'What will switch, and when?',
  brief: 'What will be done is told below. Say for each output when it will switch until the end of the strip.',
  window: 'The strip',
  begins: 'Begins',
  ends: 'Ends',
  outputs: 'Outputs asked for',
  tolerance: 'Full points within',
  aid: 'Level of aid',
  told: 'Told in advance',
  toldNote: 'What you did in the strip. Change the words, or take out what the learner is to find out.',
  toldLine: (n: number): string => `Line ${n}`,
  toldTime: 'time',
  remove: 'Take out',
  addLine: 'Add a line',
  hints: 'Three hints: where to look, what to compare, a worked step on another case',
  hint: (n: number): string => `Hint ${n}`,
  firstHints: [
    'Look at the last pulse before an output could switch, and at the daylight estimate of its row.',
    'Compare the time since then with the delay or the dwell in the set-up.',
    'In another room the off-delay was 5:00 and the last pulse came at 10:02:00: the row went off at 10:07:00. A pulse at 10:06:00 would have made it 10:11:00.',
  ] as [string, string, string],
  delays: 'Off-delays that benches differ in (none: all have the one of the story)',
  prove: 'Keep and prove',
  proving: (done: number, of: number): string => `The room is played: bench ${done + 1} of ${of}`,
  save: 'Save as a file',
  open: 'Open the job',
  proofs: 'Proofs',
  proved: 'Proved on every bench tried. The job stands among the jobs of this browser.',
  notProved: 'Kept, but not every proof holds. Change the strip, the outputs or the tolerance and prove again.',
  handOut:
    'Class codes stand for the jobs that came with Halflit. Hand out this one as a file: learners open it with Open a file. For a learning platform: npm run sim -- scorm FILE.json.',
  tray: 'To mark their attempts, drop the file of the job into the Class Tray together with them.',
  bench: 'Bench',
  proof: 'Proof',
  result: 'Result',
} as const;

/** A recorded act as a line for the learner. */
export function toldText(input: Input): string {
  return inputSentence(input).replace(/\.$/, '').slice(0, TOLD_LENGTH);
}

/** Why a proof does not hold, and what an author can do about it. */
export function proofText({ proof, fault }: ProofResult): string {
  if (fault === null) return 'holds';
  if (proof === 'doing nothing fails')
    return 'Nothing switches in this strip: let it last longer, or ask for another output.';
  if (proof.endsWith('random answers fail')) return `${fault}: ask for more outputs, or make the tolerance smaller.`;
  return `does not hold: ${fault}`;
}
