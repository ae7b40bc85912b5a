/** draw: plan and strip chart of a story on one page, or an answer sheet, as SVG. */
import { writeFileSync } from 'node:fs';
import { sightCells } from '../engine/detection/sightCells.ts';
import type { PointM, Tick } from '../engine/types.ts';
import { advance, type Session } from '../host/session.ts';
import { lastSightings } from '../host/sightings.ts';
import type { Moment } from '../report/moment.ts';
import { answerSheet, reportPage, walkLinesOf } from '../report/page.ts';
import type { PlanExtras } from '../report/planLife.ts';
import type { StripData } from '../report/strip.ts';
import { clockOption, type MomentOrder, momentOf, readMoment, runTo } from './moment.ts';
import { complain } from './stories.ts';

export function stripData({ sim, line }: Session): StripData {
  return {
    scenario: sim.scenario,
    events: line.events,
    signalUv: line.series.signalUv,
    innerEstimateLx: line.series.samples.innerEstimateLx,
    windowEstimateLx: line.series.samples.windowEstimateLx,
  };
}

/** Marks stay this long, ticks. Assumed: long enough to count the pulses of one walk through a room. */
const MARK_TICKS = 300;

function lastMarks({ events, frame }: Moment): PointM[] {
  return events.flatMap((event) =>
    event.kind === 'pulse' && event.counted && event.pulse.atM && event.tick > frame.tick - MARK_TICKS
      ? [event.pulse.atM]
      : [],
  );
}

/** The Sight Map, when it is asked for. */
function cellsOf({ sim }: Session, wanted: boolean): PlanExtras {
  if (!wanted) return {};
  const { scenario, tables, state } = sim;
  return { sightCells: sightCells(scenario.detectorModel, tables.movement, state.control.settings.maskedSectors) };
}

function pageOf({ scenario, tick, args }: MomentOrder, fromTick: Tick): string {
  const sight = args.flags.has('sight');
  const walkLinesM = walkLinesOf({ scenario });
  if (args.flags.has('blank')) {
    const session = runTo(scenario, fromTick);
    const start = momentOf(session);
    const extras = { walkLinesM, ...cellsOf(session, sight) };
    advance(session, tick - fromTick);
    return answerSheet(start, stripData(session), tick, extras);
  }
  const session = runTo(scenario, tick);
  const moment = { ...momentOf(session), personSeenTick: lastSightings(session.line.sightings, tick) };
  const extras = { walkLinesM, marksM: lastMarks(moment), ...cellsOf(session, sight) };
  return reportPage(moment, stripData(session), fromTick, extras);
}

/** Shortest stretch of time that a strip can show, ticks: ten seconds, as its axis has no finer labels. */
const LEAST_TICKS = 100;

export function draw(words: string[]): number {
  const order = readMoment(words, ['from', 'out'], ['blank', 'sight']);
  if (!order) return 1;
  const fromTick = clockOption(order.args, 'from', order.scenario, 0);
  if (fromTick === null) return 1;
  if (order.tick - fromTick < LEAST_TICKS) {
    complain(['--at expects a clock time at least ten seconds after the beginning of the strip.']);
    return 1;
  }
  const svg = pageOf(order, fromTick);
  const out = order.args.values.get('out');
  if (out === undefined) {
    process.stdout.write(svg);
    return 0;
  }
  try {
    writeFileSync(out, svg);
  } catch {
    complain([`${out}: expected a file that can be written, but it cannot.`]);
    return 1;
  }
  return 0;
}
