/** What a design chooses: a point, a turn, and a row for every lamp; and the room as it would be. */
import type { RowId } from '../../../engine/types.ts';
import type { DesignTask } from '../../../exercise/commission/types.ts';
import { commissionWords } from '../../../report/text/commission.ts';
import { metres } from '../../../report/text/format.ts';
import { rowName } from '../../../report/text/lux.ts';
import ui from '../../panels/ui.module.css';
import { Pick, Stepper } from '../../panels/ui.tsx';
import { choose, hang, useCommissioning } from '../../state/job/commission.ts';
import { useApp } from '../../state/store.ts';
import styles from './Commission.module.css';

/** Step of the turn, degrees. Source: half of a sector of the mask. */
const TURN_STEP_DEG = 15;

const ROWS = (['window', 'inner'] as const).map((value) => ({ value, text: rowName[value] }));

export function DesignTools({ points }: DesignTask) {
  const design = useCommissioning((s) => s.design);
  const hung = useCommissioning((s) => s.design === s.hung);
  if (!design) return null;
  const turn = (by: number) => () => choose({ turnDeg: (design.turnDeg + by + 360) % 360 });
  return (
    <div className={styles.settings}>
      <Pick
        label={commissionWords.point}
        value={design.point}
        options={points.map(({ id, label }, i) => ({ value: id, text: commissionWords.numbered(i + 1, label) }))}
        pick={(point) => choose({ point })}
      />
      <div className={styles.setting}>
        <span>{commissionWords.turn}</span>
        <Stepper
          label={commissionWords.turn}
          value={commissionWords.turned(design.turnDeg)}
          less={turn(-TURN_STEP_DEG)}
          more={turn(TURN_STEP_DEG)}
        />
      </div>
      <p className={ui.note}>{commissionWords.turnNote}</p>
      <Lamps rows={design.rows} />
      <button type="button" className={ui.plain} disabled={hung} onClick={hang}>
        {commissionWords.hang}
      </button>
      {!hung && <p className={ui.note}>{commissionWords.hungNote}</p>}
    </div>
  );
}

function Lamps({ rows }: { rows: Record<string, RowId> }) {
  const lamps = useApp((s) => s.scenario?.room.luminaires ?? null);
  return (
    <fieldset className={styles.lamps}>
      <legend>{commissionWords.lamps}</legend>
      <p className={ui.note}>{commissionWords.lampNote}</p>
      {lamps?.map(({ id, atM, row }, i) => (
        <Pick<RowId>
          key={id}
          label={commissionWords.lamp(i + 1, metres(atM[0]), metres(atM[1]))}
          value={rows[id] ?? row}
          options={ROWS}
          pick={(value) => choose({ rows: { ...rows, [id]: value } })}
        />
      ))}
    </fieldset>
  );
}
