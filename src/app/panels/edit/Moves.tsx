/** A thing's place, and four buttons that move it a quarter of a metre. */
import type { PointM } from '../../../engine/types.ts';
import { editWords } from '../../../report/text/edit.ts';
import { metres } from '../../../report/text/format.ts';
import { MOVE_M } from '../../state/editActs.ts';
import ui from '../ui.module.css';
import styles from './EditPanel.module.css';

const WAYS: readonly { way: keyof typeof editWords.moves; by: PointM }[] = [
  { way: 'left', by: [-MOVE_M, 0] },
  { way: 'right', by: [MOVE_M, 0] },
  { way: 'back', by: [0, MOVE_M] },
  { way: 'front', by: [0, -MOVE_M] },
];

interface MovesProps {
  name: string;
  atM: PointM;
  move: (by: PointM) => void;
}

export function Moves({ name, atM, move }: MovesProps) {
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
