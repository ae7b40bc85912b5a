/** draw: plan and strip chart of a story on one page, or an answer sheet, as SVG. */
import { writeFileSync } from 'node:fs';
import { rowLight } from '../engine/control/control.ts';
import type { Session } from '../host/session.ts';
import { planGroup } from '../report/plan.ts';
import { STRIP_HEIGHT_PX, type StripData, stripGroup } from '../report/strip.ts';
import { drawing, INK, tag, text } from '../report/svg.ts';
import { en } from '../report/text/en.ts';
import { clockAt, dayMonth } from '../report/text/format.ts';
import { roomInWords } from '../report/words.ts';
import { momentOf, readMoment, runTo } from './moment.ts';

/** A page 1200 px wide: prints on A4, reads on a projector. */
const WIDTH_PX = 1200;
const MARGIN_PX = 48;
const PLAN_PX = 560;

function stripData(session: Session): StripData {
  const { sim, line } = session;
  const { control } = sim.state;
  const inner = rowLight(control, 'inner');
  const window = rowLight(control, 'window');
  const { hold, holdReduced } = sim.tables.movement.thresholdsUv;
  return {
    scenario: sim.scenario,
    events: line.events,
    signalUv: line.series.signalUv,
    innerEstimateLx: line.series.samples.innerEstimateLx,
    windowEstimateLx: line.series.samples.windowEstimateLx,
    thresholdUv: control.settings.reducedSensitivity ? holdReduced : hold,
    levels: {
      innerSetLx: inner.setpointLx,
      innerReleaseLx: inner.releaseLx,
      windowSetLx: window.setpointLx,
      windowReleaseLx: window.releaseLx,
    },
  };
}

function page(session: Session, tick: number, blank: boolean): string {
  const moment = momentOf(session);
  const { scenario } = moment;
  const plotPx = WIDTH_PX - 2 * MARGIN_PX;
  const planY = 120;
  const stripY = planY + PLAN_PX + 24;
  const head = [
    text(MARGIN_PX, 58, scenario.question, {
      'font-family': 'Newsreader, Georgia, serif',
      'font-size': 34,
      'font-weight': 560,
    }),
    text(
      MARGIN_PX,
      88,
      `${scenario.title} · ${dayMonth(scenario.start.localDate)} · ${clockAt(tick, scenario.start)}`,
      {},
    ),
  ];
  const plan = planGroup(moment, { x: MARGIN_PX, y: planY, widthPx: plotPx, heightPx: PLAN_PX });
  const from = { x: MARGIN_PX, y: stripY, widthPx: plotPx, fromTick: 0, toTick: Math.max(600, tick), blank };
  const strip = stripGroup(stripData(session), from);
  const footY = stripY + STRIP_HEIGHT_PX + 30;
  const rule = tag('path', { d: `M${MARGIN_PX} ${footY - 24}h${plotPx}`, stroke: INK });
  const foot = blank ? en.draw.nameAndDate : en.draw.simulation;
  return drawing(WIDTH_PX, footY + 24, `${scenario.title}: ${scenario.question}`, roomInWords(moment).join(' '), [
    ...head,
    plan,
    strip,
    rule,
    text(MARGIN_PX, footY, foot, {}),
  ]);
}

export function draw(args: string[]): number {
  const order = readMoment(args, ['out'], ['blank']);
  if (!order) return 1;
  const svg = page(runTo(order.scenario, order.tick), order.tick, order.args.flags.has('blank'));
  const out = order.args.values.get('out');
  if (out === undefined) process.stdout.write(svg);
  else writeFileSync(out, svg);
  return 0;
}
