/** Words of the case notebook. */
import type { Test, Value } from '../../exercise/diagnose/types.ts';
import { luxText, minuteSecond } from './format.ts';
import { testName } from './marks.ts';
import { phaseName, stateName } from './names.ts';
import { settingChangeText } from './settings.ts';

export const notebookWords = {
  title: 'Case notebook',
  open: 'Case notebook',
  intro: 'Every case that was passed in this browser becomes a card. Nothing leaves this machine.',
  empty: 'No card yet. Hand in a job: once it is passed, its card stands here.',
  cards: (n: number): string => (n === 1 ? '1 card' : `${n} cards`),
  bench: (seed: number): string => `bench ${seed}`,
  total: (points: number): string => `${Math.round(points)} of 100`,
  print: 'Print',
  save: 'Save as text',
  close: 'Close',
  remove: (title: string): string => `Delete the card ${title}`,
  removeShort: 'Delete',
  kept: 'Its card stands in the case notebook.',
  notKept: 'This browser does not keep the card of this case; save the attempt as a file.',
  noJob: (id: string): string => `The job ${id} is not in this browser any more; open its file to read this card.`,
  heads: {
    complaint: 'Complaint',
    measured: 'What I measured',
    cause: 'Cause',
    proof: 'Proof',
    given: 'What was given',
    did: 'What the room did',
    why: 'Why',
  },
  offDelays: (inner: string, window: string, air: string): string =>
    `Off-delays: inner row ${inner}, window row ${window}, air contact ${air}`,
} as const;

/** Keys of readings whose name does not say what a person would. */
const KEY_NAMES: Record<string, string> = {
  deskLx: 'on the desk',
  ceilingLx: 'at the ceiling',
  ceilingReadingLx: 'ceiling reading',
  deskEstimateLx: 'desk estimate',
  daylightEstimateLx: 'daylight estimate',
  airC: 'air',
  timeS: 'time',
  agoS: 'ago',
  is: '',
  cameOn: 'came on',
  holds: 'complaint there',
};

/** States and phases that the hand-held setter shows. */
const SHOWN_NAMES: Record<string, string> = { ...phaseName, ...stateName };

function valueText(key: string, value: Value): string {
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'string') return SHOWN_NAMES[value] ?? value;
  if (value === null) return 'none';
  if (key.endsWith('Lx')) return luxText(value);
  if (key.endsWith('S')) return minuteSecond(value);
  return key === 'airC' ? `${Math.round(value)} °C` : String(value);
}

/** A reading that was kept, at its time of day. */
export function clipText(clock: string, test: Test, values: Record<string, Value>): string {
  if (test.instrument === 'settings') {
    // A list is kept as its text.
    const is = test.key === 'maskedSectors' ? (JSON.parse(String(values.is)) as number[]) : values.is;
    return `${clock}: ${settingChangeText(test.key, { [test.key]: is })}`;
  }
  const shown = Object.entries(values).map(([key, value]) =>
    `${KEY_NAMES[key] ?? key} ${valueText(key, value)}`.trim(),
  );
  return `${clock}: ${testName(test)}${shown.length > 0 ? `: ${shown.join(', ')}` : ''}`;
}
