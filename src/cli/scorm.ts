/** scorm: one exercise on one bench as a package for a learning platform (SCORM 1.2): the built page and its manifest. */
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { strToU8, type Zippable, zipSync } from 'fflate';
import type { Aid } from '../exercise/types.ts';
import type { Parsed } from '../scenario/parse.ts';
import { readArgs } from './args.ts';
import { exerciseNamed, type NamedExercise } from './exercises.ts';
import { diskLibrary, ROOT } from './files.ts';
import { leadingOn, manifestXml } from './scormManifest.ts';
import { complain } from './stories.ts';

const AIDS: readonly string[] = ['guided', 'practice', 'test'] satisfies Aid[];
/** Highest bench. Source: a seed is a whole number of 32 bits. */
const LAST_BENCH = 0xffffffff;
/** Of the build, what the page never asks for: the one-file page, and the shapes for editors. */
const LEFT_OUT = /^(halflit\.html|schema\/)/;
const START = 'start.html';
/** The same day for every file, so that the same build gives the same bytes. Source: the first day that a zip can name. */
const ZIP_DAY = new Date(1980, 0, 1);

export interface PackageOrder extends NamedExercise {
  bench: number;
  aid: Aid;
}

/** Files of the built page by their path, in order. */
function builtFiles(dist: string): Map<string, Uint8Array> {
  const entries = readdirSync(dist, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  const paths = entries.map((entry) => join(entry.parentPath, entry.name));
  const named = paths.map((path) => [relative(dist, path).replaceAll('\\', '/'), path] as const);
  const wanted = named.filter(([name]) => !LEFT_OUT.test(name)).sort(([a], [b]) => (a < b ? -1 : 1));
  return new Map(wanted.map(([name, path]) => [name, new Uint8Array(readFileSync(path))]));
}

/** Whether the page was built with this exercise among its files. */
function knows(files: ReadonlyMap<string, Uint8Array>, id: string): boolean {
  const scripts = [...files].filter(([name]) => name.endsWith('.js'));
  return scripts.some(([, bytes]) => Buffer.from(bytes).includes(`exercises/${id}.json`));
}

/** The package as bytes. `dist`: folder of the built page. */
export function scormPackage({ exercise, ownText, bench, aid }: PackageOrder, dist: string): Parsed<Uint8Array> {
  if (!existsSync(join(dist, 'index.html')))
    return { ok: false, sentences: ['There is no built page in dist/ yet: run npm run build first.'] };
  const files = builtFiles(dist);
  if (ownText === null && !knows(files, exercise.id))
    return { ok: false, sentences: [`The built page in dist/ does not know ${exercise.id}: run npm run build again.`] };
  const { id } = exercise;
  const title = `Halflit: ${exercise.title}`;
  // A job of one's own lies beside the page, which is told to read it.
  if (ownText !== null) files.set(`jobs/${id}.json`, strToU8(ownText));
  const page = ownText === null ? 'index.html' : `index.html?own=${id}`;
  files.set(START, strToU8(leadingOn(title, `${page}#job=${id}&seed=${bench}&aid=${aid}`)));
  const contents = { id: `halflit-${id}-${bench}-${aid}`, title, start: START, files: [...files.keys()] };
  const zipped: Zippable = { 'imsmanifest.xml': strToU8(manifestXml(contents)), ...Object.fromEntries(files) };
  return { ok: true, value: zipSync(zipped, { level: 9, mtime: ZIP_DAY }) };
}

function readOrder(name: string, values: ReadonlyMap<string, string>): Parsed<PackageOrder> {
  const named = exerciseNamed(name, diskLibrary());
  if (!named.ok) return named;
  const bench = Number(values.get('bench') ?? 1);
  if (!Number.isInteger(bench) || bench < 0 || bench > LAST_BENCH) {
    const sentence = `--bench expects a whole number from 0 to ${LAST_BENCH}, but is "${values.get('bench')}".`;
    return { ok: false, sentences: [sentence] };
  }
  const aid = values.get('level') ?? named.value.exercise.aid;
  if (!AIDS.includes(aid))
    return { ok: false, sentences: [`--level expects one of ${AIDS.join(', ')}, but is "${aid}".`] };
  return { ok: true, value: { ...named.value, bench, aid: aid as Aid } };
}

/** `dist`: see `scormPackage`. */
export function scorm(words: string[], dist = join(ROOT, 'dist')): number {
  const read = readArgs(words, ['bench', 'level', 'out'], []);
  if (!read.ok) {
    complain([read.sentence]);
    return 1;
  }
  const { plain, values } = read.args;
  const [name] = plain;
  if (name === undefined || plain.length > 1) {
    complain([
      'Expected one EXERCISE: the id of a bundled exercise, such as after-the-meeting, or the path of a file.',
    ]);
    return 1;
  }
  const order = readOrder(name, values);
  const made = order.ok ? scormPackage(order.value, dist) : order;
  if (!order.ok || !made.ok) {
    complain(made.ok ? [] : made.sentences);
    return 1;
  }
  const { bench, aid, exercise } = order.value;
  const { id } = exercise;
  const out = values.get('out') ?? `${id}-bench-${bench}.zip`;
  try {
    writeFileSync(out, made.value);
  } catch {
    complain([`${out}: expected a file that can be written, but it cannot.`]);
    return 1;
  }
  process.stdout.write(`${out}: ${id}, bench ${bench}, ${aid}, ${Math.round(made.value.length / 1000)} kB\n`);
  return 0;
}
