/** The light instruments in words: every lux meter, and what the two ceiling readings are made of. */
import { useEffect } from 'react';
import { probeTotalLx } from '../../engine/light/probePlace.ts';
import type { RowId } from '../../engine/types.ts';
import { joined } from '../../report/text/format.ts';
import {
  lookWords,
  luxWords,
  meterText,
  placeWords,
  probeName,
  rowName,
  splitWords,
  viewWords,
  wholeParts,
} from '../../report/text/lux.ts';
import { type Part, partLists } from '../panels/kit/parts.ts';
import { watchPhotometers } from '../state/probeActs.ts';
import { type Probe, useProbes } from '../state/probes.ts';
import { useApp } from '../state/store.ts';

const ROWS: readonly RowId[] = ['inner', 'window'];

/** Renewed once a second while the room runs, as the words around it are. */
function useSlow(): void {
  useApp((s) => (s.status.running ? Math.floor(s.frameSerial / 10) : s.frameSerial));
}

export function WordsInstruments() {
  useEffect(watchPhotometers, []);
  const ids = useProbes((s) => s.probes.map((p) => p.id).join(''));
  return (
    <>
      <h3>{luxWords.inWords}</h3>
      {ids === '' && <p>{luxWords.noneInWords}</p>}
      <ul>
        {[...ids].map((id) => (
          <Meter key={id} id={id} />
        ))}
      </ul>
      <h3>{viewWords.inWords}</h3>
      {ROWS.map((row) => (
        <Reading key={row} row={row} />
      ))}
    </>
  );
}

function Meter({ id }: { id: string }) {
  useSlow();
  const { probes, readings } = useProbes.getState();
  const stale = useProbes((s) => s.measuring);
  // Moved by hand it is told at once, whatever the pace of the words.
  useProbes((s) => s.probes.find((p) => p.id === id));
  const probe = probes.find((p) => p.id === id);
  const reading = readings[id];
  if (!probe) return null;
  const value =
    !reading || stale ? luxWords.measuring : reading.covered ? luxWords.covered : meterText(probeTotalLx(reading));
  return <li>{sentence(probe, value, reading && !reading.covered && !stale ? splitWords(reading) : '')}</li>;
}

function sentence(probe: Probe, value: string, split: string): string {
  const room = useApp.getState().scenario?.room ?? null;
  const { atM, heightM, tiltDeg, headingDeg } = probe;
  return luxWords.sentence(
    probeName(probe),
    value,
    placeWords(atM, heightM, room),
    lookWords(tiltDeg, headingDeg),
    split,
  );
}

function Reading({ row }: { row: RowId }) {
  useSlow();
  const seen = useProbes.getState().photometers?.[row];
  useProbes((s) => s.photometers !== null);
  if (!seen) return <p>{viewWords.waiting}</p>;
  const { looks, whose } = partLists(seen.parts, row);
  return (
    <p>
      {told(viewWords.looksOf(rowName[row]), looks)} {told(viewWords.whose, whose)}
    </p>
  );
}

function told(name: string, parts: Part[]): string {
  const whole = wholeParts(parts.map(({ lx }) => lx));
  const shown = parts.map((part, i) => `${part.name.toLowerCase()} ${whole[i]} lx`).filter((_, i) => whole[i]! > 0);
  const sum = whole.reduce((total, lx) => total + lx, 0);
  return viewWords.shares(name, shown.length > 0 ? joined(shown) : '0 lx', `${sum} lx`);
}
