/**
 * What the picture shows this instant: the last two frames blended, lamps fading, exposure adapting. The scene's own
 * small memory, written once per drawn frame by `Conductor` and read by every part; holds nothing that could not be
 * thrown away.
 */
import type { Frame } from '../../engine/frame.ts';
import { NUMBERS_PER_PART, PARTS_PER_BODY } from '../../engine/types.ts';
import { live } from '../state/live.ts';

const BODY_NUMBERS = PARTS_PER_BODY * NUMBERS_PER_PART;

export interface ViewNow {
  /** Ellipsoids of the bodies, blended. */
  parts: Float32Array;
  bodyCount: number;
  /** Lamp levels as drawn, 0-1. */
  lamps: { inner: number; window: number };
  exposure: number;
  /** When lamps last jumped without a fade, ms. */
  jumpedAtMs: number;
  /** True while bodies or lamps are still on their way. */
  moving: boolean;
  /** True while something still moves or fades on its own, be it the exposure alone: draw another frame. */
  restless: boolean;
}

export function createView(): ViewNow {
  return {
    parts: new Float32Array(0),
    bodyCount: 0,
    lamps: { inner: 0, window: 0 },
    exposure: 0,
    jumpedAtMs: -Infinity,
    moving: false,
    restless: false,
  };
}

/** Lamps fade by this much of full light per second. Value: `look`, .4 s. */
const LAMP_FADE_PER_S = 1 / 0.4;
/** Time constant of the exposure's logarithm, s: nine tenths settled after 1 s, all but a fiftieth after 1.5 s. Value: `look`.
 *  In the logarithm, as lamps in a dark room change it two-hundredfold and would blind for seconds otherwise. */
const EXPOSURE_S = 0.4;
/** Longest time over which two frames are blended, ms. Assumed: a frame later than this is a jump, not a motion. */
const BLEND_LIMIT_MS = 250;

let lastArrivalMs = 0;
let gapMs = 100;

/** How far between the last two frames the picture is, 0-1: one frame interval behind the newest. */
function blendShare(nowMs: number): number {
  if (live.frameAtMs !== lastArrivalMs) {
    const gap = live.frameAtMs - lastArrivalMs;
    if (gap > 0 && gap < BLEND_LIMIT_MS) gapMs = gap;
    lastArrivalMs = live.frameAtMs;
  }
  return Math.min(1, Math.max(0, (nowMs - live.frameAtMs) / gapMs));
}

function canBlend(a: Frame | null, b: Frame): a is Frame {
  // More than two seconds apart is a seek or a fast run: places are shown as they are.
  return a !== null && a.bodyCount === b.bodyCount && b.tick > a.tick && b.tick - a.tick <= 20;
}

function blendBodies(view: ViewNow, frame: Frame, share: number): void {
  const count = frame.bodyCount * BODY_NUMBERS;
  if (view.parts.length < count) view.parts = new Float32Array(count);
  view.bodyCount = frame.bodyCount;
  const from = live.previousFrame;
  const [to, out] = [frame.bodyParts, view.parts];
  if (share >= 1 || !canBlend(from, frame)) {
    out.set(to.subarray(0, count));
    return;
  }
  for (let k = 0; k < count; k++) out[k] = from.bodyParts[k]! + (to[k]! - from.bodyParts[k]!) * share;
}

function fade(from: number, to: number, deltaS: number): number {
  const step = LAMP_FADE_PER_S * deltaS;
  return Math.abs(to - from) <= step ? to : from + Math.sign(to - from) * step;
}

/** Without a fade lamps jump at most three times a second, whatever the room does: faster would flash. Source: WCAG 2.3.1. */
const JUMP_EVERY_MS = 340;

function moveLamps(
  view: ViewNow,
  to: ViewNow['lamps'],
  nowMs: number,
  deltaS: number,
  { jump, calm }: { jump: boolean; calm: boolean },
): void {
  const { lamps } = view;
  if (lamps.inner === to.inner && lamps.window === to.window) return;
  if (!jump) {
    lamps.inner = fade(lamps.inner, to.inner, deltaS);
    lamps.window = fade(lamps.window, to.window, deltaS);
    return;
  }
  if (calm && nowMs - view.jumpedAtMs < JUMP_EVERY_MS) return;
  lamps.inner = to.inner;
  lamps.window = to.window;
  view.jumpedAtMs = nowMs;
}

/**
 * Brings the view to `nowMs`. `deltaS` since the last drawn frame; `aim` is the exposure for the present light.
 * `calm`: reduced motion: no easing at all; `stepped`: no in-between pictures of bodies.
 */
export function advanceView(
  view: ViewNow,
  nowMs: number,
  deltaS: number,
  aim: number,
  { calm, stepped }: { calm: boolean; stepped: boolean },
): void {
  const frame = live.frame;
  if (!frame) return;
  const share = calm || stepped ? 1 : blendShare(nowMs);
  blendBodies(view, frame, share);
  const first = view.exposure === 0;
  const jump = calm || first || live.previousFrame === null;
  moveLamps(view, frame.lamps, nowMs, deltaS, { jump, calm });
  view.exposure = jump ? aim : aim * (view.exposure / aim) ** Math.exp(-deltaS / EXPOSURE_S);
  if (Math.abs(view.exposure / aim - 1) < 0.003) view.exposure = aim;
  view.moving =
    (share < 1 && canBlend(live.previousFrame, frame)) ||
    view.lamps.inner !== frame.lamps.inner ||
    view.lamps.window !== frame.lamps.window;
  view.restless = view.moving || view.exposure !== aim;
}
