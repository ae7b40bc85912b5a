/** When a desk reading is a poor ground for a desk factor, told by what the room itself shows. */
import { type ProbeReading, probeTotalLx } from '../../../engine/light/probePlace.ts';
import type { RoomSpec, RowId } from '../../../engine/types.ts';
import type { Probe } from '../../state/probes.ts';

export type CautionKind = 'dark' | 'own' | 'other' | 'sun' | 'tilted' | 'elsewhere';

export interface Caution {
  kind: CautionKind;
  /** Share of the reading that it is about, 0-1. */
  share: number;
}

/** Less daylight than this share is lamp light with a trace of day. Assumed: a fifth. */
const NIGHT_SHARE = 0.2;
/** Lamps or sun under this share do not spoil a factor. Assumed: 5 %, the step between two readings of a hand-held meter. */
const SMALL_SHARE = 0.05;
/** A desk is measured within this distance of its point, m. Assumed: half a desk's depth and a little. */
const ON_DESK_M = 0.6;

export function cautions(
  reading: ProbeReading,
  meter: Pick<Probe, 'atM' | 'heightM' | 'tiltDeg'>,
  row: RowId,
  deskPoints: RoomSpec['deskPoints'],
): Caution[] {
  const total = probeTotalLx(reading);
  const found: Caution[] = [];
  const share = (lx: number): number => (total > 0 ? lx / total : 0);
  const own = share(row === 'inner' ? reading.innerRowLx : reading.windowRowLx);
  const other = share(row === 'inner' ? reading.windowRowLx : reading.innerRowLx);
  const day = share(reading.daylightLx);
  const sun = share(reading.sunLx);
  if (day < NIGHT_SHARE) found.push({ kind: 'dark', share: day });
  if (own > SMALL_SHARE) found.push({ kind: 'own', share: own });
  if (other > SMALL_SHARE) found.push({ kind: 'other', share: other });
  if (sun > SMALL_SHARE) found.push({ kind: 'sun', share: sun });
  if (meter.tiltDeg > 0) found.push({ kind: 'tilted', share: 0 });
  const onDesk = deskPoints.some(
    (d) =>
      d.row === row &&
      Math.hypot(d.atM[0] - meter.atM[0], d.atM[1] - meter.atM[1]) < ON_DESK_M &&
      Math.abs(d.heightM - meter.heightM) < 0.1,
  );
  if (!onDesk) found.push({ kind: 'elsewhere', share: 0 });
  return found;
}
