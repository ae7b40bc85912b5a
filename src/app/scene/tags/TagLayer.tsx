/** Labels over the picture. Numbers change at most ten times a second; places are the projector's. Read aloud elsewhere. */
import type { ReactNode } from 'react';
import type { OutputId, RowId, Scenario } from '../../../engine/types.ts';
import { en } from '../../../report/text/en.ts';
import { outputName } from '../../../report/text/names.ts';
import { wordsShown } from '../../state/outputWords.ts';
import { useProbes } from '../../state/probes.ts';
import { type OpenJob, selectOutput, selectPerson, useApp, useShown } from '../../state/store.ts';
import styles from '../scene.module.css';
import { type TagBoard, tagOf } from './board.ts';
import { IsolineTags } from './IsolineTags.tsx';
import { PointTags } from './PointTags.tsx';
import { ProbeTags } from './ProbeTags.tsx';
import { ReachTags } from './ReachTags.tsx';
import { SightTags } from './SightTags.tsx';
import { SunHourTags } from './SunHourTags.tsx';
import { WarmthTags } from './WarmthTags.tsx';

/** Lux as a tag shows it: to 5. The model holds no more. */
export function tagLux(lux: number): number {
  return Math.round(lux / 5) * 5;
}

export function elementRef(board: TagBoard, id: string) {
  return (el: HTMLElement | null) => {
    tagOf(board, id).element = el;
  };
}

/** In the sun a desk has five figures of lux: then in klx. */
const KLX_FROM = 10_000;

/** Four figures need a wider tag. */
function isLong(lux: number): boolean {
  return lux >= 1000 && lux < KLX_FROM;
}

function Lux({ lux }: { lux: number }) {
  const bright = lux >= KLX_FROM;
  return (
    <>
      <b>{bright ? (lux / 1000).toFixed(1) : lux}</b>
      <small>{bright ? 'klx' : 'lx'}</small>
    </>
  );
}

function DeskTag({ board, index, small }: { board: TagBoard; index: number; small: boolean }) {
  const lux = useShown((f) => tagLux(f.deskLx[index] ?? 0), 0);
  return (
    <div
      className={styles.deskTag}
      data-desk={index}
      data-small={small}
      data-long={isLong(lux)}
      ref={elementRef(board, `desk:${index}`)}
    >
      <Lux lux={lux} />
    </div>
  );
}

function EstimateTag({ board, row }: { board: TagBoard; row: RowId }) {
  const lux = useShown((f) => Math.max(0, tagLux(f.light[row].daylightEstimateLx)), 0);
  const diamond = (
    <span className={styles.diamond} data-long={isLong(lux)}>
      <span>
        <Lux lux={lux} />
      </span>
    </span>
  );
  const name = <span className={styles.quantity}>{en.reason.daylightEstimate}</span>;
  return (
    <div className={styles.estimate} data-channel={`${row}Row`} ref={elementRef(board, `estimate:${row}`)}>
      {row === 'window' ? name : diamond}
      {row === 'window' ? diamond : name}
    </div>
  );
}

function PlainLabel({ output }: { output: OutputId }) {
  const text = useShown((f) => wordsShown(f.outputs[output], f.tick).full, '');
  return (
    <span>
      <b className={styles.name}>{outputName[output]}</b>
      <br />
      {text}
    </span>
  );
}

function OutputTag({ board, output, children }: { board: TagBoard; output: OutputId; children: ReactNode }) {
  const chosen = useApp((s) => s.selection.kind === 'output' && s.selection.output === output);
  return (
    <button
      type="button"
      className={styles.output}
      data-channel={output}
      data-chosen={chosen}
      tabIndex={-1}
      ref={elementRef(board, `output:${output}`)}
      onClick={() => selectOutput(output)}
    >
      {children}
    </button>
  );
}

function Letter({ board, id }: { board: TagBoard; id: string }) {
  const chosen = useApp((s) => s.selection.kind === 'person' && s.selection.personId === id);
  return (
    <button
      type="button"
      className={styles.letter}
      data-chosen={chosen}
      tabIndex={-1}
      ref={elementRef(board, `person:${id}`)}
      onClick={() => selectPerson(id)}
    >
      {id}
    </button>
  );
}

function Leader({
  board,
  id,
  channel,
  desk,
  output,
  estimate,
}: {
  board: TagBoard;
  id: string;
  channel?: OutputId;
  desk?: number;
  output?: boolean;
  estimate?: boolean;
}) {
  return (
    <g className={styles.leader} data-channel={channel} data-desk={desk} data-output={output} data-estimate={estimate}>
      <line
        ref={(el) => {
          tagOf(board, id).line = el;
        }}
      />
      {!estimate && (
        <circle
          r={3.2}
          ref={(el) => {
            tagOf(board, id).dot = el;
          }}
        />
      )}
    </g>
  );
}

const OUTPUTS: readonly OutputId[] = ['windowRow', 'innerRow', 'airContact'];

const NO_POINTS: NonNullable<OpenJob['points']> = [];

export function TagLayer({
  scenario,
  board,
  outputLabel,
}: {
  scenario: Scenario;
  board: TagBoard;
  outputLabel: ((output: OutputId) => ReactNode) | undefined;
}) {
  const letters = useShown((f) => f.people.map((p) => p.id).join(' '), '')
    .split(' ')
    .filter(Boolean);
  const opening = useApp((s) => s.screen === 'opening');
  const overlay = useApp((s) => s.overlay);
  const probes = useProbes((s) => s.probes.map((p) => p.id).join('')).split('');
  const section = useApp((s) => s.overlay === 'sight' && s.sectionDeg !== null);
  const sealed = useApp((s) => s.job?.sealed ?? false);
  const rows = sealed
    ? []
    : (['window', 'inner'] as const).filter((row) => scenario.room.luminaires.some((l) => l.row === row));
  const desks = sealed ? [] : scenario.room.deskPoints;
  const points = useApp((s) => s.job?.points ?? NO_POINTS);
  const updating = useApp((s) => s.status.updating);
  if (opening) return null;
  return (
    <div
      className={styles.tags}
      data-overlay={overlay}
      data-section={section}
      data-updating={updating}
      aria-hidden="true"
    >
      <svg className={styles.leaders}>
        <title>Leaders</title>
        {desks.map((p, k) => (
          <Leader key={p.id} board={board} id={`desk:${k}`} desk={k} />
        ))}
        {probes.map((id) => (
          <Leader key={id} board={board} id={`probe:${id}`} />
        ))}
        {points.map(({ id }) => (
          <Leader key={id} board={board} id={`point:${id}`} />
        ))}
        {rows.map((row) => (
          <Leader key={row} board={board} id={`estimate:${row}`} channel={`${row}Row`} estimate />
        ))}
        {OUTPUTS.map((output) => (
          <Leader key={output} board={board} id={`output:${output}`} channel={output} output />
        ))}
      </svg>
      <IsolineTags board={board} />
      <WarmthTags board={board} />
      <ReachTags board={board} />
      <SunHourTags board={board} />
      <SightTags board={board} scenario={scenario} />
      {desks.map((p, k) => (
        <DeskTag key={p.id} board={board} index={k} small={desks.length > 4} />
      ))}
      <ProbeTags board={board} />
      <PointTags board={board} points={points} />
      {rows.map((row) => (
        <EstimateTag key={row} board={board} row={row} />
      ))}
      {letters.map((id) => (
        <Letter key={id} board={board} id={id} />
      ))}
      {OUTPUTS.map((output) => (
        <OutputTag key={output} board={board} output={output}>
          {outputLabel ? outputLabel(output) : <PlainLabel output={output} />}
        </OutputTag>
      ))}
    </div>
  );
}
