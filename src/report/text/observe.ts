/** Words of jobs in which a record is read: what is asked, the tags, the result. */
import type { RatioLine, RatioSignature, TagLine, TagSignature } from '../../exercise/observe/types.ts';
import { luxText, minuteSecond } from './format.ts';
import { causeName } from './jobs.ts';
import { outputName, rowName } from './names.ts';

export const observeWords = {
  preparing: 'The record is being made…',
  head: 'Tag a switching',
  how: 'Go to a switching, name output and reason, tag it. Two seconds off still counts.',
  output: 'Output',
  cause: 'Reason',
  chooseCause: 'choose a reason',
  tag: 'Tag this instant',
  tags: 'Your tags',
  count: (n: number, of: number): string => `${n} of ${of} tagged`,
  remove: (what: string): string => `Remove the tag ${what}`,
  removeShort: 'remove',
  tagAt: (clock: string, output: string): string => `${clock} ${output}`,
  readings: 'Readings',
  readHow: 'Choose a desk to lay the meter on it; the ceiling reading of its row is taken at the same instant.',
  read: (desk: string): string => `Read ${desk}`,
  columns: { desk: 'desk', deskLx: 'on the desk', ceilingLx: 'ceiling reading' },
  notRead: 'not read',
  ratios: 'Desk light over ceiling reading',
  keyIsReadings: 'no fixed key: each ratio is worked out from the readings of the bench',
  beyond: 'The record ends before this instant.',
} as const;

const onOff = (on: boolean): string => (on ? 'on' : 'off');

/** One line for points won or lost. `clock` turns seconds of the story into a time of day. */
export function tagLineText(say: TagLine, clock: (s: number) => string): string {
  const name = outputName[say.output];
  if (say.code === 'nothingThere') return `${name} was tagged at ${clock(say.saidS)}; it does not switch then.`;
  const what = `${name} ${onOff(say.on)} at ${clock(say.trueS)}`;
  const because = causeName[say.cause];
  switch (say.code) {
    case 'tagRight':
      return `${what}: ${because}.`;
    case 'tagOtherCause':
      return `${what}: you said that ${causeName[say.said]}. The controller switches because ${because}.`;
    case 'notTagged':
      return `${what}: not tagged. ${because[0]!.toUpperCase()}${because.slice(1)}.`;
  }
}

/** Four short parts: you did, the room did, because, try next. */
export function tagBelief(signature: TagSignature, clock: (s: number) => string): string {
  const name = outputName[signature.output];
  const at = clock(signature.atS);
  const delay = minuteSecond(signature.delayS);
  const texts: Record<TagSignature['id'], string> = {
    rowOffNobodySeen: `You put ${name} off down to nobody being seen. At ${at} pulses still come, and the other row stays on with them. This row had been bright for ${delay}. Next: look at the pulses before a row goes off.`,
    fanFollowsLight: `You gave ${name} a reason with light in it. At ${at} it switches on presence alone, after its own delay. Next: compare it with the pulses, not with the daylight estimate.`,
    crossingSwitches: `You tagged ${name} at ${at}, where the daylight estimate passes a level. The row does not switch there: the light must stay so for the bright dwell. Next: look one dwell later.`,
  };
  return texts[signature.id];
}

const twice = (ratio: number): string => ratio.toFixed(2);

/** One line for a ratio. */
export function ratioLineText(say: RatioLine): string {
  const name = rowName[say.row];
  switch (say.code) {
    case 'ratioSaid':
      return `${name}: ${luxText(say.deskLx)} on its desks over a ceiling reading of ${luxText(say.ceilingLx)} is ${twice(say.ratio)}; you said ${twice(say.said)}.`;
    case 'ratioMissing':
      return `${name}: your readings give ${twice(say.ratio)}; no ratio was said.`;
    case 'desksNotRead':
      return `${name}: ${say.read} of its ${say.of} desks were read. Next: a ratio needs a reading on each desk of the row.`;
  }
}

/** Four short parts: you did, the room did, because, try next. */
export function ratioBelief({ id, row }: RatioSignature): string {
  const name = rowName[row];
  const texts: Record<RatioSignature['id'], string> = {
    ratioUpsideDown: `You divided the ceiling reading of ${name} by its desk light. The desk has more light than the ceiling sends back, so the ratio is above one. Next: desk light first, ceiling reading below the line.`,
    oneRatioForAll: `You gave ${name} the ratio of the other row. Its desks stand elsewhere under the windows, and its light window looks at other surfaces. Next: divide the readings of each row by themselves.`,
  };
  return texts[id];
}
