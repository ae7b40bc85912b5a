/** From state to what a view may know. Reads only; nothing here is remembered. */
import { explainOutput, rowLight } from './control/control.ts';
import type { Frame, HeldView, OutputView } from './frame.ts';
import { lightField, lightRoom, skyNow } from './light/light.ts';
import type { LightField } from './light/types.ts';
import { personView, poseBodies } from './people/people.ts';
import { type RoomInput, setupAfter } from './setup.ts';
import { CHANNELS, type Simulation, type StepResult } from './simulation.ts';
import { skyMoment } from './skyClock.ts';
import { previewLight } from './tables.ts';
import type { Explanation } from './trace.ts';
import { NUMBERS_PER_PART, type OutputId, PARTS_PER_BODY, type Setup, type Tick } from './types.ts';
import { SUB_STEPS, wrapDeg } from './units.ts';

export const OUTPUTS: readonly OutputId[] = ['innerRow', 'windowRow', 'airContact'];

/** The last tick that has been worked; before the first one, tick 0 itself. */
function shownTick(sim: Simulation): Tick {
  return Math.max(0, sim.state.tick - 1);
}

/** Why an output is as it is now, why not otherwise, and until when. */
export function explain(sim: Simulation, output: OutputId): Explanation {
  return explainOutput(sim.state.control, output, shownTick(sim));
}

function outputView(sim: Simulation, output: OutputId): OutputView {
  const explained = explain(sim, output);
  const running = explained.badge === 'timing' || explained.badge === 'someoneSeen';
  return {
    output,
    on: explained.on,
    state: explained.state,
    badge: explained.badge,
    sinceTick: running ? explained.lastSeenTick : (explained.decided?.tick ?? null),
    untilTick: explained.untilTick,
  };
}

/** `step` is what the last tick brought; null before the first tick and right after a seek. */
export function frameOf(sim: Simulation, step: StepResult | null): Frame {
  const { state, scenario, tables } = sim;
  const { control, plant } = state;
  const tick = shownTick(sim);
  const sky = skyNow(state.light, tick);
  const moment = skyMoment(scenario, state.setup, state.seed, tick);
  const lamps = { inner: plant.innerLevel, window: plant.windowLevel };
  const light = step?.light ?? lightRoom(tables.light, state.light, tick, lamps, state.setup);
  const inner = rowLight(control, 'inner');
  const window = rowLight(control, 'window');
  const reduced = control.settings.reducedSensitivity;
  const limits = tables.movement.thresholdsUv;
  const body = poseNow(sim);
  return {
    tick,
    phase: control.phase,
    phaseEndsTick: control.phaseEndsTick,
    sun: {
      altitudeDeg: sky.altitudeDeg,
      azimuthDeg: sky.azimuthDeg,
      bearingDeg: wrapDeg(sky.azimuthDeg - scenario.room.backWallFacesDeg),
      directNormalLx: sky.directNormalLx,
      outsideHorizontalLx: sky.outsideHorizontalLx,
      localS: wrapClock(moment.utcMs / 1000 + scenario.start.utcOffsetH * 3600),
      localDate: state.setup.sunLocalDate,
    },
    // Whoever was taken out is gone for the view; the place in the state stays, so that nobody else's number changes.
    people: state.people.filter((person) => !person.removed).map((person) => personView(person, tick)),
    bodyParts: body.parts,
    bodyCount: body.count,
    lamps,
    outputs: {
      innerRow: outputView(sim, 'innerRow'),
      windowRow: outputView(sim, 'windowRow'),
      airContact: outputView(sim, 'airContact'),
    },
    light: { inner, window },
    deskLx: [...light.deskLx],
    pips: {
      movement: (step?.pulses.length ?? 0) > 0,
      light: isTooDark(inner) || isTooDark(window),
      air: control.air.contactClosed,
    },
    held: heldBefore(state.setup, tick),
    signalUv: step ? step.signalUv.slice() : new Float32Array(CHANNELS * SUB_STEPS),
    thresholdsUv: reduced
      ? { hold: limits.holdReduced, switchOn: limits.switchOnReduced }
      : { hold: limits.hold, switchOn: limits.switchOn },
    pulses: step ? [...step.pulses] : [],
    lastSeenTick: control.lastSeenTick,
  };
}

/** Whether cloth and torch still act in the tick that is shown. */
function heldBefore({ coveredUntilTick = 0, torch }: Setup, tick: Tick): HeldView {
  return {
    cloth: tick < coveredUntilTick ? { untilTick: coveredUntilTick } : null,
    torch: torch && tick < torch.untilTick ? torch : null,
  };
}

function isTooDark(row: Frame['light']['inner']): boolean {
  return row.setpointLx !== null && row.daylightEstimateLx < row.setpointLx;
}

function wrapClock(s: number): number {
  return ((s % 86400) + 86400) % 86400;
}

function poseNow(sim: Simulation): { parts: Float32Array; count: number } {
  const buffer = sim.scratch.bodies[SUB_STEPS - 1]!;
  poseBodies(sim.state.people, sim.state.setup.warmThings, shownTick(sim), SUB_STEPS - 1, buffer);
  const used = buffer.count * PARTS_PER_BODY * NUMBERS_PER_PART;
  return { parts: Float32Array.from(buffer.parts.subarray(0, used)), count: buffer.count };
}

/** Lux on every element for the picture, per source. */
export function fieldOf(sim: Simulation): LightField {
  const moment = skyMoment(sim.scenario, sim.state.setup, sim.state.seed, shownTick(sim));
  return lightField(sim.tables.light, moment, sim.state.setup);
}

/** The picture as these acts will leave it, nearly (see `previewLight`); null where the true one is quick. */
export function previewField({ scenario, state }: Simulation, acts: readonly RoomInput[]): LightField | null {
  const setup = setupAfter(state.setup, acts, scenario.room);
  const tables = previewLight(scenario, setup);
  return tables && lightField(tables, skyMoment(scenario, setup, state.seed, state.tick), setup);
}
