/** Reference rows about the controller, answered by running the controller itself. */
import { createControlState, rowLight, runControl } from '../engine/control/control.ts';
import { numberIn, type RowFunctions } from '../engine/rowInputs.ts';
import { DEFAULT_SETTINGS } from '../scenario/defaults.ts';

/** Someone is seen at this tick, and both rows light in it. */
const SEEN_TICK = 20;
/** Ticks until the share of the lamps has been learned (2 s after the switching) and one more. */
const LEARNED_TICK = SEEN_TICK + 30;

export const controlRows: RowFunctions = {
  mixedLightDaylight: (r) => {
    const settings = {
      ...DEFAULT_SETTINGS,
      // Readings are desk lux here; brightness must neither refuse nor end the light.
      innerDeskFactor: 1,
      windowDeskFactor: 1,
      innerSetpointLx: null,
      windowSetpointLx: null,
    };
    const state = createControlState(settings, { supplyPresent: true });
    const before = numberIn(r, 'beforeSwitch_lx');
    const after = numberIn(r, 'afterSwitch_lx');
    const now = numberIn(r, 'readingNow_lx');
    for (let tick = 0; tick <= LEARNED_TICK; tick++) {
      const lx = tick <= SEEN_TICK ? before : tick < LEARNED_TICK ? after : now;
      runControl(state, {
        tick,
        supplyEdges: [],
        contactEdges: [],
        commands: [],
        pulses: [],
        movements: tick === SEEN_TICK ? [{ sector: null }] : [],
        readings: { innerLx: lx, windowLx: lx },
      });
    }
    return rowLight(state, 'inner').daylightEstimateLx;
  },
};
