/** A class in six characters: which jobs, how much aid, and whether benches get the same room. Computed, never looked up. */
import { hash32 } from '../engine/random.ts';
import type { Aid } from './types.ts';

export interface ClassPlan {
  /** Places in the advised order of jobs, 1-18, rising. */
  jobs: number[];
  aid: Aid;
  /** Every bench has a room of its own. */
  separate: boolean;
  /** Tells one class from another with the same plan, 0-31. */
  series: number;
}

/** Digits and letters that are not taken for one another. Source: Crockford's base 32, a public scheme. */
const LETTERS = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';
/** Characters of a code: 30 bits. Source: 18 jobs, 2 of aid, 1 of benches, 5 of series, 4 to catch slips. */
const LENGTH = 6;
const JOBS = 18;
const AIDS: readonly Aid[] = ['guided', 'practice', 'test'];
const CHECK_BITS = 4;

/** Four bits over the plan's 26; three slips of the pen in fifty still pass. */
function check(bits: number): number {
  return hash32(`class/${bits}`) & ((1 << CHECK_BITS) - 1);
}

export function classCode(plan: ClassPlan): string {
  const jobs = plan.jobs.reduce((mask, job) => mask | (1 << (job - 1)), 0);
  const rest = (AIDS.indexOf(plan.aid) << 6) | ((plan.separate ? 1 : 0) << 5) | (plan.series & 31);
  const bits = jobs * 256 + rest;
  let value = bits * (1 << CHECK_BITS) + check(bits);
  let text = '';
  for (let i = 0; i < LENGTH; i++) {
    text = LETTERS[value % 32]! + text;
    value = Math.floor(value / 32);
  }
  return text;
}

/** Null when it is no code: a slip of the pen, or made by a newer version. Small letters, O for 0, I and L for 1 will do. */
export function readClassCode(text: string): ClassPlan | null {
  const plain = text.trim().toUpperCase().replaceAll('O', '0').replace(/[IL]/g, '1');
  if (plain.length !== LENGTH || [...plain].some((c) => !LETTERS.includes(c))) return null;
  const value = [...plain].reduce((sum, c) => sum * 32 + LETTERS.indexOf(c), 0);
  const bits = Math.floor(value / (1 << CHECK_BITS));
  if (value % (1 << CHECK_BITS) !== check(bits)) return null;
  const rest = bits % 256;
  const mask = Math.floor(bits / 256);
  const aid = AIDS[rest >> 6];
  const jobs = Array.from({ length: JOBS }, (_, i) => i + 1).filter((job) => (mask >> (job - 1)) & 1);
  if (!aid || jobs.length === 0) return null;
  return { jobs, aid, separate: ((rest >> 5) & 1) === 1, series: rest & 31 };
}

/** Room of a bench: the same number everywhere; 1-9999, so that it can be read aloud. */
export function benchSeed(plan: ClassPlan, bench: number): number {
  return 1 + (hash32(`bench/${plan.series}/${plan.separate ? bench : 0}`) % 9999);
}
