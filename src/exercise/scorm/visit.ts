/**
 * One visit to a learning platform by SCORM 1.2: what it is told of a job, and what it refuses. Names of calls and fields,
 * the words of a status and the shape of a time are those of the open standard (ADL SCORM 1.2, run-time environment).
 */
import type { Mark } from '../types.ts';

/** What a platform offers under the name `API`. Calls answer with texts, some platforms with truth values. */
export interface ScormApi {
  LMSInitialize(nothing: string): unknown;
  LMSGetValue(field: string): unknown;
  LMSSetValue(field: string, value: string): unknown;
  LMSCommit(nothing: string): unknown;
  LMSFinish(nothing: string): unknown;
  LMSGetLastError(): unknown;
  LMSGetErrorString(code: string): unknown;
}

/** A call that the platform did not take, with its own words about it. */
export interface Refusal {
  call: string;
  code: string;
  text: string;
}

export type Verdict = Pick<Mark, 'total' | 'pass'>;

export interface Visit {
  api: ScormApi;
  exercise: string;
  beganMs: number;
  stage: 'refused' | 'open' | 'finished';
  /** What the platform kept of an earlier visit; an empty text: nothing. */
  found: string;
  /** The mark that stands; null: none yet. */
  verdict: Verdict | null;
  /** The first call of the last report that was not taken; null: all were. */
  refusal: Refusal | null;
}

/** Error of a field that a platform need not have. Source: SCORM 1.2, error codes. */
const NOT_IMPLEMENTED = '401';
/** Longest time that the field holds, hundredths of a second. Source: SCORM 1.2, data type CMITimespan. */
const LONGEST_CS = 10_000 * 3600 * 100 - 1;

/** HHHH:MM:SS.SS. */
export function sessionTime(ms: number): string {
  const cs = Math.min(LONGEST_CS, Math.max(0, Math.round(ms / 10)));
  const padded = (value: number, length: number): string => String(value).padStart(length, '0');
  const [h, m, s] = [Math.floor(cs / 360_000), Math.floor(cs / 6000) % 60, Math.floor(cs / 100) % 60];
  return `${padded(h, 4)}:${padded(m, 2)}:${padded(s, 2)}.${padded(cs % 100, 2)}`;
}

/** Does a call; what is refused, also by breaking off, is noted. `optional`: the platform may do without it. */
function called(visit: Visit, call: string, act: (api: ScormApi) => unknown, optional = false): boolean {
  let failure: Refusal;
  try {
    if (String(act(visit.api)) === 'true') return true;
    const code = String(visit.api.LMSGetLastError());
    if (optional && code === NOT_IMPLEMENTED) return true;
    failure = { call, code, text: String(visit.api.LMSGetErrorString(code)) };
  } catch (error) {
    failure = { call, code: '', text: error instanceof Error ? error.message : String(error) };
  }
  visit.refusal ??= failure;
  return false;
}

function put(visit: Visit, field: string, value: string, optional = false): void {
  called(visit, field, (api) => api.LMSSetValue(field, value), optional);
}

/** The field's text; empty where the platform has nothing to say. */
function read({ api }: Visit, field: string): string {
  try {
    return String(api.LMSGetValue(field) ?? '');
  } catch {
    return '';
  }
}

/** Opens the visit. A mark of an earlier one stands. `nowMs`: any clock that only runs forward. */
export function beginVisit(api: ScormApi, exercise: string, nowMs: number): Visit {
  const visit: Visit = {
    api,
    exercise,
    beganMs: nowMs,
    stage: 'refused',
    found: '',
    verdict: null,
    refusal: null,
  };
  if (!called(visit, 'LMSInitialize', () => api.LMSInitialize(''))) return visit;
  visit.stage = 'open';
  visit.found = read(visit, 'cmi.suspend_data');
  const status = read(visit, 'cmi.core.lesson_status');
  if (status === 'passed' || status === 'failed')
    visit.verdict = { total: Number(read(visit, 'cmi.core.score.raw')), pass: status === 'passed' };
  return visit;
}

/** The better mark stands; in a test the first one, as its reasons tell what would have been right. */
export function takeMark(visit: Visit, { total, pass }: Verdict, isTest: boolean): void {
  const old = visit.verdict;
  const better = old === null || (pass !== old.pass ? pass : total > old.total);
  if (old === null || (better && !isTest)) visit.verdict = { total, pass };
}

/**
 * Tells the platform everything anew, so that what was refused once is said again at the next step. `memory`: what it is
 * to keep for the next visit.
 */
export function report(visit: Visit, memory: string, nowMs: number): void {
  if (visit.stage !== 'open') return;
  const { verdict } = visit;
  visit.refusal = null;
  put(visit, 'cmi.core.lesson_location', visit.exercise);
  put(visit, 'cmi.core.lesson_status', verdict === null ? 'incomplete' : verdict.pass ? 'passed' : 'failed');
  if (verdict) {
    put(visit, 'cmi.core.score.raw', String(verdict.total));
    put(visit, 'cmi.core.score.min', '0', true);
    put(visit, 'cmi.core.score.max', '100', true);
  }
  // Without this word a platform may forget its memory of the work when the page is left.
  put(visit, 'cmi.core.exit', verdict?.pass ? '' : 'suspend');
  put(visit, 'cmi.suspend_data', memory);
  put(visit, 'cmi.core.session_time', sessionTime(nowMs - visit.beganMs));
  called(visit, 'LMSCommit', (api) => api.LMSCommit(''));
}

/** Ends the visit; done again, nothing happens. */
export function endVisit(visit: Visit): void {
  if (visit.stage !== 'open') return;
  visit.stage = 'finished';
  called(visit, 'LMSFinish', (api) => api.LMSFinish(''));
}
