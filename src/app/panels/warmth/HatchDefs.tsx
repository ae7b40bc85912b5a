/** The hatchings as SVG patterns, on paper white so that one thing lies before another. */
import { HATCH_LINE_PX, HATCH_STEPS } from '../../theme/hatch.ts';

/** Lines lean right (/) for warmer, left (\) for colder; the pattern tile is turned, its line stays straight. */
const LEANS = [
  { sign: 'warm', turnDeg: 45 },
  { sign: 'cold', turnDeg: -45 },
] as const;

export function HatchDefs() {
  return (
    <defs>
      {LEANS.flatMap(({ sign, turnDeg }) =>
        HATCH_STEPS.map(({ gapPx }, step) => (
          <pattern
            key={`${sign}-${gapPx}`}
            id={`hatch-${sign}-${step}`}
            width={gapPx}
            height={gapPx}
            patternUnits="userSpaceOnUse"
            patternTransform={`rotate(${turnDeg})`}
          >
            <rect width={gapPx} height={gapPx} fill="#fff" />
            <path d={`M${gapPx / 2} 0v${gapPx}`} stroke="var(--ink)" strokeWidth={HATCH_LINE_PX} />
          </pattern>
        )),
      )}
    </defs>
  );
}
