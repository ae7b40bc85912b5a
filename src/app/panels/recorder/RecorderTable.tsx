/** The Recorder as tables, for who cannot see the strip. Hidden from the eye; read on demand, never announced. */
import { en } from '../../../report/text/en.ts';
import { eventSentence, isTold } from '../../../report/text/events.ts';
import { clockAt } from '../../../report/text/format.ts';
import { record } from '../../state/record.ts';
import { reasonsClosed, useApp } from '../../state/store.ts';
import { seenStretches } from './stretches.ts';

/** Rows kept in the table. Assumed: more would be paged by no one; the words page has the last ten. */
const ROWS = 40;
/** Stretches of movement kept. Assumed: an hour of a reader; walks to be compared are never so far apart. */
const STRETCHES = 20;

export function RecorderTable() {
  // Once a second is often enough for a table.
  useApp((s) => (s.status.running ? Math.floor(s.frameSerial / 10) : s.frameSerial + s.recordVersion));
  const closed = useApp(reasonsClosed);
  const start = useApp((s) => s.scenario?.start ?? null);
  if (!start) return null;
  const rows = record.events.filter(isTold).slice(-ROWS).reverse();
  const stretches = seenStretches(record.events, STRETCHES).reverse();
  return (
    <div className="visuallyHidden">
      <table>
        <caption>{en.recorder.table}</caption>
        <thead>
          <tr>
            <th scope="col">{en.recorder.tableTime}</th>
            <th scope="col">{en.recorder.tableEvent}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((event, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: several events share a tick
            <tr key={`${event.tick}-${i}`}>
              <td>{clockAt(event.tick, start)}</td>
              <td>{eventSentence(event, !closed)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <table>
        <caption>{en.recorder.seenTable}</caption>
        <thead>
          <tr>
            <th scope="col">{en.recorder.seenFrom}</th>
            <th scope="col">{en.recorder.seenUntil}</th>
            <th scope="col">{en.recorder.seenPulses}</th>
          </tr>
        </thead>
        <tbody>
          {stretches.map(({ fromTick, untilTick, pulses }) => (
            <tr key={untilTick}>
              <td>{clockAt(fromTick, start)}</td>
              <td>{clockAt(untilTick, start)}</td>
              <td>{pulses}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
