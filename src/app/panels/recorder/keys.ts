/** Keys of the strip. */

/** Ticks that a key moves the instant shown; null: not a key of the strip. */
export function keyTarget(event: React.KeyboardEvent, shown: number, head: number): number | null {
  const step = event.shiftKey ? 100 : 1;
  switch (event.key) {
    case 'ArrowLeft':
    case 'ArrowDown':
      return shown - step;
    case 'ArrowRight':
    case 'ArrowUp':
      return shown + step;
    case 'PageUp':
      return shown + 600;
    case 'PageDown':
      return shown - 600;
    case 'Home':
      return 0;
    case 'End':
      return head;
    default:
      return null;
  }
}
