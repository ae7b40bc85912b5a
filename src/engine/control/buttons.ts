/** Step 3, second half: presses in the order inner, window, air, each acting on the result of the one before. */
import { airOnPress } from './air.ts';
import { isLit, moveRow, ROWS } from './decide.ts';
import { BUTTONS } from './inputs.ts';
import { see } from './presence.ts';
import { rowOnPress } from './row.ts';
import type { Work } from './types.ts';

/** Every press decoded in Running is accepted and restarts the delays, also one that switches nothing. */
export function decidePresses(work: Work): void {
  const { pressed, state } = work;
  if (!pressed || state.phase !== 'running') return;
  for (const input of BUTTONS) if (pressed[input]) work.events.push({ tick: work.tick, kind: 'press', input });
  see(work);
  if (state.settings.oneButtonForBothRows) {
    if (pressed.inner || pressed.window) pressBothRows(work);
  } else {
    for (const row of ROWS) if (pressed[row]) rowOnPress(work, row, 'pressed');
  }
  if (pressed.air) airOnPress(work);
}

/** A row in short-impulse mode stays Waiting, so it never counts as on. Any row on: both go off. Otherwise, and under on-only, each does what a press means in its state. */
function pressBothRows(work: Work): void {
  const { state } = work;
  const lit = ROWS.some((row) => isLit(state[row].state));
  for (const row of ROWS) {
    if (!lit || state.settings.buttonPolicy === 'onOnly') rowOnPress(work, row, 'pressedBothRows');
    else if (state[row].mode !== 'shortImpulse') moveRow(work, row, 'heldOff', 'pressedBothRows', []);
  }
}
