/** A Walk Line being made: points tapped on the floor, each with its pace and what is done there. A table, so keys can do it all. */
import { useState } from 'react';
import type { PointM } from '../../engine/types.ts';
import { en } from '../../report/text/en.ts';
import { clockAt, minuteSecond } from '../../report/text/format.ts';
import { actName } from '../../report/text/names.ts';
import { givePlan, insideRoom } from '../state/acts.ts';
import { live } from '../state/live.ts';
import { setApp, useApp } from '../state/store.ts';
import styles from './PeoplePanel.module.css';
import ui from './ui.module.css';
import { AT_POINT, type AtPoint, FIRST, PACE_MPS, type Pace, type PointPlan, planOf } from './walkPlan.ts';

export function WalkLine({ personId, pointsM }: { personId: string; pointsM: PointM[] }) {
  const [plans, setPlans] = useState<PointPlan[]>([]);
  const start = useApp((s) => s.scenario?.start ?? null);
  const shownTick = useApp((s) => s.shownTick);
  const from = live.frame?.people.find((p) => p.id === personId)?.atM ?? [0, 0];
  const { plan, afterS } = planOf(from, pointsM, plans);
  const setPoints = (points: PointM[]): void => setApp({ floorTool: { kind: 'line', personId, pointsM: points } });
  const change = (i: number, part: Partial<PointPlan>): void => {
    setPlans(pointsM.map((_, k) => ({ ...FIRST, ...plans[k], ...(k === i ? part : {}) })));
  };
  const moveAxis = (i: number, axis: 0 | 1, value: number): void => {
    if (Number.isNaN(value)) return;
    setPoints(
      pointsM.map((p, k) => {
        if (k !== i) return p;
        return insideRoom(axis === 0 ? [value, p[1]] : [p[0], value]);
      }),
    );
  };
  const addPoint = (): void => {
    const last = pointsM.at(-1) ?? from;
    setPoints([...pointsM, insideRoom([last[0] + 1, last[1]])]);
  };
  return (
    <div>
      <p className={ui.note}>{en.people.tapLine(personId, pointsM.length)}</p>
      {pointsM.length > 0 && (
        <table className={styles.line}>
          <caption className="visuallyHidden">{en.people.planTable(personId)}</caption>
          <thead>
            <tr>
              <th scope="col">{en.people.x}</th>
              <th scope="col">{en.people.y}</th>
              <th scope="col">{en.people.pace}</th>
              <th scope="col">{en.people.atEnd}</th>
              <th scope="col">{en.people.arrives}</th>
            </tr>
          </thead>
          <tbody>
            {pointsM.map((p, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: a point is its place in the line
              <tr key={i}>
                {([0, 1] as const).map((axis) => (
                  <td key={axis}>
                    <input
                      type="number"
                      step={0.25}
                      // A half-typed number must not be corrected under the fingers: it counts when the field is left.
                      key={p[axis]}
                      defaultValue={p[axis]}
                      aria-label={`${en.people.point} ${i + 1}, ${axis === 0 ? en.people.x : en.people.y}, m`}
                      onBlur={(e) => moveAxis(i, axis, Number.parseFloat(e.target.value))}
                    />
                  </td>
                ))}
                <td>
                  <select
                    aria-label={`${en.people.point} ${i + 1}, ${en.people.pace}`}
                    value={plans[i]?.pace ?? FIRST.pace}
                    onChange={(e) => change(i, { pace: e.target.value as Pace })}
                  >
                    {(Object.keys(PACE_MPS) as Pace[]).map((pace) => (
                      <option key={pace} value={pace}>
                        {en.people.paces[pace]}
                      </option>
                    ))}
                  </select>
                </td>
                <td>
                  <select
                    aria-label={`${en.people.point} ${i + 1}, ${en.people.atEnd}`}
                    value={plans[i]?.doing ?? FIRST.doing}
                    onChange={(e) => change(i, { doing: e.target.value as AtPoint })}
                  >
                    {AT_POINT.map((doing) => (
                      <option key={doing} value={doing}>
                        {doing === 'on' ? en.people.goesOn : actName[doing]}
                      </option>
                    ))}
                  </select>
                </td>
                <td title={minuteSecond(afterS[i] ?? 0)}>
                  {start && clockAt(shownTick + Math.round((afterS[i] ?? 0) * 10), start)}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <div className={ui.row}>
        <button type="button" className={ui.plain} onClick={addPoint}>
          {en.people.addPoint}
        </button>
        <button
          type="button"
          className={ui.plain}
          disabled={pointsM.length === 0}
          onClick={() => {
            givePlan(personId, plan);
            setApp({ floorTool: { kind: 'none' } });
          }}
        >
          {en.people.startLine}
        </button>
        <button type="button" className={ui.link} onClick={() => setApp({ floorTool: { kind: 'none' } })}>
          <span>{en.people.cancel}</span>
        </button>
      </div>
    </div>
  );
}
