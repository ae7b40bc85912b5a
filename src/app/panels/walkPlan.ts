/** A Walk Line as the steps of a plan. */
import type { Activity, PlanStep, PointM } from '../../engine/types.ts';

export type Pace = 'slow' | 'normal' | 'brisk';
export type AtPoint = 'on' | Extract<Activity, 'stand' | 'type' | 'read' | 'sitStill' | 'standStill'>;

/** Walking paces, m/s. Assumed: strolling, unhurried and brisk indoor walks. */
export const PACE_MPS: Record<Pace, number> = { slow: 0.6, normal: 1.2, brisk: 1.6 };
export const AT_POINT: readonly AtPoint[] = ['on', 'stand', 'standStill', 'type', 'read', 'sitStill'];
/** How long a Stand-in stays at a point that is not the last, s. Assumed: half a minute shows the difference between acts. */
const STAY_S = 30;

export interface PointPlan {
  pace: Pace;
  doing: AtPoint;
}

export const FIRST: PointPlan = { pace: 'normal', doing: 'on' };

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
