/** Acts as buttons and lists, for whoever works from the words alone. */
import { useState } from 'react';
import type { ButtonId, PointM } from '../../engine/types.ts';
import { en } from '../../report/text/en.ts';
import { buttonName } from '../../report/text/names.ts';
import ui from '../panels/ui.module.css';
import { Pick } from '../panels/ui.tsx';
import { givePlan, leave, placePerson, press, sitAnd, walkTo } from '../state/acts.ts';
import { getApp, useApp, useShown } from '../state/store.ts';
import { send } from '../state/wire.ts';
import styles from './RoomInWords.module.css';

type Doing = 'walkHere' | 'place' | 'sitType' | 'sitStill' | 'read' | 'stand' | 'ladder' | 'leave';

const DOINGS: readonly Doing[] = ['walkHere', 'place', 'sitType', 'sitStill', 'read', 'stand', 'ladder', 'leave'];
const BUTTONS: readonly ButtonId[] = ['inner', 'window', 'air'];

interface NamedPlace {
  id: string;
  text: string;
  atM: PointM;
}

/** Places with a name: seats at the desks, doors, under the detector. */
function namedPlaces(): NamedPlace[] {
  const { scenario, setup } = getApp();
  if (!scenario) return [];
  const { room } = scenario;
  const chairs = (setup?.furniture ?? room.furniture).filter((f) => f.kind === 'chair');
  const mount = setup?.mount ?? scenario.mount;
  const doors = room.doors.map((door, i): NamedPlace => {
    const along = door.fromM + door.widthM / 2;
    const atM: PointM =
      door.wall === 'left'
        ? [0.6, along]
        : door.wall === 'right'
          ? [room.widthM - 0.6, along]
          : [along, door.wall === 'front' ? 0.6 : room.depthM - 0.6];
    return { id: `door${i}`, text: en.words.atDoor(i + 1, room.doors.length), atM };
  });
  return [
    ...doors,
    { id: 'detector', text: en.words.underDetector, atM: mount.atM },
    ...chairs.map(
      (chair, i): NamedPlace => ({
        id: chair.id,
        text: en.words.atSeat(i + 1, nearestDesk(chair.atM)),
        atM: chair.atM,
      }),
    ),
  ];
}

function nearestDesk(atM: PointM): string {
  const points = getApp().scenario?.room.deskPoints ?? [];
  const far = (p: { atM: PointM }): number => Math.hypot(p.atM[0] - atM[0], p.atM[1] - atM[1]);
  return [...points].sort((a, b) => far(a) - far(b))[0]?.label ?? '';
}

function doIt(personId: string, doing: Doing, atM: PointM | undefined): void {
  switch (doing) {
    case 'walkHere':
      if (atM) walkTo(personId, atM);
      return;
    case 'place':
      if (atM) placePerson(personId, atM);
      return;
    case 'sitType':
      sitAnd(personId, 'type');
      return;
    case 'sitStill':
    case 'read':
      sitAnd(personId, doing);
      return;
    case 'stand':
    case 'ladder':
      givePlan(personId, [{ act: doing }]);
      return;
    case 'leave':
      leave(personId);
      return;
  }
}

export function WordsActs() {
  useApp((s) => s.setup);
  const letters = useShown((f) => f.people.map((p) => p.id).join(''), '');
  const [person, setPerson] = useState('');
  const [doing, setDoing] = useState<Doing>('walkHere');
  const [place, setPlace] = useState('');
  const places = namedPlaces();
  const chosen = letters.includes(person) && person !== '' ? person : (letters[0] ?? '');
  const at = places.find((p) => p.id === place) ?? places[0];
  const needsPlace = doing === 'walkHere' || doing === 'place';
  return (
    <>
      {chosen !== '' && (
        <div className={styles.acts}>
          <Pick
            label={en.words.who}
            value={chosen}
            options={[...letters].map((id) => ({ value: id, text: id }))}
            pick={setPerson}
          />
          <Pick
            label={en.words.does}
            value={doing}
            options={DOINGS.map((d) => ({ value: d, text: en.people[d] }))}
            pick={setDoing}
          />
          {needsPlace && at && (
            <Pick
              label={en.words.where}
              value={at.id}
              options={places.map((p) => ({ value: p.id, text: p.text }))}
              pick={setPlace}
            />
          )}
          <button type="button" className={ui.plain} onClick={() => doIt(chosen, doing, at?.atM)}>
            {en.words.doIt}
          </button>
        </div>
      )}
      <div className={styles.acts}>
        {BUTTONS.map((id) => (
          <button key={id} type="button" className={ui.plain} onClick={() => press(id)}>
            {en.outputs.press(buttonName[id])}
          </button>
        ))}
        <button type="button" className={ui.plain} onClick={() => send({ type: 'nextEvent', direction: 1 })}>
          {en.clock.nextEvent}
        </button>
      </div>
    </>
  );
}
