/** Surfaces, furniture and lamps by buttons. While light is worked out anew the old values are greyed. */
import { useEffect, useState } from 'react';
import type { FurnitureSpec, LampDistribution, LuminaireSpec, PointM, RowId, Setup } from '../../../engine/types.ts';
import { editWords, furnitureName } from '../../../report/text/edit.ts';
import { metres } from '../../../report/text/format.ts';
import { lampKindName, rowName } from '../../../report/text/names.ts';
import {
  MOVE_M,
  moveFurniture,
  moveLuminaire,
  type Surface,
  setLampKind,
  settleAsked,
  stepSurface,
  targetsOf,
} from '../../state/editActs.ts';
import { roomNow, useApp } from '../../state/store.ts';
import ui from '../ui.module.css';
import { Pick, Stepper } from '../ui.tsx';
import styles from './EditPanel.module.css';

const SURFACES: readonly Surface[] = ['floor', 'walls', 'ceiling', 'desks'];
const WAYS: readonly { way: keyof typeof editWords.moves; by: PointM }[] = [
  { way: 'left', by: [-MOVE_M, 0] },
  { way: 'right', by: [MOVE_M, 0] },
  { way: 'back', by: [0, MOVE_M] },
  { way: 'front', by: [0, -MOVE_M] },
];
const KINDS = (Object.keys(lampKindName) as LampDistribution[]).map((value) => ({ value, text: lampKindName[value] }));

/** The mean of what a surface is made of; faces of one name may differ. */
function shownReflectance(surface: Surface): string {
  const targets = targetsOf(surface);
  if (targets.length === 0) return '–';
  return (targets.reduce((sum, t) => sum + t.reflectance, 0) / targets.length).toFixed(2);
}

export function EditPanel() {
  const setup = useApp((s) => s.setup);
  const updating = useApp((s) => s.status.updating);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new setup is the answer that was waited for
  useEffect(() => {
    settleAsked();
  }, [setup]);
  if (!setup) return null;
  return (
    <section aria-label={editWords.region} className={updating ? `${styles.edit} ${styles.updating}` : styles.edit}>
      <p role="status" className={ui.note}>
        {updating ? editWords.updating : ''}
      </p>
      <h3>{editWords.surfaces}</h3>
      {SURFACES.map((surface) => (
        <div key={surface} className={styles.line}>
          <span>{editWords.surface[surface]}</span>
          <Stepper
            label={`${editWords.surfaces}, ${editWords.surface[surface]}`}
            value={shownReflectance(surface)}
            less={() => stepSurface(surface, -1)}
            more={() => stepSurface(surface, 1)}
          />
        </div>
      ))}
      <Furniture setup={setup} />
      <Lamps setup={setup} />
      <p className={ui.note}>{editWords.stays}</p>
    </section>
  );
}

interface MovesProps {
  name: string;
  atM: PointM;
  move: (by: PointM) => void;
}

function Moves({ name, atM, move }: MovesProps) {
  return (
    <>
      <p className={styles.place} aria-live="polite">
        {editWords.place(metres(atM[0]), metres(atM[1]))}
      </p>
      <div className={styles.moves}>
        {WAYS.map(({ way, by }) => (
          <button
            key={way}
            type="button"
            className={ui.soft}
            style={{ padding: '4px 12px' }}
            aria-label={editWords.movesSpoken(name, editWords.moves[way])}
            onClick={() => move(by)}
          >
            {editWords.moves[way]}
          </button>
        ))}
      </div>
    </>
  );
}

/** Things with a name and a number of their kind. */
function numbered(furniture: readonly FurnitureSpec[]): { value: string; text: string }[] {
  const counts = new Map<string, number>();
  return furniture.map((piece) => {
    const count = (counts.get(piece.kind) ?? 0) + 1;
    counts.set(piece.kind, count);
    return { value: piece.id, text: editWords.numbered(furnitureName[piece.kind], count) };
  });
}

function Furniture({ setup }: { setup: Setup }) {
  const [id, setId] = useState('');
  const options = numbered(setup.furniture);
  const piece = setup.furniture.find((f) => f.id === id) ?? setup.furniture[0];
  if (!piece) return null;
  const name = options.find((o) => o.value === piece.id)?.text ?? '';
  return (
    <>
      <h3>{editWords.furniture}</h3>
      <Pick label={editWords.piece} value={piece.id} options={options} pick={setId} />
      <Moves name={name} atM={piece.atM} move={(by) => moveFurniture(piece, by)} />
    </>
  );
}

function lampOptions(luminaires: readonly LuminaireSpec[]): { value: string; text: string }[] {
  const counts = { inner: 0, window: 0 };
  return luminaires.map((l) => ({ value: l.id, text: editWords.numbered(rowName[l.row], ++counts[l.row]) }));
}

function Lamps({ setup }: { setup: Setup }) {
  const room = useApp((s) => s.scenario?.room ?? null);
  const [id, setId] = useState('');
  if (!room) return null;
  const { luminaires } = roomNow(room, setup);
  const lamp = luminaires.find((l) => l.id === id) ?? luminaires[0];
  if (!lamp) return null;
  const options = lampOptions(luminaires);
  const name = options.find((o) => o.value === lamp.id)?.text ?? '';
  return (
    <>
      <h3>{editWords.lamps}</h3>
      <Pick label={editWords.luminaire} value={lamp.id} options={options} pick={setId} />
      <Moves name={name} atM={lamp.atM} move={(by) => moveLuminaire(lamp, by)} />
      {(['inner', 'window'] as const).map((row) => (
        <LampKind key={row} row={row} lamps={luminaires.filter((l) => l.row === row)} />
      ))}
    </>
  );
}

function LampKind({ row, lamps }: { row: RowId; lamps: readonly LuminaireSpec[] }) {
  const [first] = lamps;
  if (!first) return null;
  const one = lamps.every((l) => l.distribution === first.distribution) ? first.distribution : null;
  const mixed = { value: 'mixed' as const, text: editWords.mixed };
  return (
    <Pick
      label={editWords.kind(rowName[row])}
      value={one ?? 'mixed'}
      options={one ? KINDS : [mixed, ...KINDS]}
      pick={(kind) => {
        if (kind !== 'mixed') setLampKind(row, kind, one);
      }}
    />
  );
}
