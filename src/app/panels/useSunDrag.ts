import { useEffect, useRef, useState } from 'react';
import { moveSunTo, sunAnswered } from '../state/acts.ts';
import { useApp } from '../state/store.ts';

/** Longest wait for an answer before the next act of a gesture, ms. Assumed: four a second still look like dragging. */
const LONGEST_WAIT_MS = 250;

/** Sends the sun's hour while a gesture lasts: the latest one as soon as the room shows the one before, and its end always. */
export function useSunDrag(): { previewS: number | null; move: (s: number) => void; end: () => void } {
  const [previewS, setPreview] = useState<number | null>(null);
  const gesture = useRef({ wantedS: null as number | null, sentS: null as number | null, sentMs: 0 });
  const { current: now } = gesture;
  const send = (): void => {
    if (now.wantedS === null || now.wantedS === now.sentS) return;
    if (!sunAnswered() && performance.now() - now.sentMs < LONGEST_WAIT_MS) return;
    now.sentS = now.wantedS;
    now.sentMs = performance.now();
    moveSunTo(now.wantedS, null, false);
  };
  const onAnswer = useRef(send);
  onAnswer.current = send;
  useEffect(() => useApp.subscribe(() => onAnswer.current()), []);
  const move = (s: number): void => {
    now.wantedS = s;
    setPreview(s);
    send();
  };
  const end = (): void => {
    if (now.wantedS !== null) moveSunTo(now.wantedS, null, true);
    Object.assign(now, { wantedS: null, sentS: null });
    setPreview(null);
  };
  return { previewS, move, end };
}
