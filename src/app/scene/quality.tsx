/** Steps the pixel ratio down when drawing is slow, and back up when it has been quick for long. Numbers never change. */
import { useFrame, useThree } from '@react-three/fiber';
import { useRef } from 'react';

/** Pixel ratios from best to plainest; the first is capped by the screen. */
const LADDER = [1.5, 1, 0.75] as const;
/** Slower than this between consecutive frames: step down, ms. Assumed: under 12 frames a second motion falls apart; a
 *  processor that draws is forgiven half of that, sharp and slow reads better than blurred and slow. */
const SLOW_MS = { graphics: 84, processor: 170 };
/** Quicker than this for `PATIENCE` frames in a row: step up, ms. Assumed: well clear of SLOW_MS, so that it does not swing. */
const QUICK_MS = 22;
/** Frames judged before a step down, and before a step up. Assumed: one hiccup is no trend. */
const JUDGED = 12;
const PATIENCE = 240;

/** Whether the browser draws with the processor. Asked once, with a context of its own. */
export function isSoftwareGl(): boolean {
  const gl = document.createElement('canvas').getContext('webgl2');
  if (!gl) return false;
  const info = gl.getExtension('WEBGL_debug_renderer_info');
  const name = String(gl.getParameter(info ? info.UNMASKED_RENDERER_WEBGL : gl.RENDERER));
  gl.getExtension('WEBGL_lose_context')?.loseContext();
  return /swiftshader|llvmpipe|basic render|software/i.test(name);
}

export function startDpr(software: boolean): number {
  return Math.min(window.devicePixelRatio || 1, software ? 1 : LADDER[0]);
}

export function QualityLadder({ software }: { software: boolean }) {
  const setDpr = useThree((s) => s.setDpr);
  const rung = useRef(software ? 1 : 0);
  const slow = useRef(0);
  const quick = useRef(0);
  const lastMs = useRef(0);
  useFrame(() => {
    const nowMs = performance.now();
    const gapMs = nowMs - lastMs.current;
    lastMs.current = nowMs;
    // Longer gaps are pauses between demands, not slow frames.
    if (gapMs > 400) return;
    slow.current =
      gapMs > (software ? SLOW_MS.processor : SLOW_MS.graphics) ? slow.current + 1 : Math.max(0, slow.current - 1);
    quick.current = gapMs < QUICK_MS ? quick.current + 1 : 0;
    if (slow.current > JUDGED && rung.current < LADDER.length - 1) rung.current++;
    else if (quick.current > PATIENCE && rung.current > (software ? 1 : 0)) rung.current--;
    else return;
    slow.current = 0;
    quick.current = 0;
    setDpr(Math.min(window.devicePixelRatio || 1, LADDER[rung.current]!));
  });
  return null;
}
