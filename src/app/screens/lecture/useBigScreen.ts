/** Turns the page into the Big Screen while it is mounted: its own px, its own colours. */
import { useLayoutEffect } from 'react';
import '../../theme/big.css';
import { setApp } from '../../state/store.ts';

/** The Big Screen is laid out for this many lines, and no narrower than 4:3, px. Source: its sizes are given at 1080 lines. */
const LINES = 1080;
const NARROWEST = (LINES * 4) / 3;

function fitPage(): void {
  const scale = Math.min(innerHeight / LINES, innerWidth / NARROWEST);
  document.documentElement.style.setProperty('--px', `${scale.toFixed(5)}px`);
  document.documentElement.style.setProperty('--big', scale.toFixed(5));
  setApp(({ lecture }) => ({ lecture: lecture && { ...lecture, scale } }));
}

/** Parts of the page that are drawn for it; it goes with the last of them. */
let users = 0;

export function useBigScreen(): void {
  useLayoutEffect(() => {
    const page = document.documentElement;
    users++;
    page.dataset.screen = 'big';
    fitPage();
    addEventListener('resize', fitPage);
    return () => {
      removeEventListener('resize', fitPage);
      users--;
      if (users > 0) return;
      delete page.dataset.screen;
      page.style.removeProperty('--px');
      page.style.removeProperty('--big');
    };
  }, []);
}
