/** A ceiling reading as two lists of named parts. */
import { LIGHT_SOURCES, type ReadingParts, SEEN_PARTS } from '../../../engine/light/detectorParts.ts';
import type { RowId } from '../../../engine/types.ts';
import { seenName, sourceName } from '../../../report/text/lux.ts';

export interface Part {
  name: string;
  lx: number;
}

/** The reading by what is looked at, and by whose light it is; both lists sum to it. */
export function partLists(parts: ReadingParts, row: RowId): { looks: Part[]; whose: Part[] } {
  const looks = SEEN_PARTS.map((seen) => ({
    name: seenName[seen],
    lx: LIGHT_SOURCES.reduce((sum, source) => sum + parts[source][seen], 0),
  }));
  const whose = LIGHT_SOURCES.map((source) => ({
    name: sourceName(source, row),
    lx: SEEN_PARTS.reduce((sum, seen) => sum + parts[source][seen], 0),
  }));
  return { looks, whose };
}
