/** Words and metres on the reach outlines: elements of the tag layer, moved by its projector. */
import { useEffect } from 'react';
import { reachWords } from '../../../report/text/reach.ts';
import { invalidateLive } from '../../state/live.ts';
import { shownKinds, useReach } from '../../state/reach.ts';
import { labelsOf } from '../../state/reachShape.ts';
import { useApp } from '../../state/store.ts';
import styles from '../scene.module.css';
import { type TagBoard, tagOf } from './board.ts';

export function ReachTags({ board }: { board: TagBoard }) {
  const outlines = useReach((s) => s.outlines);
  const stale = useReach((s) => s.progress !== null);
  const sight = useApp((s) => s.overlay === 'sight');
  const kinds = useReach((s) => shownKinds(s, sight).join(' '));
  const labels = (outlines?.outlines ?? [])
    .filter((o) => kinds.split(' ').includes(o.kind))
    .flatMap((o) =>
      labelsOf(o, outlines!.mount.atM).map((label, k) => ({ ...label, kind: o.kind, id: `reach:${o.kind}:${k}` })),
    );
  useEffect(() => {
    for (const label of labels) {
      const tag = tagOf(board, label.id);
      tag.anchorM = [label.atM[0], label.atM[1], 0];
      tag.hidden = false;
    }
    invalidateLive();
  });
  return labels.map((label) => (
    <div
      key={label.id}
      className={styles.isoline}
      style={stale ? { opacity: 0.5 } : undefined}
      ref={(el) => {
        tagOf(board, label.id).element = el;
      }}
    >
      {reachWords.tag(label.kind, label.metres, label.wall)}
    </div>
  ));
}
