/** Words with readings in braces: {clock}, {lastSeen + innerOffDelayS}, {next.clock - clock}. */
import type { ExampleOption, ExampleStep, Fact } from './types.ts';

interface Term {
  sign: 1 | -1;
  name: string;
}

export type Piece = string | Term[];

const BRACES = /\{([^{}]*)\}/;
const SUM = /^\s*[\w.-]+(\s+[+-]\s+[\w.-]+)*\s*$/;

function termsOf(inside: string): Term[] | null {
  if (!SUM.test(inside)) return null;
  const words = inside.trim().split(/\s+/);
  return words.flatMap((name, i) => (i % 2 === 1 ? [] : [{ sign: words[i - 1] === '-' ? -1 : 1, name }]));
}

/** Null: braces that do not close, or hold anything but names and sums of names. */
export function piecesOf(text: string): Piece[] | null {
  const pieces: Piece[] = [];
  let rest = text;
  for (let found = BRACES.exec(rest); found; found = BRACES.exec(rest)) {
    const terms = termsOf(found[1]!);
    if (!terms) return null;
    pieces.push(rest.slice(0, found.index), terms);
    rest = rest.slice(found.index + found[0].length);
  }
  pieces.push(rest);
  return pieces.some((piece) => typeof piece === 'string' && /[{}]/.test(piece)) ? null : pieces;
}

export function namesIn(text: string): string[] {
  return (piecesOf(text) ?? []).flatMap((piece) => (typeof piece === 'string' ? [] : piece.map(({ name }) => name)));
}

export function feedbackOf({ did, room, because, next }: ExampleOption): string[] {
  return [did, room, because, next];
}

/** All texts of a step, with the keys that lead to them in the file. */
export function textsOf({ say, stop }: ExampleStep): { at: (string | number)[]; text: string }[] {
  const options = (stop?.options ?? []).flatMap((option, i) =>
    (['say', 'did', 'room', 'because', 'next'] as const).map((key) => ({
      at: ['stop', 'options', i, key],
      text: option[key],
    })),
  );
  return [{ at: ['say'], text: say }, ...(stop ? [{ at: ['stop', 'question'], text: stop.question }] : []), ...options];
}

/** Seconds of a fact that can be added to another; null: it is no time. */
function secondsOf(fact: Fact): number | null {
  if (fact.is === 'clock' || fact.is === 'length') return fact.s;
  return fact.is === 'setting' && fact.key.endsWith('S') && typeof fact.value === 'number' ? fact.value : null;
}

/** One reading as it is; a sum of times is a clock when the clocks in it do not cancel out. Null: it cannot be told. */
export function factOf(terms: readonly Term[], facts: Readonly<Record<string, Fact>>): Fact | null {
  const first = facts[terms[0]?.name ?? ''];
  if (!first) return null;
  if (terms.length === 1) return first;
  let s = 0;
  let clocks = 0;
  for (const { sign, name } of terms) {
    const fact = facts[name];
    const own = fact ? secondsOf(fact) : null;
    if (own === null) return null;
    s += sign * own;
    if (fact?.is === 'clock') clocks += sign;
  }
  if (clocks === 1) return { is: 'clock', s };
  return clocks === 0 ? { is: 'length', s } : null;
}

/** Words of a text; a reading counts as two. */
export function wordsIn(text: string): number {
  return text
    .replace(/\{[^{}]*\}/g, 'one two')
    .split(/\s+/)
    .filter((word) => word !== '').length;
}
