/** What an eye and a clock tell of a room: for work in which the device's own knowledge must be measured. */
import type { Frame, OutputView, RowLightView } from '../../engine/frame.ts';
import type { TraceEvent } from '../../engine/trace.ts';

const UNKNOWN: RowLightView = {
  ceilingReadingLx: 0,
  deskEstimateLx: 0,
  daylightEstimateLx: 0,
  lampShareLx: 0,
  setpointLx: null,
  releaseLx: null,
};

const plainOutput = (view: OutputView): OutputView => ({
  ...view,
  state: view.on ? 'litByAutomatic' : 'waiting',
  badge: view.on ? 'on' : 'off',
  sinceTick: null,
  untilTick: null,
});

/** The frame without phase (unless the device is open), reasons, running times, readings and desk lux. */
export function plainFrame(frame: Frame, open = false): Frame {
  const { innerRow, windowRow, airContact } = frame.outputs;
  return {
    ...frame,
    phase: open ? frame.phase : 'running',
    phaseEndsTick: null,
    outputs: {
      innerRow: plainOutput(innerRow),
      windowRow: plainOutput(windowRow),
      airContact: { ...plainOutput(airContact), state: airContact.on ? 'airOn' : 'airOff' },
    },
    light: { inner: UNKNOWN, window: UNKNOWN },
    deskLx: frame.deskLx.map(() => 0),
    signalUv: new Float32Array(frame.signalUv.length),
    pulses: [],
    lastSeenTick: null,
  };
}

/** Lamps and fan going on and off. */
export function plainEvents(events: TraceEvent[]): TraceEvent[] {
  return events.filter(({ kind }) => kind === 'output');
}
