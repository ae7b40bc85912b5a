/** Lux meters over the picture: round tags with the meter's number on the rim, a second rim for an eye. */
import { type Probe, useProbes } from '../../state/probes.ts';
import { useProbeTag } from '../../state/probeText.ts';
import { type TagBoard, tagOf } from './board.ts';
import styles from './ProbeTags.module.css';
import { useStillTag } from './useStillTag.ts';

/** Offsets of a meter's tag from its place, px at a stage 1480 wide, best first. */
const CHOICES: readonly [number, number][] = [
  [44, -48],
  [-44, -48],
  [0, -64],
  [58, 18],
  [-58, 18],
  [44, 56],
  [-44, 56],
  [84, -70],
  [-84, -70],
];

export function ProbeTags({ board }: { board: TagBoard }) {
  const probes = useProbes((s) => s.probes);
  return probes.map((probe) => <ProbeTag key={probe.id} board={board} probe={probe} />);
}

function ProbeTag({ board, probe }: { board: TagBoard; probe: Probe }) {
  const { id, kind, atM, heightM } = probe;
  const { number, unit, stale } = useProbeTag(id);
  const chosen = useProbes((s) => s.chosen === id);
  useStillTag(board, `probe:${id}`, atM, heightM, CHOICES);
  return (
    <div
      className={styles.probeTag}
      data-probe={id}
      data-kind={kind}
      data-stale={stale}
      data-chosen={chosen}
      ref={(el) => {
        tagOf(board, `probe:${id}`).element = el;
      }}
    >
      <b>{number}</b>
      <small>{unit}</small>
      <i>{id}</i>
    </div>
  );
}
