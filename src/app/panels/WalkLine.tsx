/** A Walk Line being made: points tapped on the floor, each with its pace and what is done there. A table, so keys can do it all. */
import { useState } from 'react';
import type { Activity, PlanStep, PointM } from '../../engine/types.ts';
import { en } from '../../report/text/en.ts';
import { minuteSecond } from '../../report/text/format.ts';
import { actName } from '../../report/text/names.ts';
import { givePlan, insideRoom } from '../state/acts.ts';
import { live } from '../state/live.ts';
import { setApp, useApp } from '../state/store.ts';
import styles from './PeoplePanel.module.css';
import { arrivalClock } from './PeoplePanel.tsx';
import ui from './ui.module.css';

type Pace = keyof typeof en.people.paces;
type AtPoint = 'on' | Extract<Activity, 'stand' | 'type' | 'read' | 'sitStill' | 'standStill'>;

const PACE_MPS: Record<Pace, number> = { slow: 0.6, normal: 1.2, brisk: 1.6 };
const AT_POINT: readonly AtPoint[] = ['on', 'stand', 'standStill', 'type', 'read', 'sitStill'];
/** How long a Stand-in stays at a point that is not the last, s. Assumed: half a minute shows the difference between acts. */
const STAY_S = 30;

interface PointPlan {
  pace: Pace;
  doing: AtPoint;
}

const FIRST: PointPlan = { pace: 'normal', doing: 'on' };

/** Plan of the whole line, and when each point is reached, s from now. */
export function planOf(
  fromM: PointM,
  pointsM: readonly PointM[],
  plans: readonly PointPlan[],
): { plan: PlanStep[]; afterS: number[] } {
  const plan: PlanStep[] = [];
  const afterS: number[] = [];
  let at = fromM;
  let s = 0;
  pointsM.forEach((toM, i) => {
    const { pace, doing } = plans[i] ?? FIRST;
    const speedMps = PACE_MPS[pace];
    s += Math.hypot(toM[0] - at[0], toM[1] - at[1]) / speedMps;
    afterS.push(s);
    plan.push({ act: 'walk', toM, speedMps });
    const last = i === pointsM.length - 1;
    if (last) plan.push({ act: doing === 'on' ? 'stand' : doing });
    else if (doing !== 'on') {
      plan.push({ act: doing, forS: STAY_S });
      s += STAY_S;
    }
    at = toM;
  });
  return { plan, afterS };
}

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
                      value={p[axis]}
                      aria-label={`${en.people.point} ${i + 1}, ${axis === 0 ? en.people.x : en.people.y}, m`}
                      onChange={(e) => moveAxis(i, axis, Number.parseFloat(e.target.value))}
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
                <td title={minuteSecond(afterS[i] ?? 0)}>{start && arrivalClock(afterS[i] ?? 0, shownTick, start)}</td>
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
