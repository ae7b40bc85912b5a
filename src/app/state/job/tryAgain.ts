/**
 * Trying again from a moment that a result names: a copy of the run up to there, under a name of its own, in which any
 * act is open and which is never saved. The attempt, its saved run and its mark are left as they are; going back shows
 * them again.
 */

import type { Recording } from '../../../engine/recording.ts';
import { ENGINE_VERSION } from '../../../engine/simulation.ts';
import type { Scenario, Tick } from '../../../engine/types.ts';
import { secondsToTicks } from '../../../engine/units.ts';
import type { EdgesByOutput } from '../../../exercise/types.ts';
import { live } from '../live.ts';
import { COPY_MARK } from '../saves.ts';
import { loadStory } from '../session.ts';
import { getApp, type OpenJob, type Selection, setApp } from '../store.ts';
import { getJob, presentAttempt, setJob } from './job.ts';

/** Where to go back to. */
interface Left {
  scenario: Scenario;
  recording: Recording;
  tick: Tick;
  selection: Selection;
  job: OpenJob;
  foretold: EdgesByOutput | null;
  speed: number;
}

let left: Left | null = null;

/** The run up to an instant, its tick worked; the acts after it are not in it. */
export function copyUpTo(run: Recording, tick: Tick, scenarioId: string): Recording {
  return {
    ...run,
    scenarioId,
    inputs: run.inputs.filter((input) => input.tick <= tick),
    headTick: tick + 1,
    digests: run.digests.filter((digest) => digest.tick <= tick),
  };
}

/** Opens the copy. `shown`: the run that the moment belongs to, if it is another than the one on the stage. */
export function tryFrom(atS: number, shown: Scenario | null = null): void {
  const { scenario, job, status, selection, foretold, speed, readiness } = getApp();
  if (!scenario || job?.stage !== 'result' || readiness !== 'ready') return;
  const mine = shown === null;
  const recording: Recording = {
    format: 1,
    engine: ENGINE_VERSION,
    scenarioId: scenario.id,
    seed: scenario.seed,
    inputs: mine ? live.inputs : [],
    headTick: mine ? status.headTick : job.untilTick + 1,
    digests: mine ? live.digests : [],
  };
  const tick = Math.max(1, Math.min(secondsToTicks(atS), recording.headTick - 1));
  const attempt = presentAttempt();
  left = { scenario: shown ?? scenario, recording, tick, selection, job, foretold, speed };
  setJob({ tried: { attempt, atS } });
  const id = `${scenario.id}${COPY_MARK}`;
  loadStory({ ...left.scenario, id }, { saved: { recording: copyUpTo(recording, tick, id), tick, selection } });
  setApp({
    screen: 'main',
    speed: 1,
    job: { ...job, stage: 'trying', untilTick: tick, sealed: false, reachShut: false },
  });
}

/** Shows the marked run again, at the moment that was left; the copy is forgotten. */
export function backToResult(): void {
  if (!left || getJob().tried === null) return;
  const { recording, tick, selection, job, foretold, speed } = left;
  loadStory(left.scenario, { saved: { recording, tick, selection } });
  setJob({ tried: null });
  setApp({ screen: 'main', speed, job, foretold });
  left = null;
}
