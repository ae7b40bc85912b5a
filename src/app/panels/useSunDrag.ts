import { useRef, useState } from 'react';
import { moveSunTo } from '../state/acts.ts';

/** Acts while a slider moves, ms apart: each is an input of the run. Assumed: four a second look like dragging. */
const DRAG_EVERY_MS = 250;

/** Sends the sun's hour at most four times a second while a gesture lasts, and its end always. */
export function useSunDrag(): { previewS: number | null; move: (s: number) => void; end: () => void } {
  const [previewS, setPreview] = useState<number | null>(null);
  const lastMs = useRef(0);
  const wanted = useRef<number | null>(null);
  const move = (s: number): void => {
    wanted.current = s;
    setPreview(s);
    if (performance.now() - lastMs.current < DRAG_EVERY_MS) return;
    lastMs.current = performance.now();
    moveSunTo(s, null, false);
  };
  const end = (): void => {
    if (wanted.current !== null) moveSunTo(wanted.current, null, true);
    wanted.current = null;
    setPreview(null);
  };
  return { previewS, move, end };
}
