/** Wall buttons, supply, doors and blinds; the room itself behind a word. */

import { lazy, Suspense, useState } from 'react';
import type { ButtonId } from '../../engine/types.ts';
import { editWords } from '../../report/text/edit.ts';
import { en } from '../../report/text/en.ts';
import { buttonName } from '../../report/text/names.ts';
import { dipSupply, press, setBlind, setDoor, setSupply } from '../state/acts.ts';
import { useApp, useShown } from '../state/store.ts';
import styles from './RoomPanel.module.css';
import ui from './ui.module.css';

/** A hold that counts as one press but keeps the input closed, ms. Source: longer than the product's limit of 1.5 s. */
const HOLD_MS = 2000;

const BUTTONS: readonly { id: ButtonId; channel: string }[] = [
  { id: 'inner', channel: 'innerRow' },
  { id: 'window', channel: 'windowRow' },
  { id: 'air', channel: 'airContact' },
];

function Buttons() {
  return (
    <div className={styles.buttons}>
      {BUTTONS.map(({ id, channel }) => (
        <div key={id} className={styles.line} data-channel={channel}>
          <b>{buttonName[id]}</b>
          <button
            type="button"
            className={ui.plain}
            aria-label={`${buttonName[id]}: ${en.room.press}`}
            onClick={() => press(id)}
          >
            {en.room.press}
          </button>
          <button
            type="button"
            className={ui.plain}
            aria-label={`${buttonName[id]}: ${en.room.hold}`}
            onClick={() => press(id, HOLD_MS)}
          >
            {en.room.hold}
          </button>
        </div>
      ))}
    </div>
  );
}

function Supply() {
  const off = useShown((f) => f.phase === 'off', false);
  return (
    <div className={styles.line}>
      <b>{en.room.supply}</b>
      <button type="button" className={ui.plain} onClick={() => setSupply(off)}>
        {off ? en.room.supplyOn : en.room.supplyOff}
      </button>
      <button type="button" className={ui.plain} disabled={off} onClick={dipSupply}>
        {en.room.dip}
      </button>
    </div>
  );
}

function Doors() {
  const doors = useApp((s) => s.setup?.doors ?? null);
  if (!doors || doors.length === 0) return null;
  return (
    <div className={styles.line}>
      <b>{en.room.doors}</b>
      {doors.map((door) => (
        <button key={door.doorId} type="button" className={ui.plain} onClick={() => setDoor(door.doorId, !door.open)}>
          {door.open ? en.room.closeDoor : en.room.openDoor}
        </button>
      ))}
    </div>
  );
}

function Blinds() {
  const windows = useApp((s) => s.scenario?.room.windows ?? null);
  const blinds = useApp((s) => s.setup?.blinds ?? null);
  if (!windows || windows.length === 0) return null;
  return (
    <div className={styles.blinds}>
      <b>{en.room.blinds}</b>
      {windows.map((window, i) => {
        const closed = blinds?.find((b) => b.windowId === window.id)?.closedShare ?? 0;
        return (
          <label key={window.id} className={styles.blind}>
            {en.room.blindOf(i + 1)}
            <select
              className={ui.select}
              value={String(Math.round(closed * 4) / 4)}
              onChange={(e) => setBlind(window.id, Number(e.target.value))}
            >
              {[0, 0.25, 0.5, 0.75, 1].map((share) => (
                <option key={share} value={String(share)}>
                  {share * 100} %
                </option>
              ))}
            </select>
          </label>
        );
      })}
    </div>
  );
}

const EditPanel = lazy(async () => ({ default: (await import('./edit/EditPanel.tsx')).EditPanel }));

function Edit() {
  const [open, setOpen] = useState(false);
  return (
    <>
      <button type="button" className={ui.link} aria-expanded={open} onClick={() => setOpen(!open)}>
        <span>{editWords.open}</span>
      </button>
      {open && (
        <Suspense fallback={null}>
          <EditPanel />
        </Suspense>
      )}
    </>
  );
}

export function RoomPanel() {
  return (
    <section aria-label={en.room.region}>
      <Buttons />
      <Supply />
      <Doors />
      <Blinds />
      <Edit />
    </section>
  );
}
