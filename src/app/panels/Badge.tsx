/** State badges, drawn on a grid of 48. Always shown with words beside them, so hidden from screen readers. */
import type { ReactNode } from 'react';
import type { BadgeId } from '../../engine/trace.ts';

interface BadgeProps {
  badge: BadgeId;
  /** Share of the running count that is left, 0-1: the ring of `timing` empties, that of `watching` fills. */
  left: number;
  size: number;
  colour?: string;
}

const HEXAGON = '24,4 41.3,14 41.3,34 24,44 6.7,34 6.7,14';

/** Ring from the top: what is left is drawn full, clockwise; the rest at 22 %. */
function ring(left: number, radius: number): ReactNode {
  const length = 2 * Math.PI * radius;
  const share = Math.min(1, Math.max(0, left));
  return (
    <>
      <circle cx={24} cy={24} r={radius} fill="none" stroke="currentColor" strokeWidth={4} opacity={0.22} />
      <circle
        cx={24}
        cy={24}
        r={radius}
        fill="none"
        stroke="currentColor"
        strokeWidth={4}
        strokeDasharray={`${share * length} ${length}`}
        transform="rotate(-90 24 24)"
      />
    </>
  );
}

function shape(badge: BadgeId, left: number): ReactNode {
  switch (badge) {
    case 'on':
    case 'someoneSeen':
      return <circle cx={24} cy={24} r={17} fill="currentColor" />;
    case 'timing':
      return (
        <>
          <circle cx={24} cy={24} r={12.5} fill="currentColor" />
          {ring(left, 20)}
        </>
      );
    case 'brightEnough':
      return (
        <g stroke="currentColor" fill="none">
          <path d="M11 30a13 13 0 0 0 26 0z" fill="currentColor" stroke="none" />
          <circle cx={24} cy={30} r={12} strokeWidth={2.5} />
          <path d="M24 12V4M14.5 14.5 10 7.5M33.5 14.5 38 7.5" strokeWidth={3} />
        </g>
      );
    case 'enoughDaylight':
      return (
        <g stroke="currentColor" fill="none" strokeWidth={4}>
          <path d="M6 6h36" />
          <circle cx={24} cy={28} r={13} />
        </g>
      );
    case 'off':
    case 'nobodySeen':
    case 'waitsForButton':
    case 'deviceOff':
      return <circle cx={24} cy={24} r={15} fill="none" stroke="currentColor" strokeWidth={4} />;
    case 'heldOn':
      return <path d="M6 6h36v36H31V29H17v13H6z" fill="currentColor" />;
    case 'heldOff':
      return <path d="M8 8h32v32H31V29H17v11H8z" fill="none" stroke="currentColor" strokeWidth={4} />;
    case 'watching':
      return (
        <>
          <circle cx={24} cy={24} r={11} fill="none" stroke="currentColor" strokeWidth={3.5} />
          {ring(1 - left, 20)}
        </>
      );
    case 'starting':
      return (
        <g stroke="currentColor" fill="none" strokeWidth={3}>
          <polygon points={HEXAGON} />
          <path d="M13 36 22 30M12 30 30 20M22 39 36 31M20 33 37 23" strokeWidth={2.5} />
        </g>
      );
    case 'walkTest':
      return <polygon points={HEXAGON} fill="none" stroke="currentColor" strokeWidth={4} />;
    case 'notMeasured':
      return (
        <circle
          cx={24}
          cy={24}
          r={16}
          fill="none"
          stroke="currentColor"
          strokeWidth={4}
          strokeDasharray="0.1 8.2"
          strokeLinecap="round"
        />
      );
  }
}

export function Badge({ badge, left, size, colour }: BadgeProps) {
  return (
    <svg
      width={size}
      height={size}
      viewBox="0 0 48 48"
      aria-hidden="true"
      style={colour ? { color: colour } : undefined}
    >
      {shape(badge, left)}
    </svg>
  );
}
