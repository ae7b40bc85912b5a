/** Lux meters anywhere in the room: lay one down, move it by tap, steppers or arrow keys, read it. */
import type { KeyboardEvent } from 'react';
import { probeTotalLx } from '../../../engine/light/probePlace.ts';
import { metres } from '../../../report/text/format.ts';
import { lookWords, luxWords, meterNumber, placeWords, probeName, splitWords } from '../../../report/text/lux.ts';
import {
  addEye,
  addMeter,
  chooseProbe,
  EYE_M,
  keyProbe,
  layDown,
  liftProbe,
  MOST_PROBES,
  nudgeProbe,
  PROBE_STEP_M,
  removeProbe,
  setProbeHeight,
  tiltProbe,
  turnProbe,
} from '../../state/probeActs.ts';
import { type Probe, useProbes } from '../../state/probes.ts';
import { useProbeText } from '../../state/probeText.ts';
import { setApp, useApp } from '../../state/store.ts';
import ui from '../ui.module.css';
import { Stepper } from '../ui.tsx';
import styles from './Lux.module.css';

export function LuxMeter() {
  const probes = useProbes((s) => s.probes);
  const chosen = useProbes((s) => s.probes.find((p) => p.id === s.chosen) ?? null);
  const full = probes.length >= MOST_PROBES;
  return (
    <section aria-label={luxWords.region}>
      <p className={styles.note}>{probes.length === 0 ? luxWords.intro : luxWords.keys}</p>
      {/* biome-ignore lint/a11y/useSemanticElements: a fieldset cannot be laid out in a line with its legend */}
      <div role="group" aria-label={luxWords.list} className={styles.list}>
        {probes.map((probe) => (
          <Item key={probe.id} probe={probe} chosen={probe.id === chosen?.id} />
        ))}
      </div>
      <div className={styles.acts}>
        <button type="button" className={ui.plain} disabled={full} onClick={() => addMeter()}>
          {luxWords.addMeter}
        </button>
        <button type="button" className={ui.plain} disabled={full} onClick={() => addEye()}>
          {luxWords.addEye}
        </button>
      </div>
      {chosen && <Chosen probe={chosen} />}
    </section>
  );
}

function Item({ probe, chosen }: { probe: Probe; chosen: boolean }) {
  const { text, stale } = useProbeText(probe.id);
  return (
    <button
      type="button"
      className={`${styles.item} ${stale ? styles.grey : ''}`}
      aria-pressed={chosen}
      aria-label={`${probeName(probe)}: ${text}`}
      onClick={() => chooseProbe(probe.id)}
    >
      {probe.id} · {text}
    </button>
  );
}

function Chosen({ probe }: { probe: Probe }) {
  const room = useApp((s) => s.scenario?.room ?? null);
  return (
    <div>
      <Reading id={probe.id} />
      <p className={styles.note}>
        {probeName(probe)}: {placeWords(probe.atM, probe.heightM, room)}, {lookWords(probe.tiltDeg, probe.headingDeg)}.
      </p>
      <Place probe={probe} />
    </div>
  );
}

function Reading({ id }: { id: string }) {
  const { stale } = useProbeText(id);
  const reading = useProbes((s) => s.readings[id]);
  if (!reading) return <p className={styles.grey}>{luxWords.measuring}</p>;
  if (reading.covered) return <p>{luxWords.covered}</p>;
  return (
    <p aria-live="off" className={stale ? styles.grey : undefined}>
      <output className={styles.number}>
        {meterNumber(probeTotalLx(reading))} <small>lx{stale ? ` · ${luxWords.measuring}` : ''}</small>
      </output>
      <span className={styles.note}>{splitWords(reading)}</span>
    </p>
  );
}

function Place({ probe }: { probe: Probe }) {
  const { id, atM, heightM, tiltDeg, headingDeg } = probe;
  const room = useApp((s) => s.scenario?.room ?? null);
  const tapping = useApp((s) => s.floorTool.kind === 'probe' && s.floorTool.probeId === id);
  const onKeyDown = (event: KeyboardEvent) => {
    if (keyProbe(id, event.key)) event.preventDefault();
  };
  const move = (dx: number, dy: number) => () => nudgeProbe(id, [dx * PROBE_STEP_M, dy * PROBE_STEP_M]);
  const line = (label: string, value: string, step: (by: 1 | -1) => void, canLess: boolean, canMore: boolean) => (
    <>
      <span>{label}</span>
      <Stepper
        label={label}
        value={value}
        less={() => step(-1)}
        more={() => step(1)}
        canLess={canLess}
        canMore={canMore}
      />
    </>
  );
  const limits = { x: room?.widthM ?? 0, y: room?.depthM ?? 0, z: room?.heightM ?? 3 };
  return (
    <fieldset className={styles.pad} aria-label={luxWords.pad} onKeyDown={onKeyDown}>
      {line(luxWords.across, metres(atM[0]), (by) => move(by, 0)(), atM[0] > 0, atM[0] < limits.x)}
      {line(luxWords.deep, metres(atM[1]), (by) => move(0, by)(), atM[1] > 0, atM[1] < limits.y)}
      {line(luxWords.height, metres(heightM), (by) => liftProbe(id, by), heightM > 0, heightM < limits.z)}
      {line(luxWords.tilt, luxWords.degrees(tiltDeg), (by) => tiltProbe(id, by), tiltDeg > 0, tiltDeg < 180)}
      {tiltDeg > 0 &&
        tiltDeg < 180 &&
        line(luxWords.heading, luxWords.degrees(headingDeg), (by) => turnProbe(id, by), true, true)}
      <div className={styles.acts} style={{ gridColumn: '1 / -1' }}>
        <button
          type="button"
          className={ui.plain}
          aria-pressed={tapping}
          onClick={() => setApp({ floorTool: tapping ? { kind: 'none' } : { kind: 'probe', probeId: id } })}
        >
          {luxWords.tap}
        </button>
        {probe.kind === 'meter' ? (
          <button type="button" className={ui.plain} onClick={() => layDown(id)}>
            {luxWords.layDown}
          </button>
        ) : (
          <>
            <button
              type="button"
              className={ui.plain}
              aria-pressed={heightM === EYE_M.seated}
              onClick={() => setProbeHeight(id, EYE_M.seated)}
            >
              {luxWords.seated}
            </button>
            <button
              type="button"
              className={ui.plain}
              aria-pressed={heightM === EYE_M.standing}
              onClick={() => setProbeHeight(id, EYE_M.standing)}
            >
              {luxWords.standing}
            </button>
          </>
        )}
        <button type="button" className={ui.plain} onClick={() => removeProbe(id)}>
          {luxWords.remove}
        </button>
      </div>
    </fieldset>
  );
}
