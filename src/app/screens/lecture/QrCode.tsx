/** The address of a lecture's room, for telephones in the last row. */
import { lectureWords } from '../../../report/text/lecture.ts';
import { qrPath } from './qr.ts';

export function QrCode({ text }: { text: string }) {
  const { size, d } = qrPath(text);
  return (
    <svg viewBox={`0 0 ${size} ${size}`} role="img" aria-label={lectureWords.qr} shapeRendering="crispEdges">
      <rect width={size} height={size} fill="#fff" />
      <path d={d} fill="#000" />
    </svg>
  );
}
