/** The Recorder as a table, for who cannot see the strip. Hidden from the eye; read on demand, never announced. */
import { en } from '../../../report/text/en.ts';
import { eventSentence, isTold } from '../../../report/text/events.ts';
import { clockAt } from '../../../report/text/format.ts';
import { record } from '../../state/record.ts';
import { useApp } from '../../state/store.ts';

/** Rows kept in the table. Assumed: more would be paged by no one; the words page has the last ten. */
const ROWS = 40;

export function RecorderTable() {
  // Once a second is often enough for a table.
  useApp((s) => (s.status.running ? Math.floor(s.frameSerial / 10) : s.frameSerial + s.recordVersion));
  const start = useApp((s) => s.scenario?.start ?? null);
  if (!start) return null;
  const rows = record.events.filter(isTold).slice(-ROWS).reverse();
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
              <td>{eventSentence(event)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
