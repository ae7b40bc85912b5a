/** Whether the reader asked for less motion; asked anew each time, it can change while the page is open. */
let query: MediaQueryList | null = null;

export function reducedMotion(): boolean {
  query ??= typeof matchMedia === 'function' ? matchMedia('(prefers-reduced-motion: reduce)') : null;
  return query?.matches ?? false;
}
