/** Reading the words after a verb: plain ones in order, --names with or without a value. */

export interface Args {
  plain: string[];
  values: Map<string, string>;
  flags: Set<string>;
}

export type ReadArgs = { ok: true; args: Args } | { ok: false; sentence: string };

/** `withValue` and `flags` are the names that the verb knows, without their dashes. */
export function readArgs(words: readonly string[], withValue: readonly string[], flags: readonly string[]): ReadArgs {
  const args: Args = { plain: [], values: new Map(), flags: new Set() };
  const known = [...withValue, ...flags].map((name) => `--${name}`).join(', ') || 'none';
  for (let i = 0; i < words.length; i++) {
    const word = words[i]!;
    if (!word.startsWith('--')) {
      args.plain.push(word);
      continue;
    }
    const [name = '', inline] = word.slice(2).split('=', 2);
    if (flags.includes(name)) args.flags.add(name);
    else if (withValue.includes(name)) {
      const value = inline ?? words[++i];
      if (value === undefined) return { ok: false, sentence: `--${name} expects a value after it.` };
      args.values.set(name, value);
    } else return { ok: false, sentence: `${word} is not an option here; expected one of ${known}.` };
  }
  return { ok: true, args };
}

/** "90", "90s", "5m", "2h", "1h30m" as seconds; null when it is none of these. */
export function durationS(text: string): number | null {
  if (/^\d+(\.\d+)?$/.test(text)) return Number(text);
  const match = /^(?:(\d+)h)?(?:(\d+)m)?(?:(\d+(?:\.\d+)?)s)?$/.exec(text);
  if (!match || text === '') return null;
  const [, h = '0', m = '0', s = '0'] = match;
  return Number(h) * 3600 + Number(m) * 60 + Number(s);
}
