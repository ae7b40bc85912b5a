/** One sentence per fault of a file: which file, which path in it, what was expected, what was found. */
import type * as z from 'zod/mini';

type Issue = z.core.$ZodIssue;
type Path = readonly PropertyKey[];

/** Most sentences reported for one file. Assumed: after a dozen a person repairs and loads again. */
const MAX_SENTENCES = 12;
/** Characters of a found value that are quoted. Assumed: enough to recognise it. */
const QUOTED = 40;

/** people[0].plan[2].toM, as an editor's outline writes it. */
export function pathText(path: Path): string {
  return path.reduce<string>(
    (text, key) => (typeof key === 'number' ? `${text}[${key}]` : text === '' ? String(key) : `${text}.${String(key)}`),
    '',
  );
}

function valueAt(value: unknown, path: Path): unknown {
  return path.reduce<unknown>(
    (inner, key) =>
      typeof inner === 'object' && inner !== null ? (inner as Record<PropertyKey, unknown>)[key] : undefined,
    value,
  );
}

function quoted(value: unknown): string {
  const text = JSON.stringify(value) ?? 'nothing';
  return text.length > QUOTED ? `${text.slice(0, QUOTED)}…` : text;
}

/** `expected` is a noun phrase ("a number from 10 to 1000 lx"); `found` undefined means that the key is missing. */
export function sentence(fileName: string, path: Path, expected: string, found: unknown): string {
  const where = pathText(path);
  if (found === undefined) return `${fileName}: ${where} is missing; expected ${expected}.`;
  return `${fileName}: ${where === '' ? 'the file' : where} must be ${expected}, but is ${quoted(found)}.`;
}

/** In a union, the branch that was meant: the one that got past its own type. */
function meantBranch(issue: Issue): Issue[] | null {
  if (issue.code !== 'invalid_union') return null;
  const meant = issue.errors.filter((branch) => !branch.some((inner) => inner.path.length === 0 && isTypeIssue(inner)));
  const fewest = [...meant].sort((a, b) => countOf(a) - countOf(b))[0];
  return fewest ?? null;
}

function isTypeIssue(issue: Issue): boolean {
  return issue.code === 'invalid_type' || issue.code === 'invalid_value';
}

function countOf(branch: readonly Issue[]): number {
  return branch.reduce((n, issue) => n + (issue.code === 'unrecognized_keys' ? issue.keys.length : 1), 0);
}

function sentencesOf(fileName: string, whole: unknown, issue: Issue, base: Path): string[] {
  const path = [...base, ...issue.path];
  const branch = meantBranch(issue);
  if (branch) return branch.flatMap((inner) => sentencesOf(fileName, whole, inner, path));
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map(
      (key) => `${fileName}: ${pathText([...path, key])} is not a known key; expected ${issue.message}.`,
    );
  }
  return [sentence(fileName, path, issue.message, valueAt(whole, path))];
}

/** `base` is where the checked value sits in the file (empty: it is the file). */
export function issueSentences(fileName: string, whole: unknown, issues: readonly Issue[]): string[] {
  const all = issues.flatMap((issue) => sentencesOf(fileName, whole, issue, []));
  const unique = [...new Set(all)];
  if (unique.length <= MAX_SENTENCES) return unique;
  const rest = unique.length - MAX_SENTENCES;
  return [...unique.slice(0, MAX_SENTENCES), `${fileName}: ${rest} more of its paths are not as expected.`];
}
