/**
 * Which pulses are movement. Occupied room: one pulse above the hold threshold. Otherwise, and in Walk-test: two
 * pulses of one channel above the switch-on threshold within 4 s. Reduced sensitivity goes by the raised thresholds.
 * Sensing knows nothing of this, so stored pulses can be judged again under other settings.
 */
import type { Pulse } from '../types.ts';
import { SUB_STEPS } from '../units.ts';
import { isPairOpen } from './questions.ts';
import type { ControlState, Work } from './types.ts';

/** Quadrant channels whose pulses pair up. Source: our own lens has one dual element per quadrant. */
export const PULSE_CHANNELS = 4;

export function forgetPulses(state: ControlState): void {
  state.unpairedTick = null;
  for (let channel = 0; channel < PULSE_CHANNELS; channel++) state.switchOnSubSteps[channel] = null;
}

/** Pulses of this tick that are movement by the rule in force; first pulses are remembered for their partner. */
export function movingPulses(work: Work): Pulse[] {
  const { state, tick } = work;
  const reduced = state.settings.reducedSensitivity;
  const holdSuffices = state.phase === 'running' && state.occupiedAtEnd;
  const moving: Pulse[] = [];
  for (const pulse of work.input.pulses) {
    const switchesOn = pulse.level === (reduced ? 'switchOnReduced' : 'switchOn');
    const holds = pulse.level === (reduced ? 'holdReduced' : 'hold');
    const subStep = tick * SUB_STEPS + pulse.subStep;
    const paired = switchesOn && isPairOpen(state, pulse.channel, subStep);
    if (switchesOn) state.switchOnSubSteps[pulse.channel] = subStep;
    if (paired || (holdSuffices && (holds || switchesOn))) moving.push(pulse);
  }
  return moving;
}

/** Every pulse at a threshold in force is reported; those of the other sensitivity are nothing to this controller. */
export function reportPulses(work: Work, counted: readonly Pulse[]): void {
  const { settings } = work.state;
  for (const pulse of work.input.pulses) {
    const ofReduced = pulse.level === 'holdReduced' || pulse.level === 'switchOnReduced';
    if (ofReduced !== settings.reducedSensitivity) continue;
    work.events.push({ tick: work.tick, kind: 'pulse', pulse, counted: counted.includes(pulse) });
  }
}
