/** Drawings as text, to be looked at in a diff. After a wanted change: `npx vitest run tests/pictures -u`, then look at them. */
import { rmSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { stripData } from '../../src/cli/draw.ts';
import { momentOf, runTo } from '../../src/cli/moment.ts';
import { storyFrom } from '../../src/cli/stories.ts';
import { sightCells } from '../../src/engine/detection/sightCells.ts';
import { advance } from '../../src/host/session.ts';
import { answerSheet, reportPage, walkLinesOf } from '../../src/report/page.ts';
import { SCREEN_PALETTE } from '../../src/report/palette.ts';
import { planSvg } from '../../src/report/plan.ts';
import { stripSvg } from '../../src/report/strip.ts';

/** Compares with the stored picture; a different one is written beside it, to be looked at. */
async function expectPicture(name: string, svg: string): Promise<void> {
  const changed = new URL(`${name}-changed.svg`, import.meta.url);
  rmSync(changed, { force: true });
  try {
    await expect(svg).toMatchFileSnapshot(`${name}.svg`);
  } catch (error) {
    writeFileSync(changed, svg);
    throw error;
  }
}

const walkIn = storyFrom('winter-walk-in')!;
const oneRow = storyFrom('why-only-one-row')!;
const walkLinesM = walkLinesOf({ scenario: walkIn });

describe('pictures', () => {
  it('shows the corner office before dawn: rows lit by the walker, his line and the marks of his pulses', async () => {
    const moment = momentOf(runTo(walkIn, 60));
    const marksM = moment.events.flatMap((e) => (e.kind === 'pulse' && e.counted && e.pulse.atM ? [e.pulse.atM] : []));
    await expectPicture('walk-in-plan', planSvg(moment, SCREEN_PALETTE, { walkLinesM, marksM }));
  });

  it('shows what the lens sees as outlines under furniture and people', async () => {
    const session = runTo(walkIn, 0);
    const cells = sightCells(walkIn.detectorModel, session.sim.tables.movement, []).filter(
      (cell) => cell.ring >= 6 && cell.ring <= 8,
    );
    await expectPicture('walk-in-sight', planSvg(momentOf(session), SCREEN_PALETTE, { sightCells: cells }));
  });

  it('shows hazy sun on the floor, the window row hollow and the inner row solid', async () => {
    await expectPicture('one-row-plan', planSvg(momentOf(runTo(oneRow, 60))));
  });

  it('shows the first minute of the walk-in as a strip', async () => {
    const session = runTo(walkIn, 600);
    await expectPicture('walk-in-strip', stripSvg(stripData(session), momentOf(session), { fromTick: 0, toTick: 600 }));
  });

  it('shows a quarter of an hour of sun on one page', async () => {
    const session = runTo(oneRow, 9000);
    const moment = momentOf(session);
    await expectPicture('one-row-page', reportPage(moment, stripData(session), 8400, { walkLinesM: [] }));
  });

  it('gives on an answer sheet what a learner needs and nothing of what happened', async () => {
    const session = runTo(oneRow, 8400);
    const start = momentOf(session);
    advance(session, 3000);
    await expectPicture('one-row-answer-sheet', answerSheet(start, stripData(session), 11_400, {}));
  });
});
