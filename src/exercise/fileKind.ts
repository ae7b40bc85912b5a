/** Which kind of file a text is, so that its own reader may say what is wrong with it. */

export type FileKind = 'attempt' | 'exercise' | 'story';

/** Attempts and exercises name their kind, stories do not. A text that breaks off is told by its beginning. */
export function fileKindOf(text: string): FileKind {
  try {
    const kind = (JSON.parse(text) as { kind?: unknown } | null)?.kind;
    if (kind === 'attempt') return 'attempt';
    return kind === undefined ? 'story' : 'exercise';
  } catch {
    return /^\s*\{\s*"kind"\s*:\s*"attempt"/.test(text) ? 'attempt' : 'story';
  }
}
