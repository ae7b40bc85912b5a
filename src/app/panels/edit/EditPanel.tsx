/** Surfaces, furniture and lamps by buttons. While light is worked out anew the old values are greyed. */
import { useEffect, useState } from 'react';
import type { LampDistribution, LuminaireSpec, RowId, Setup } from '../../../engine/types.ts';
import { editWords } from '../../../report/text/edit.ts';
import { lampKindName, rowName } from '../../../report/text/names.ts';
import { moveLuminaire, type Surface, setLampKind, settleAsked, stepSurface, targetsOf } from '../../state/editActs.ts';
import { roomNow, useApp } from '../../state/store.ts';
import ui from '../ui.module.css';
import { Pick, Stepper } from '../ui.tsx';
import { DetectorMoves } from './Detector.tsx';
import styles from './EditPanel.module.css';
import { Furniture } from './Furniture.tsx';
import { Moves } from './Moves.tsx';

const SURFACES: readonly Surface[] = ['floor', 'walls', 'ceiling', 'desks'];
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
      <DetectorMoves />
      <Lamps setup={setup} />
      <p className={ui.note}>{editWords.stays}</p>
    </section>
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
