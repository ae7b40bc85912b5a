/** Stand-ins: who is there, where, doing what; and everything that can be asked of them. */

import { lazy, Suspense } from 'react';
import { corridorAt } from '../../engine/room/corridor.ts';
import type { PointM, RoomSpec } from '../../engine/types.ts';
import { en } from '../../report/text/en.ts';
import { metres } from '../../report/text/format.ts';
import { actName } from '../../report/text/names.ts';
import { addPerson, givePlan, leave, MOST_PEOPLE, removePerson, sitAnd } from '../state/acts.ts';
import { type FloorTool, selectPerson, setApp, useApp, useShown } from '../state/store.ts';
import { nudgePerson } from './nudge.ts';
import styles from './PeoplePanel.module.css';
import ui from './ui.module.css';
import { WalkLine } from './WalkLine.tsx';

const SightWords = lazy(async () => ({ default: (await import('./SightWords.tsx')).SightWords }));

/** Distances from the left and front walls; outside them only which wall. */
function placeText(room: RoomSpec | undefined, [x, y]: PointM): string {
  const corridor = room && corridorAt(room, [x, y]);
  if (corridor) return en.words.inCorridor(corridor);
  return `${metres(Math.round(x * 10) / 10)}, ${metres(Math.round(y * 10) / 10)}`;
}

function PersonRow({ id }: { id: string }) {
  const chosen = useApp((s) => s.selection.kind === 'person' && s.selection.personId === id);
  const act = useShown((f) => {
    const person = f.people.find((p) => p.id === id);
    return person ? (person.present ? actName[person.act] : actName.outside) : '';
  }, '');
  const room = useApp((s) => s.scenario?.room);
  const place = useShown((f) => {
    const person = f.people.find((p) => p.id === id);
    return person?.present ? placeText(room, person.atM) : '';
  }, '');
  return (
    <li>
      <button
        type="button"
        className={styles.person}
        aria-pressed={chosen}
        onClick={() => selectPerson(id)}
        onKeyDown={(e) => {
          if (nudgePerson(id, e.key)) e.preventDefault();
        }}
      >
        <span className={styles.letter}>{id}</span>
        <span>{act}</span>
        <span className={styles.place}>{place}</span>
      </button>
      <p className={styles.sight}>
        <Suspense fallback={null}>
          <SightWords id={id} />
        </Suspense>
      </p>
    </li>
  );
}

function setTool(tool: FloorTool): void {
  setApp({ floorTool: tool });
}

function Acts({ id }: { id: string }) {
  const tool = useApp((s) => s.floorTool);
  const mine = 'personId' in tool && tool.personId === id ? tool.kind : 'none';
  const toggle = (kind: 'place' | 'walk') => () => setTool(mine === kind ? { kind: 'none' } : { kind, personId: id });
  return (
    <div className={styles.acts}>
      <button type="button" className={ui.plain} aria-pressed={mine === 'place'} onClick={toggle('place')}>
        {en.people.place}
      </button>
      <button type="button" className={ui.plain} aria-pressed={mine === 'walk'} onClick={toggle('walk')}>
        {en.people.walkHere}
      </button>
      <button
        type="button"
        className={ui.plain}
        aria-pressed={mine === 'line'}
        onClick={() => setTool(mine === 'line' ? { kind: 'none' } : { kind: 'line', personId: id, pointsM: [] })}
      >
        {en.people.walkLine}
      </button>
      <button type="button" className={ui.plain} onClick={() => sitAnd(id, 'type')}>
        {en.people.sitType}
      </button>
      <button type="button" className={ui.plain} onClick={() => sitAnd(id, 'sitStill')}>
        {en.people.sitStill}
      </button>
      <button type="button" className={ui.plain} onClick={() => sitAnd(id, 'read')}>
        {en.people.read}
      </button>
      <button type="button" className={ui.plain} onClick={() => givePlan(id, [{ act: 'stand' }])}>
        {en.people.stand}
      </button>
      <button type="button" className={ui.plain} onClick={() => givePlan(id, [{ act: 'ladder' }])}>
        {en.people.ladder}
      </button>
      <button type="button" className={ui.plain} onClick={() => leave(id)}>
        {en.people.leave}
      </button>
      <button
        type="button"
        className={ui.plain}
        onClick={() => {
          removePerson(id);
          setApp({ floorTool: { kind: 'none' }, selection: { kind: 'output', output: 'innerRow' } });
        }}
      >
        {en.people.remove(id)}
      </button>
    </div>
  );
}

export function PeoplePanel() {
  const letters = useShown((f) => f.people.map((p) => p.id).join(''), '');
  const selected = useApp((s) => (s.selection.kind === 'person' ? s.selection.personId : null));
  const tool = useApp((s) => s.floorTool);
  const chosen = selected !== null && letters.includes(selected) ? selected : null;
  const full = letters.length >= MOST_PEOPLE;
  return (
    <section aria-label={en.people.region}>
      {letters === '' && <p className={ui.note}>{en.people.none}</p>}
      <ul className={styles.list}>
        {[...letters].map((id) => (
          <PersonRow key={id} id={id} />
        ))}
      </ul>
      {chosen && <Acts id={chosen} />}
      {tool.kind === 'line' && tool.personId === chosen && <WalkLine personId={tool.personId} pointsM={tool.pointsM} />}
      <button
        type="button"
        className={ui.link}
        disabled={full}
        onClick={() => {
          const id = addPerson();
          if (id) selectPerson(id);
        }}
      >
        <span>{en.people.add}</span>
      </button>
      {full && <p className={ui.note}>{en.people.limit}</p>}
    </section>
  );
}
