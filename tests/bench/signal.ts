/** What showing the signal and the words of who is seen cost the worker while the room runs at 1x, as a share of a core. */
import type { Scenario } from '../../src/engine/types.ts';
import { type Ground, sightsAt, signalAt } from '../../src/host/lookBack.ts';
import { advance, createSession } from '../../src/host/session.ts';
import type { Figure } from './measure.ts';

/** Room time measured, s. Assumed: each walker crosses the room twice. */
const RUN_S = 20;
/** The strip is redrawn five times a second, the words asked for every one and a half. Source: the page's own pace. */
const STRIP_EVERY_TICKS = 2;
const WORDS_EVERY_TICKS = 15;

type Asked = 'nothing' | 'signal' | 'signal and words';

/** Milliseconds of work for one second of the room. */
function msPerSecond(scenario: Scenario, asked: Asked): number {
  const session = createSession(scenario);
  advance(session, 700);
  const ground: Ground = session;
  if (asked === 'signal and words') sightsAt(ground, session.line.headTick - 1);
  const start = performance.now();
  for (let tick = 1; tick <= RUN_S * 10; tick++) {
    advance(session, 1);
    const { headTick } = session.line;
    if (asked !== 'nothing' && tick % STRIP_EVERY_TICKS === 0) signalAt(ground, headTick - STRIP_EVERY_TICKS, headTick);
    if (asked === 'signal and words' && tick % WORDS_EVERY_TICKS === 0) sightsAt(ground, headTick - 1);
  }
  return (performance.now() - start) / RUN_S;
}

/** `scenario` has the people in it. Values are per cent of a core. */
export function signalFigures(scenario: Scenario, yardstickMs: number): Figure[] {
  return (['nothing', 'signal', 'signal and words'] as const).map((asked) => {
    const ms = [1, 2, 3].map(() => msPerSecond(scenario, asked)).sort((a, b) => a - b)[1]!;
    const name = `1x with ${scenario.people.length} people walking, ${asked} shown`;
    return { name, value: ms / 10, unit: '% of a core', ratio: ms / yardstickMs };
  });
}
