/** The room in words: everything the picture says, as headed text that is always current, with the acts beside it. */

import type { Frame } from '../../engine/frame.ts';
import { corridorAt } from '../../engine/room/corridor.ts';
import type { OutputId, PointM, Scenario } from '../../engine/types.ts';
import { en } from '../../report/text/en.ts';
import { eventSentence, isTold } from '../../report/text/events.ts';
import {
  clockAt,
  dayMonth,
  hourMinuteSecond,
  luxText,
  metres,
  outsideText,
  spokenLength,
} from '../../report/text/format.ts';
import { heldSentences } from '../../report/text/held.ts';
import { actName, outputName, phaseName, skyName } from '../../report/text/names.ts';
import { reachWords } from '../../report/text/reach.ts';
import { explanationSentences } from '../../report/text/reasons.ts';
import { ReachChoice, ReachTable } from '../panels/reach/ReachTable.tsx';
import { SightWords } from '../panels/SightWords.tsx';
import { live } from '../state/live.ts';
import { wordsShown } from '../state/outputWords.ts';
import { firstIndexAtOrAfter, record } from '../state/record.ts';
import { reasonsClosed, useApp } from '../state/store.ts';
import styles from './RoomInWords.module.css';
import { SensingInWords } from './SensingInWords.tsx';
import { WordsActs } from './WordsActs.tsx';
import { WordsInstruments } from './WordsInstruments.tsx';

const OUTPUTS: readonly OutputId[] = ['innerRow', 'windowRow', 'airContact'];

/** Text is renewed once a second while running: a screen reader that is reading must not lose its place. */
function useSlowFrame(): Frame | null {
  useApp((s) => (s.status.running ? Math.floor(s.frameSerial / 10) : s.frameSerial));
  return live.frame;
}

export function RoomInWords() {
  const frame = useSlowFrame();
  const scenario = useApp((s) => s.scenario);
  const running = useApp((s) => s.status.running);
  const sealed = useApp((s) => s.job?.sealed ?? false);
  if (!frame || !scenario) return <p className={styles.words}>{en.progress.loading}</p>;
  return (
    <section className={styles.words} aria-label={en.words.region}>
      <h2>{en.words.clock}</h2>
      <p>
        {clockAt(frame.tick, scenario.start)},{' '}
        {running ? en.clock.running.toLowerCase() : en.clock.paused.toLowerCase()}.{' '}
        {!sealed && `${en.words.detector(phaseName[frame.phase])} ${seenText(frame)}`}{' '}
        {heldSentences(frame.held, frame.tick).join(' ')}
      </p>
      <h2>{en.words.light}</h2>
      <Outside frame={frame} />
      <h2>{en.words.outputs}</h2>
      <Outputs frame={frame} scenario={scenario} />
      <h2>{en.words.people}</h2>
      <People frame={frame} scenario={scenario} />
      <WordsActs />
      {!sealed && <Measured frame={frame} scenario={scenario} />}
      <h2>{en.words.events}</h2>
      <Events frame={frame} scenario={scenario} />
    </section>
  );
}

/** What the device knows and instruments show. */
function Measured({ frame, scenario }: { frame: Frame; scenario: Scenario }) {
  return (
    <>
      <h2>{en.words.readings}</h2>
      <Readings frame={frame} scenario={scenario} />
      <h2>{reachWords.words}</h2>
      <ReachChoice />
      <ReachTable />
      <WordsInstruments />
      <SensingInWords />
    </>
  );
}

function seenText(frame: Frame): string {
  if (frame.lastSeenTick === null) return en.words.neverSeen;
  const agoS = (frame.tick - frame.lastSeenTick) / 10;
  return agoS < 1 ? en.words.seenNow : en.words.seenAgo(spokenLength(agoS));
}

function Outside({ frame }: { frame: Frame }) {
  const sky = useApp((s) => s.setup?.sky ?? s.scenario?.sky ?? 'clear');
  const { sun } = frame;
  return (
    <p>
      {en.words.sunClock(hourMinuteSecond(sun.localS).slice(0, 5), dayMonth(sun.localDate), skyName[sky])}{' '}
      {sun.altitudeDeg > 0 ? en.words.sunUp(Math.round(sun.altitudeDeg), Math.round(sun.azimuthDeg)) : en.words.sunDown}{' '}
      {en.sky.outside(outsideText(sun.outsideHorizontalLx))}.
    </p>
  );
}

function Outputs({ frame, scenario }: { frame: Frame; scenario: Scenario }) {
  const explanations = useApp((s) => s.explanations);
  const settings = useApp((s) => s.settings);
  const closed = useApp(reasonsClosed);
  return OUTPUTS.map((output) => {
    const e = explanations[output];
    const sentences =
      e && !closed
        ? explanationSentences(e, (tick) => clockAt(tick, scenario.start), settings ?? undefined).slice(1)
        : [];
    return (
      <div key={output}>
        <h3>
          {outputName[output]}: {wordsShown(frame.outputs[output], frame.tick).full}
        </h3>
        <p>{sentences.join(' ')}</p>
      </div>
    );
  });
}

function placeText({ room }: Scenario, atM: PointM): string {
  const wall = corridorAt(room, atM);
  if (wall) return en.words.inCorridor(wall);
  const [x, y] = atM.map((m) => metres(Math.round(m * 4) / 4)) as [string, string];
  return en.words.place(x, y);
}

function People({ frame, scenario }: { frame: Frame; scenario: Scenario }) {
  const sealed = useApp((s) => s.job?.sealed ?? false);
  if (frame.people.length === 0) return <p>{en.people.none}</p>;
  return (
    <ul>
      {frame.people.map((person) => (
        <li key={person.id}>
          {person.present
            ? en.words.person(person.id, actName[person.act], placeText(scenario, person.atM))
            : en.words.away(person.id)}{' '}
          {!sealed && <SightWords id={person.id} />}
        </li>
      ))}
    </ul>
  );
}

function Readings({ frame, scenario }: { frame: Frame; scenario: Scenario }) {
  const { inner, window } = frame.light;
  const lux = (lx: number | null): string => (lx === null ? en.setup.ignored : luxText(lx));
  const rows: [string, number | null, number | null][] = [
    [en.words.ceilingReading, inner.ceilingReadingLx, window.ceilingReadingLx],
    [en.words.deskEstimate, inner.deskEstimateLx, window.deskEstimateLx],
    [en.words.ownLamps, inner.lampShareLx, window.lampShareLx],
    [en.words.daylightEstimate, inner.daylightEstimateLx, window.daylightEstimateLx],
    [en.words.setpoint, inner.setpointLx, window.setpointLx],
    [en.words.release, inner.releaseLx, window.releaseLx],
  ];
  return (
    <>
      <table>
        <thead>
          <tr>
            <th scope="col">{en.words.quantity}</th>
            <th scope="col">{en.words.inner}</th>
            <th scope="col">{en.words.window}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(([name, a, b]) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              <td>{lux(a)}</td>
              <td>{lux(b)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <ul>
        {scenario.room.deskPoints.map((point, i) => (
          <li key={point.id}>{en.words.desk(point.label, luxText(frame.deskLx[i] ?? 0))}</li>
        ))}
      </ul>
    </>
  );
}

function Events({ frame, scenario }: { frame: Frame; scenario: Scenario }) {
  const closed = useApp(reasonsClosed);
  const told = record.events
    .slice(0, firstIndexAtOrAfter(frame.tick + 1))
    .filter(isTold)
    .slice(-10)
    .reverse();
  if (told.length === 0) return <p>{en.words.noEvents}</p>;
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">{en.recorder.tableTime}</th>
          <th scope="col">{en.recorder.tableEvent}</th>
        </tr>
      </thead>
      <tbody>
        {told.map((event, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: several events share a tick
          <tr key={`${event.tick}-${i}`}>
            <td>{clockAt(event.tick, scenario.start)}</td>
            <td>{eventSentence(event, !closed)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
