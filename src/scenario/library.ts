/** The files that stories refer to, as texts by path under scenarios/. Who reads them (disk, bundle) is the caller's. */

export interface Library {
  /** 'rooms/corner-office.json' -> its text. */
  texts: ReadonlyMap<string, string>;
}

/**
 * From any map of paths to texts: the bundler's glob gives '../../scenarios/rooms/a.json', the disk
 * '/home/…/scenarios/rooms/a.json'; what follows the last 'scenarios/' counts.
 */
export function libraryOf(files: Readonly<Record<string, string>>): { texts: Map<string, string> } {
  const texts = new Map<string, string>();
  for (const path of Object.keys(files).sort()) {
    const cut = path.lastIndexOf('scenarios/');
    texts.set(cut < 0 ? path.replace(/^\.?\//, '') : path.slice(cut + 'scenarios/'.length), files[path] ?? '');
  }
  return { texts };
}

/** Ids of the files of one folder ('' = the stories themselves), in order of name. */
export function idsIn(library: Library, folder: '' | 'rooms' | 'detectors' | 'exercises'): string[] {
  const prefix = folder === '' ? '' : `${folder}/`;
  return [...library.texts.keys()]
    .filter((path) => path.startsWith(prefix) && path.endsWith('.json') && !path.slice(prefix.length).includes('/'))
    .map((path) => path.slice(prefix.length, -'.json'.length))
    .filter((id) => folder !== '' || id !== 'faults');
}
