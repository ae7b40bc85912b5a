/** Decisions as sentences in the past tense, and explanations as paragraphs. Values are those the decision was made with. */
import type { Condition, ConditionId, Explanation, Reason } from '../../engine/trace.ts';
import type { ControllerSettings } from '../../engine/types.ts';
import { TICKS_PER_S } from '../../engine/units.ts';
import { badgeWords } from './badges.ts';
import { changeClause, conditionSentence, contextOf } from './conditions.ts';
import { capital, joined, luxBeside, luxText, minuteSecond } from './format.ts';
import { outputName } from './names.ts';

function find(reason: Reason, id: ConditionId): Condition | undefined {
  return reason.conditions.find((c) => c.id === id);
}

/** ": without its lamps 310 lx, set 500 lx", or nothing when brightness was not looked at. */
function lightPart(reason: Reason, id: 'dark' | 'bright'): string {
  const c = find(reason, id);
  if (!c || c.value === null || c.limit === null) return '';
  return `: without its lamps ${luxBeside(c.value, c.limit)}, ${id === 'dark' ? 'set' : 'release'} ${luxText(c.limit)}`;
}

function delayPart(reason: Reason): string {
  const c = find(reason, 'occupied') ?? find(reason, 'airOccupied');
  return c?.limit ? ` for ${minuteSecond(c.limit)}` : '';
}

/** Why a decision was made, one sentence. */
export function reasonSentence(reason: Reason): string {
  switch (reason.code) {
    case 'seenAndDark':
      return `Someone was seen and it was under the setpoint${lightPart(reason, 'dark')}.`;
    case 'seenNotDark':
      return `Someone was seen and there was daylight enough${lightPart(reason, 'dark')}.`;
    case 'pressed':
      return 'Its button was pressed.';
    case 'pressedBothRows':
      return 'The one button for both rows was pressed.';
    case 'brightLongEnough': {
      const dwell = find(reason, 'brightDwell')?.limit;
      return `It stayed bright${dwell ? ` for ${minuteSecond(dwell)}` : ''}${lightPart(reason, 'bright')}.`;
    }
    case 'darkLongEnough': {
      const dwell = find(reason, 'darkDwell')?.limit;
      return `It stayed under the setpoint${dwell ? ` for ${minuteSecond(dwell)}` : ''}${lightPart(reason, 'dark')}.`;
    }
    case 'nobodySeen':
      return `Nobody was seen${delayPart(reason)}.`;
    case 'warmUpBegan':
      return 'The supply came on: warm-up, both rows on, not sensing yet.';
    case 'warmUpEnded':
      return 'Warm-up ended: the next movement counts.';
    case 'supplyLost':
      return 'The supply was lost.';
    case 'supplyReturned':
      return 'The supply came back.';
    case 'supplyDipRiddenThrough':
      return 'The supply dipped for a moment; nothing changed.';
    case 'walkTestBegan':
      return 'A walk-test began.';
    case 'walkTestEnded':
      return 'The walk-test ended.';
    case 'walkTestPulse':
      return 'Walk-test: movement was counted.';
    case 'walkTestPulseEnded':
      return 'Walk-test: the flash of 2 s ended.';
    case 'impulse':
      return 'A short impulse was given.';
    case 'impulseEnded':
      return 'The short impulse ended.';
    case 'presenceBegan':
      return 'Someone was seen: its on-delay began.';
    case 'onDelayOver': {
      const limit = find(reason, 'onDelay')?.limit;
      return `Someone stayed about for its on-delay${limit ? ` of ${minuteSecond(limit)}` : ''}.`;
    }
    case 'gapTooLong': {
      const limit = find(reason, 'gapLimit')?.limit;
      return `A gap without movement${limit ? ` of ${minuteSecond(limit)}` : ''} came before its on-delay was over.`;
    }
  }
}

/** Dwells that a clause needs but a condition that has not begun does not carry. */
export type Dwells = Pick<ControllerSettings, 'brightDwellS' | 'darkDwellS'>;

function held(e: Explanation, until: string | null): string {
  const button = e.on ? 'Its button switches it off' : 'Its button switches it on';
  return until ? `${button}; when ${until} it goes back to automatic.` : `${button}.`;
}

/** "stays above 600 lx for 5:00": a limit with the dwell that follows it. */
function withDwell(clause: string, c: Condition, e: Explanation, dwells: Dwells | undefined): string {
  if (!dwells) return clause;
  if (c.id === 'bright') return `${clause} for ${minuteSecond(dwells.brightDwellS)}`;
  if (c.id === 'dark' && e.state === 'daylightIsEnough') {
    return `${clause.replace(' is under ', ' stays under ')} for ${minuteSecond(dwells.darkDwellS)}`;
  }
  return clause;
}

/** What would change the output, in one sentence; null when nothing is known that would. */
export function changeSentence(e: Explanation, dwells?: Dwells): string | null {
  const context = contextOf(e);
  const timed = e.because.find((c) => (c.id === 'occupied' || c.id === 'airOccupied') && c.untilTick !== null);
  const absence = timed ? changeClause(timed, context) : null;
  if (e.because.some((c) => c.id === 'heldByButton')) return held(e, absence);
  const clauses = e.missing.flatMap((c) => {
    const clause = changeClause(c, context);
    return clause === null ? [] : [withDwell(clause, c, e, dwells)];
  });
  if (e.on) {
    const roads = [...new Set([...(absence ? [absence] : []), ...clauses])];
    return roads.length === 0 ? null : `It goes off when ${joined(roads, 'or')}.`;
  }
  // To come on everything that is missing must hold together.
  const needs = [...new Set(clauses)];
  return needs.length === 0 ? null : `It comes on when ${joined(needs, 'and')}.`;
}

/** Title of the opposite question of an explanation. */
export function whyNotTitle(e: Explanation): string {
  return e.on ? 'Why is it not off?' : 'Why is it not on?';
}

/** The whole of an explanation as plain sentences: state, because, decision, change. */
export function explanationSentences(e: Explanation, clock: (tick: number) => string, dwells?: Dwells): string[] {
  const context = contextOf(e);
  const leftS = e.untilTick === null ? null : (e.untilTick - e.tick) / TICKS_PER_S;
  const out = [`${outputName[e.output]}: ${badgeWords(e.badge, leftS).full}.`];
  out.push(...e.because.map((c) => conditionSentence(c, context)));
  if (e.decided) out.push(`So since ${clock(e.decided.tick)}. ${capital(reasonSentence(e.decided.reason))}`);
  const change = changeSentence(e, dwells);
  if (change) out.push(change);
  return out;
}
