/**
 * Work beside the run: the day's light, the year. Done in slices of their own; the run goes on between them, and
 * nothing of it is touched.
 */
import { DAY_SAMPLES, type DaySample, dayLightOf, daySample } from '../engine/dayLight.ts';
import { boundingDates, sunPath } from '../engine/light/sky/sunPath.ts';
import { type YearJob, yearJob } from '../exercise/year/job.ts';
import type { YearOrder } from '../exercise/year/types.ts';
import type { FromWorker } from './messages.ts';
import { SLICE_MS } from './pacing.ts';
import type { Session } from './session.ts';

/** The year looks at the clock after this many ticks of work. Assumed: well under a millisecond. */
const YEAR_TICKS = 50;
/** Least time between two words on the progress of a year, ms. Assumed: five a second are enough for a bar. */
const TELL_EVERY_MS = 200;

export interface JobAround {
  post: (message: FromWorker) => void;
  clock: () => number;
  later: (fn: () => void, delayMs: number) => void;
  /** Something went wrong inside; said in a sentence. */
  fail: (error: unknown) => void;
}

export interface Jobs {
  /** Light over the sun's day; null: no longer wanted. */
  day(session: Session | null, requestId: number | null): void;
  /** A year of days; null: no longer wanted. */
  year(order: YearOrder | null, requestId: number): void;
  sun(session: Session | null, requestId: number): void;
  /** Another story: nothing of the last one is wanted. */
  forget(): void;
}

/** Works slices until `slice` says it is done or `wanted` says no. */
function inSlices(around: JobAround, wanted: () => boolean, slice: () => boolean): void {
  const next = (): void => {
    if (!wanted()) return;
    try {
      if (!slice()) around.later(next, 0);
    } catch (error) {
      around.fail(error);
    }
  };
  around.later(next, 0);
}

function yearSlices(around: JobAround, job: YearJob, requestId: number): () => boolean {
  let toldMs = Number.NEGATIVE_INFINITY;
  let toldDays = -1;
  return () => {
    const startMs = around.clock();
    let done = false;
    while (!done && around.clock() - startMs < SLICE_MS) done = job.work(YEAR_TICKS);
    const nowMs = around.clock();
    if (done || nowMs - toldMs >= TELL_EVERY_MS) {
      toldMs = nowMs;
      const result = job.result();
      // A day more is news; in between only the share is.
      const news = done || result.days.length !== toldDays;
      toldDays = result.days.length;
      around.post({ type: 'year', requestId, share: job.share(), done, result: news ? result : null });
    }
    return done;
  };
}

function daySlices(around: JobAround, session: Session, requestId: number): () => boolean {
  const samples: DaySample[] = [];
  // What the day belongs to: a room that has been changed since is another day.
  const tables = session.sim.tables.light;
  return () => {
    if (session.sim.tables.light !== tables) samples.length = 0;
    const startMs = around.clock();
    while (samples.length < DAY_SAMPLES && around.clock() - startMs < SLICE_MS) {
      samples.push(daySample(session.sim, samples.length));
    }
    const done = samples.length >= DAY_SAMPLES;
    const day = done ? dayLightOf(session.sim, samples) : null;
    around.post({ type: 'dayLight', requestId, share: samples.length / DAY_SAMPLES, day });
    return done;
  };
}

export function createJobs(around: JobAround): Jobs {
  let dayId: number | null = null;
  let yearId: number | null = null;
  return {
    day: (session, requestId) => {
      dayId = requestId;
      if (requestId === null || !session) return;
      inSlices(around, () => dayId === requestId, daySlices(around, session, requestId));
    },
    year: (order, requestId) => {
      yearId = order ? requestId : null;
      if (!order) return;
      let slices: (() => boolean) | null = null;
      inSlices(
        around,
        () => yearId === requestId,
        () => {
          slices ??= yearSlices(around, yearJob(order), requestId);
          return slices();
        },
      );
    },
    sun: (session, requestId) => {
      if (!session) return;
      const { scenario, state } = session.sim;
      const { latitudeDeg, longitudeDeg } = scenario.site;
      const { utcOffsetH } = scenario.start;
      const { sunLocalDate } = state.setup;
      const on = (date: string) => sunPath(latitudeDeg, longitudeDeg, date, utcOffsetH);
      const { june, december, equinox } = boundingDates(sunLocalDate);
      const paths = { today: on(sunLocalDate), june: on(june), december: on(december), equinox: on(equinox) };
      around.post({ type: 'sunPaths', requestId, paths });
    },
    forget: () => {
      dayId = null;
      yearId = null;
    },
  };
}
