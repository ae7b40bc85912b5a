/** Cover cloth and torch: held before the detector from the ladder, and read while they are still there. */
import type { Input, RowId } from '../../engine/types.ts';
import { TICKS_PER_S } from '../../engine/units.ts';
import { countBin, luxBin } from './bins.ts';
import { type Moment, rowOf } from './moment.ts';
import type { Reading, Test } from './types.ts';
import { tickOf } from './world.ts';

export type HeldTest = Extract<Test, { instrument: 'cloth' | 'torch' }>;

/** The instrument is read so long before it is taken away, s. Assumed: a glance at the setter. */
export const GLANCE_S = 1;

/** The act that an instrument is. */
export function heldAct(test: HeldTest): Input {
  const forS = test.forMin * 60 + GLANCE_S;
  return test.instrument === 'cloth' ? { kind: 'coverDetector', forS } : { kind: 'holdTorch', side: test.side, forS };
}

function isSame(input: Input, test: HeldTest): boolean {
  if (test.instrument === 'cloth') return input.kind === 'coverDetector';
  return input.kind === 'holdTorch' && input.side === test.side;
}

/** Since when it has been there; null: it is not. */
function heldSince({ world }: Moment, test: HeldTest): number | null {
  const { coveredUntilTick = 0, torch } = world.sim.state.setup;
  const untilTick = test.instrument === 'cloth' ? coveredUntilTick : (torch?.untilTick ?? 0);
  if (tickOf(world) > untilTick) return null;
  const last = world.events.filter((event) => event.kind === 'input' && isSame(event.input, test)).at(-1);
  return last?.tick ?? null;
}

/** What a row did from a tick on. */
function didSince({ world }: Moment, row: RowId, since: number): string {
  const output = rowOf(row);
  const events = world.events.filter(
    (event) => event.kind === 'output' && event.output === output && event.tick >= since,
  );
  const isOn = world.sim.state.control[row].contactClosed;
  if (events.length === 0) return isOn ? 'stayed on' : 'stayed off';
  return isOn ? 'came on' : 'went off';
}

export function heldBefore(at: Moment, test: HeldTest): Reading {
  const { world } = at;
  const refused = at.you(world.sim.state.setup.mount.atM, 'standOnLadder');
  if (refused) return { refused };
  const since = heldSince(at, test);
  if (since === null || tickOf(world) - since < test.forMin * 60 * TICKS_PER_S) return { refused: 'notHeldSoLong' };
  const { inner, window } = world.sim.state.control;
  const rows = { inner: didSince(at, 'inner', since), window: didSince(at, 'window', since) };
  const lx = { innerLx: inner.light.ceilingReadingLx, windowLx: window.light.ceilingReadingLx };
  const seen = world.events.filter(({ kind, tick }) => kind === 'seen' && tick > since).length;
  const bins = [rows.inner, rows.window, luxBin(lx.innerLx), luxBin(lx.windowLx), countBin(seen)];
  return { values: { ...rows, ...lx, seen }, bin: bins.join(', ') };
}
