/** Steps the pixel ratio down when drawing is slow, and back up when it has been quick for long. Numbers never change. */
import { useFrame, useThree } from '@react-three/fiber';
import { useEffect, useRef } from 'react';
import type { WebGLRenderer } from 'three';

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

/** Nothing asked for a frame for this long: the picture is at rest and is drawn once more at its best, ms. Assumed: longer
 *  than the gap between two frames of a running story. */
const REST_MS = 500;

/** Assumed: changing the ratio asks for one or two frames; fewer spared would start over without end. */
const SPARE_FRAMES = 4;

/** Counts drawn frames on the canvas element, for whoever must wait for one, and what lies in graphics memory. */
function count(gl: WebGLRenderer): void {
  const { dataset } = gl.domElement;
  dataset.frames = String(Number(dataset.frames ?? 0) + 1);
  dataset.memory = `${gl.info.memory.geometries} geometries, ${gl.info.memory.textures} textures`;
}

interface Ladder {
  rung: number;
  slow: number;
  quick: number;
  lastMs: number;
  /** The next frame is the sharp one of a picture at rest. */
  sharpen: boolean;
  /** Frames still drawn sharp after it: a new ratio asks for frames by itself, and those are no motion. */
  spare: number;
  timer: ReturnType<typeof setTimeout> | undefined;
}

/** Moves a rung when the trend is clear; whether it moved. */
function judge(l: Ladder, gapMs: number, software: boolean): boolean {
  // Longer gaps are pauses between demands, not slow frames.
  if (gapMs > REST_MS) return false;
  const best = software ? 1 : 0;
  l.slow = gapMs > (software ? SLOW_MS.processor : SLOW_MS.graphics) ? l.slow + 1 : Math.max(0, l.slow - 1);
  l.quick = gapMs < QUICK_MS ? l.quick + 1 : 0;
  if (l.slow > JUDGED && l.rung < LADDER.length - 1) l.rung++;
  else if (l.quick > PATIENCE && l.rung > best) l.rung--;
  else return false;
  l.slow = 0;
  l.quick = 0;
  return true;
}

export function QualityLadder({ software, ratio }: { software: boolean; ratio: { current: number } }) {
  const setDpr = useThree((s) => s.setDpr);
  const gl = useThree((s) => s.gl);
  const invalidate = useThree((s) => s.invalidate);
  const ladder = useRef<Ladder>({
    rung: software ? 1 : 0,
    slow: 0,
    quick: 0,
    lastMs: 0,
    sharpen: false,
    spare: 0,
    timer: undefined,
  });
  useEffect(() => () => clearTimeout(ladder.current.timer), []);
  useFrame(() => {
    const l = ladder.current;
    count(gl);
    const nowMs = performance.now();
    const moved = judge(l, nowMs - l.lastMs, software);
    l.lastMs = nowMs;
    const screen = window.devicePixelRatio || 1;
    const full = startDpr(software);
    const running = Math.min(screen, LADDER[l.rung]!);
    // Resizing inside the frame is followed by this frame's drawing, so nothing blank is ever shown.
    if (l.sharpen) {
      l.sharpen = false;
      l.spare = SPARE_FRAMES;
      ratio.current = full;
      setDpr(full);
    } else if (l.spare > 0) l.spare--;
    else if (moved || gl.getPixelRatio() !== running) {
      ratio.current = running;
      setDpr(running);
    }
    clearTimeout(l.timer);
    if (l.spare > 0 || running >= full) return;
    l.timer = setTimeout(() => {
      l.sharpen = true;
      invalidate();
    }, REST_MS);
  });
  return null;
}
