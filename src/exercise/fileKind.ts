/** Which kind of file a text is, so that its own reader may say what is wrong with it. */

const SEALED = ['attempt', 'assessment'] as const;
export type FileKind = (typeof SEALED)[number] | 'exercise' | 'story';

/** All but stories name their kind. A text that breaks off is told by its beginning. */
export function fileKindOf(text: string): FileKind {
  try {
    const kind = (JSON.parse(text) as { kind?: unknown } | null)?.kind;
    if (kind === undefined) return 'story';
    return SEALED.find((one) => one === kind) ?? 'exercise';
  } catch {
    return SEALED.find((one) => new RegExp(`^\\s*\\{\\s*"kind"\\s*:\\s*"${one}"`).test(text)) ?? 'story';
  }
}
