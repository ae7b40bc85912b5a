/**
 * Conditions as sentences. Every number comes from the engine's own condition; nothing is worked out again here.
 * The three quantities of light keep their names: only the daylight estimate meets a setpoint, said as "without its lamps".
 */
import type { Condition, Explanation } from '../../engine/trace.ts';
import type { OutputId, Tick } from '../../engine/types.ts';
import { TICKS_PER_S } from '../../engine/units.ts';
import { luxBeside, luxText, minuteSecond, spokenLength } from './format.ts';

export interface ConditionContext {
  output: OutputId;
  tick: Tick;
  /** The latest sign of presence was a press of a button, which restarts the delays like movement. */
  seenByPress?: boolean;
}

/** Context of an explanation. */
export function contextOf(e: Explanation): ConditionContext {
  const pressed = e.decided?.reason.code === 'pressed' || e.decided?.reason.code === 'pressedBothRows';
  return { output: e.output, tick: e.tick, seenByPress: pressed && e.decided?.tick === e.lastSeenTick };
}

function leftS(c: Condition, tick: Tick): number | null {
  return c.untilTick === null ? null : Math.max(0, (c.untilTick - tick) / TICKS_PER_S);
}

function soFarOfLimit(c: Condition): string {
  const soFar = minuteSecond(c.value ?? 0, 'down');
  return c.limit === null ? soFar : `${soFar} of ${minuteSecond(c.limit)}`;
}

function seenSentence(c: Condition, byPress: boolean): string {
  if (c.value === null) return c.holds ? 'Someone has been seen.' : 'Nobody has been seen yet.';
  if (!c.holds) return `Nobody has moved for ${spokenLength(c.value)}.`;
  if (byPress) return `The press ${c.value < 1 ? 'just now' : `${spokenLength(c.value)} ago`} counts as presence.`;
  return c.value < 1 ? 'Someone is moving now.' : `Someone moved ${spokenLength(c.value)} ago.`;
}

function withoutLamps(c: Condition): string {
  if (c.value === null) return 'Its daylight estimate is not known yet';
  return `Without its lamps: ${c.limit === null ? luxText(c.value) : luxBeside(c.value, c.limit)}`;
}

function movementSentence(c: Condition): string {
  if (c.holds) return 'Movement is counted now.';
  if (c.limit !== null) return 'One movement was counted; in reduced sensitivity a second one must follow soon.';
  return c.value === null ? 'No movement has been counted yet.' : `The last movement was ${spokenLength(c.value)} ago.`;
}

/** One sentence for a condition as it stands at `context.tick`; `short` leaves out the limit that a scale beside it shows. */
export function conditionSentence(c: Condition, context: ConditionContext, short = false): string {
  const left = leftS(c, context.tick);
  switch (c.id) {
    case 'occupied':
    case 'airOccupied':
      return seenSentence(c, context.seenByPress ?? false);
    case 'dark':
      if (c.value === null || c.limit === null) {
        return c.holds ? 'Brightness is ignored.' : `${withoutLamps(c)}.`;
      }
      if (short) return `${withoutLamps(c)}.`;
      return c.holds
        ? `${withoutLamps(c)}, under the setpoint of ${luxText(c.limit)}.`
        : `${withoutLamps(c)}, not under the setpoint of ${luxText(c.limit)}.`;
    case 'bright':
      if (c.value === null || c.limit === null || short) return `${withoutLamps(c)}.`;
      return c.holds
        ? `${withoutLamps(c)}, over the release level of ${luxText(c.limit)}.`
        : `${withoutLamps(c)}, under the release level of ${luxText(c.limit)}.`;
    case 'brightDwell':
      return c.holds
        ? `It has stayed bright for ${soFarOfLimit(c)}.`
        : `It must stay bright: ${soFarOfLimit(c)} so far.`;
    case 'darkDwell':
      return c.holds
        ? `It has stayed under the setpoint for ${soFarOfLimit(c)}.`
        : `It must stay under the setpoint: ${soFarOfLimit(c)} so far.`;
    case 'movement':
      return movementSentence(c);
    case 'switchOnPair':
      if (c.holds) return 'Two clear pulses came within 4 seconds.';
      return c.value === 1
        ? 'One clear pulse came; a second one within 4 seconds would count as movement.'
        : 'To come on it needs two clear pulses within 4 seconds.';
    case 'autoOnMode':
      return c.holds ? 'The row may come on by itself.' : 'In manual-on the row waits for its button.';
    case 'lightRequested':
      return c.holds ? 'Light was asked for in this visit.' : 'Nobody asked for light in this visit.';
    case 'reentryGrace':
      return c.holds
        ? `Re-entry grace: movement still brings it back${left === null ? '' : ` for ${spokenLength(left)}`}.`
        : 'The re-entry grace is over.';
    case 'heldByButton':
      return c.holds ? 'It is held by the wall button.' : 'No button holds it.';
    case 'impulsePause':
      return c.holds ? 'The pause after the last impulse is running.' : 'No pause after an impulse is running.';
    case 'onDelay':
      return c.holds
        ? `The on-delay is over: ${soFarOfLimit(c)}.`
        : `Someone has been about for ${soFarOfLimit(c)}, its on-delay.`;
    case 'gapLimit':
      if (c.holds) return `Nothing moved for ${soFarOfLimit(c)}: the wait began anew.`;
      return c.limit === null
        ? 'A long gap without movement would end the wait.'
        : `Nothing has moved for ${minuteSecond(c.value ?? 0, 'down')}; a gap of ${minuteSecond(c.limit)} would end the wait.`;
    case 'supply':
      return c.holds ? 'The supply is on.' : 'The supply is off.';
    case 'warmUp':
      return c.holds
        ? `Warm-up: not sensing yet${left === null ? '' : `, ${spokenLength(Math.ceil(left))} to go`}.`
        : 'Warm-up is over.';
    case 'walkTest':
      return c.holds ? 'A walk-test runs: light and delays are set aside.' : 'No walk-test is running.';
  }
}

/** How a person would ask for this condition to change, after "when": used for "what would change it". */
export function changeClause(c: Condition, context: ConditionContext): string | null {
  const left = leftS(c, context.tick);
  switch (c.id) {
    case 'occupied':
    case 'airOccupied':
      if (!c.holds) return 'someone moves';
      return left === null ? 'nobody is seen for its off-delay' : `nobody is seen for another ${minuteSecond(left)}`;
    case 'movement':
    case 'switchOnPair':
      return 'someone moves';
    case 'dark':
      return c.limit === null ? null : `its daylight estimate is under ${luxText(c.limit)}`;
    case 'bright':
      return c.limit === null ? null : `its daylight estimate stays above ${luxText(c.limit)}`;
    case 'brightDwell':
      if (left !== null) return `it stays bright for another ${minuteSecond(left)}`;
      return c.limit === null ? null : `it stays bright for ${minuteSecond(c.limit)}`;
    case 'darkDwell':
      if (left !== null) return `it stays under the setpoint for another ${minuteSecond(left)}`;
      return c.limit === null ? null : `it stays under the setpoint for ${minuteSecond(c.limit)}`;
    case 'autoOnMode':
    case 'lightRequested':
    case 'heldByButton':
    case 'reentryGrace':
      return 'its button is pressed';
    case 'onDelay':
      return left === null ? 'presence lasts for its on-delay' : `presence lasts another ${minuteSecond(left)}`;
    case 'gapLimit':
      return c.limit === null ? null : `no gap without movement reaches ${minuteSecond(c.limit)}`;
    case 'supply':
      return 'the supply comes back';
    case 'warmUp':
      return left === null ? 'warm-up ends' : `warm-up ends in ${spokenLength(Math.ceil(left))}`;
    case 'walkTest':
      return 'the walk-test ends';
    case 'impulsePause':
      return 'the pause after the impulse ends';
  }
}
