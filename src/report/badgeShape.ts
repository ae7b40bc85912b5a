/** State badges as SVG text, on a grid of 48. Words stand beside them always. */
import type { BadgeId } from '../engine/trace.ts';
import { circle, line, n2, tag } from './svg.ts';

const HEXAGON = 'M24 4L41.3 14V34L24 44L6.7 34V14Z';

/** Ring from the top: what is left is full, clockwise; the rest faint. */
function ring(left: number, colour: string): string {
  const length = 2 * Math.PI * 20;
  const share = Math.min(1, Math.max(0, left)) * length;
  const plain = { fill: 'none', stroke: colour, 'stroke-width': 4 };
  return (
    circle(24, 24, 20, { ...plain, opacity: 0.22 }) +
    circle(24, 24, 20, { ...plain, 'stroke-dasharray': `${n2(share)} ${n2(length)}`, transform: 'rotate(-90 24 24)' })
  );
}

function shape(badge: BadgeId, left: number, colour: string): string {
  const open = { fill: 'none', stroke: colour, 'stroke-width': 4 };
  switch (badge) {
    case 'on':
    case 'someoneSeen':
      return circle(24, 24, 17, { fill: colour });
    case 'timing':
      return circle(24, 24, 12.5, { fill: colour }) + ring(left, colour);
    case 'brightEnough':
      return (
        tag('path', { d: 'M11 30a13 13 0 0 0 26 0z', fill: colour }) +
        circle(24, 30, 12, { ...open, 'stroke-width': 2.5 }) +
        line('M24 12V4M14.5 14.5L10 7.5M33.5 14.5L38 7.5', colour, 3)
      );
    case 'enoughDaylight':
      return line('M6 6h36', colour, 4) + circle(24, 28, 13, open);
    case 'off':
    case 'nobodySeen':
    case 'waitsForButton':
    case 'deviceOff':
      return circle(24, 24, 15, open);
    case 'heldOn':
      return tag('path', { d: 'M6 6h36v36H31V29H17v13H6z', fill: colour });
    case 'heldOff':
      return line('M8 8h32v32H31V29H17v11H8z', colour, 4);
    case 'watching':
      return circle(24, 24, 11, { ...open, 'stroke-width': 3.5 }) + ring(1 - left, colour);
    case 'starting':
      return line(HEXAGON, colour, 3) + line('M13 36L22 30M12 30L30 20M22 39L36 31M20 33L37 23', colour, 2.5);
    case 'walkTest':
      return line(HEXAGON, colour, 4);
    case 'notMeasured':
      return circle(24, 24, 16, { ...open, 'stroke-dasharray': '0.1 8.2', 'stroke-linecap': 'round' });
  }
}

/** The badge with its upper left corner at x, y. `left`: share of the running count that is left, 0-1. */
export function badgeMark(badge: BadgeId, left: number, x: number, y: number, sizePx: number, colour: string): string {
  return tag('g', { transform: `translate(${n2(x)} ${n2(y)}) scale(${n2(sizePx / 48)})` }, shape(badge, left, colour));
}
