import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { strFromU8, unzipSync } from 'fflate';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { ROOT } from '../../src/cli/files.ts';
import { scorm } from '../../src/cli/scorm.ts';
import { leadingOn, manifestXml } from '../../src/cli/scormManifest.ts';

const ID = 'after-the-meeting';

let dist = '';
let out = '';
let err = '';
const { stdout, stderr } = process;
const write = { out: stdout.write, err: stderr.write };

function built(name: string, text: string): void {
  mkdirSync(join(dist, name, '..'), { recursive: true });
  writeFileSync(join(dist, name), text);
}

beforeEach(() => {
  dist = mkdtempSync(join(tmpdir(), 'halflit-scorm-'));
  built('index.html', '<script src="./assets/page-1.js"></script>');
  built('assets/page-1.js', `"../scenarios/exercises/${ID}.json"`);
  built('assets/type-2.woff2', 'type');
  built('halflit.html', 'the one-file page');
  built('schema/story.schema.json', '{}');
  out = '';
  err = '';
  stdout.write = ((chunk: string) => {
    out += chunk;
    return true;
  }) as typeof stdout.write;
  stderr.write = ((chunk: string) => {
    err += chunk;
    return true;
  }) as typeof stderr.write;
});

afterEach(() => {
  stdout.write = write.out;
  stderr.write = write.err;
  rmSync(dist, { recursive: true });
});

/** Files of a package made with these words, by path; the exercise is the bundled one unless its name comes first. */
function packed(name: string, ...words: string[]): { bytes: Uint8Array; files: Record<string, string> } {
  const path = join(dist, name);
  const named = words[0]?.startsWith('--') || words.length === 0 ? [ID] : [];
  expect(scorm([...named, ...words, '--out', path], dist)).toBe(0);
  const bytes = new Uint8Array(readFileSync(path));
  rmSync(path);
  const files = Object.entries(unzipSync(bytes)).map(([file, text]) => [file, strFromU8(text)] as const);
  return { bytes, files: Object.fromEntries(files) };
}

interface Element {
  name: string;
  attributes: Record<string, string>;
  text: string;
  within: string;
}

/** Elements in order; throws where the text is not well formed. Enough of XML for a manifest: no comments, no CDATA. */
function elementsOf(xml: string): Element[] {
  const body = xml.replace(/^<\?xml version="1\.0" encoding="UTF-8"\?>\s*/, '');
  const open: Element[] = [];
  const all: Element[] = [];
  const entities = /&(?!(?:amp|lt|gt|quot);)/;
  let at = 0;
  for (const tag of body.matchAll(/<(\/?)([\w:.-]+)((?:\s+[\w:.-]+="[^"<]*")*)\s*(\/?)>/g)) {
    const between = body.slice(at, tag.index);
    at = tag.index + tag[0].length;
    if (/[<>]/.test(between) || entities.test(between + tag[3])) throw new Error(`not well formed before ${tag[0]}`);
    if (between.trim() !== '') open.at(-1)!.text += between;
    if (tag[1] === '/') {
      if (open.pop()?.name !== tag[2]) throw new Error(`${tag[0]} closes nothing`);
      continue;
    }
    const attributes = [...tag[3]!.matchAll(/([\w:.-]+)="([^"]*)"/g)].map((a) => [a[1]!, a[2]!] as const);
    if (new Set(attributes.map(([name]) => name)).size < attributes.length) throw new Error(`${tag[0]} says twice`);
    const element = {
      name: tag[2]!,
      attributes: Object.fromEntries(attributes),
      text: '',
      within: open.at(-1)?.name ?? '',
    };
    all.push(element);
    if (tag[4] !== '/') open.push(element);
  }
  if (open.length > 0 || body.slice(at).trim() !== '') throw new Error('the text breaks off');
  return all;
}

describe('a package for a learning platform', () => {
  it('holds the built page without what a page never asks for, a start page and a manifest', () => {
    const { files } = packed('a.zip');
    expect(Object.keys(files)).toEqual([
      'imsmanifest.xml',
      'assets/page-1.js',
      'assets/type-2.woff2',
      'index.html',
      'start.html',
    ]);
    expect(out).toMatch(/a\.zip: after-the-meeting, bench 1, practice, \d+ kB\n$/);
  });

  it('names every file that it holds, and none else, in a manifest that is well formed', () => {
    const { files } = packed('a.zip');
    const elements = elementsOf(files['imsmanifest.xml']!);
    const listed = elements.filter(({ name }) => name === 'file').map(({ attributes }) => attributes.href!);
    expect([...listed].sort()).toEqual(
      Object.keys(files)
        .filter((name) => name !== 'imsmanifest.xml')
        .sort(),
    );
  });

  it('is a SCORM 1.2 package of one object that a platform starts, with the titles of the job', () => {
    const elements = elementsOf(packed('a.zip').files['imsmanifest.xml']!);
    const one = (name: string): Element => {
      const found = elements.filter((element) => element.name === name);
      expect(found).toHaveLength(1);
      return found[0]!;
    };
    expect([one('schema').text, one('schemaversion').text]).toEqual(['ADL SCORM', '1.2']);
    expect(one('manifest').attributes).toMatchObject({
      xmlns: 'http://www.imsproject.org/xsd/imscp_rootv1p1p2',
      'xmlns:adlcp': 'http://www.adlnet.org/xsd/adlcp_rootv1p2',
    });
    const resource = one('resource').attributes;
    expect(resource).toMatchObject({ type: 'webcontent', 'adlcp:scormtype': 'sco', href: 'start.html' });
    expect(one('item').attributes.identifierref).toBe(resource.identifier);
    expect(one('organizations').attributes.default).toBe(one('organization').attributes.identifier);
    const titles = elements.filter(({ name }) => name === 'title');
    expect(titles.map(({ within, text }) => [within, text])).toEqual([
      ['organization', 'Halflit: After the meeting'],
      ['item', 'Halflit: After the meeting'],
    ]);
    // Identifiers of one document are names of their own. Source: XML, types ID and NCName.
    const ids = elements.flatMap(({ attributes }) => attributes.identifier ?? []);
    expect(new Set(ids).size).toBe(ids.length);
    for (const id of ids) expect(id).toMatch(/^[A-Za-z_][\w.-]*$/);
    // A platform would pass whoever has the points, although a job may ask for more.
    expect(elements.some(({ name }) => name === 'adlcp:masteryscore')).toBe(false);
  });

  it('starts the job on its bench, at its level', () => {
    const { files } = packed('a.zip', '--bench', '17', '--level', 'test');
    expect(files['start.html']).toContain(`url=index.html#job=${ID}&amp;seed=17&amp;aid=test"`);
    // A browser that finds no icon in a page asks the package for one, which it does not hold.
    expect(files['start.html']).toContain('<link rel="icon"');
    const elements = elementsOf(files['imsmanifest.xml']!);
    expect(elements[0]!.attributes.identifier).toBe(`halflit-${ID}-17-test`);
  });

  it("takes a job of one's own along in a file that its page reads, whatever the built page knows", () => {
    const own = join(dist, 'mine.json');
    const bundled = JSON.parse(readFileSync(join(ROOT, `scenarios/exercises/${ID}.json`), 'utf8')) as object;
    const text = JSON.stringify({ ...bundled, id: 'own-mine', job: 0, title: 'Mine' });
    writeFileSync(own, text);
    const { files } = packed('a.zip', own, '--bench', '4', '--level', 'test');
    expect(files['jobs/own-mine.json']).toBe(text);
    expect(files['start.html']).toContain('url=index.html?own=own-mine#job=own-mine&amp;seed=4&amp;aid=test"');
    const elements = elementsOf(files['imsmanifest.xml']!);
    expect(elements[0]!.attributes.identifier).toBe('halflit-own-mine-4-test');
    expect(elements.some(({ attributes }) => attributes.href === 'jobs/own-mine.json')).toBe(true);
    // A bundled job needs no file: nothing is fetched for it.
    expect(Object.keys(packed('b.zip').files).filter((name) => name.startsWith('jobs/'))).toEqual([]);
    writeFileSync(own, text.replace('"Mine"', '""'));
    expect(scorm([own, '--out', join(dist, 'c.zip')], dist)).toBe(1);
    expect(err).toMatch(/mine\.json: title must be text of 1 to 60 characters/);
  });

  it('is the same to the byte when it is made again another day', () => {
    vi.useFakeTimers({ now: new Date(2031, 4, 6) });
    const first = packed('a.zip').bytes;
    vi.setSystemTime(new Date(2032, 7, 9));
    const again = packed('b.zip').bytes;
    vi.useRealTimers();
    expect(again).toEqual(first);
  });

  it('says a title with any character, and a path, so that they can be read back', () => {
    const title = 'Rows & "fans" <of> ours';
    const xml = manifestXml({ id: 'x', title, start: 'a&b.html', files: ['a&b.html'] });
    const elements = elementsOf(xml);
    expect(elements.filter(({ name }) => name === 'title').map(({ text }) => text)).toEqual(
      Array(2).fill('Rows &amp; &quot;fans&quot; &lt;of&gt; ours'),
    );
    expect(elements.find(({ name }) => name === 'file')!.attributes.href).toBe('a&amp;b.html');
    expect(leadingOn(title, 'i.html#a=1&b=2')).toContain('<a href="i.html#a=1&amp;b=2">Rows &amp;');
    expect(() => elementsOf(xml.replace('&amp;', '&'))).toThrow();
    expect(() => elementsOf(xml.replace('</item>', ''))).toThrow();
  });
});

describe('the verb scorm', () => {
  it.each([
    ['no exercise', [], /^Expected one EXERCISE/],
    ['two exercises', [ID, ID], /^Expected one EXERCISE/],
    [
      'an unknown exercise',
      ['nowhere'],
      /^nowhere: expected an exercise in scenarios\/exercises \(after-the-meeting, /,
    ],
    ['a bad bench', [ID, '--bench', '1.5'], /^--bench expects a whole number .* but is "1\.5"/],
    ['a bad level', [ID, '--level', 'hard'], /^--level expects one of guided, practice, test, but is "hard"/],
    ['an unknown option', [ID, '--fast'], /^--fast is not an option here/],
    ['a place that cannot be written', [ID, '--out', '/nowhere/x.zip'], /^\/nowhere\/x\.zip: expected a file/],
  ])('given %s says so in a sentence and exits 1', (_, words, sentence) => {
    expect(scorm(words, dist)).toBe(1);
    expect(err).toMatch(sentence);
    expect(err.trim().split('\n')).toHaveLength(1);
    expect(out).toBe('');
  });

  it.each([
    ['there is no built page', 'index.html', /^There is no built page in dist\/ yet: run npm run build first\.\n$/],
    [
      'the built page is older than the exercise',
      'assets/page-1.js',
      /does not know after-the-meeting: run npm run build again\.\n$/,
    ],
  ])('says what to do where %s', (_, missing, sentence) => {
    rmSync(join(dist, missing));
    expect(scorm([ID, '--out', join(dist, 'a.zip')], dist)).toBe(1);
    expect(err).toMatch(sentence);
  });
});
