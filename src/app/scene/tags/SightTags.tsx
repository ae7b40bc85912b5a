/** Words on the Sight Map: slots in the tag layer, placed once per change by the page's own state. */
import { useEffect } from 'react';
import type { Scenario } from '../../../engine/types.ts';
import { live } from '../../state/live.ts';
import { type SightLabel, sightLabels } from '../../state/sightLabels.ts';
import { useApp, useShown } from '../../state/store.ts';
import styles from '../scene.module.css';
import { type TagBoard, tagOf } from './board.ts';

/** Most words at once: six runs of masks, four shadows. */
const SLOTS = Array.from({ length: 10 }, (_, k) => `sight:${k}`);
const CHOICES: readonly [number, number][] = [
  [0, 0],
  [0, 24],
  [0, -24],
  [0, 48],
  [60, 0],
  [-60, 0],
];

export function SightTags({ board, scenario }: { board: TagBoard; scenario: Scenario }) {
  const shown = useApp((s) => s.overlay === 'sight');
  const setup = useApp((s) => s.setup);
  const masked = useApp((s) => s.settings?.maskedSectors);
  const version = useShown(() => live.sightVersion, 0);
  const mount = setup?.mount ?? scenario.mount;
  const furniture = setup?.furniture ?? scenario.room.furniture;
  const labels: SightLabel[] =
    shown && version >= 0 ? sightLabels(scenario.room, mount, masked ?? [], live.shadows, furniture) : [];
  useEffect(() => {
    SLOTS.forEach((id, k) => {
      const label = labels[k];
      const tag = tagOf(board, id);
      tag.hidden = !label;
      if (label) Object.assign(tag, { anchorM: [...label.atM, 0], choices: CHOICES, mayGo: false });
    });
  });
  if (!shown) return null;
  return SLOTS.map((id, k) => (
    <div
      key={id}
      className={styles.kelvin}
      ref={(el) => {
        tagOf(board, id).element = el;
      }}
    >
      {labels[k]?.text}
    </div>
  ));
}
