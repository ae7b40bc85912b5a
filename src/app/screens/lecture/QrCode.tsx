/** A text as a QR code, for telephones in the last row. */
import { encode } from 'uqr';
import { lectureWords } from '../../../report/text/lecture.ts';

/** Light modules around the code. Source: ISO/IEC 18004 asks for four. */
const QUIET = 4;

export function qrPath(text: string): { size: number; d: string } {
  const { data, size } = encode(text, { ecc: 'M', border: QUIET });
  const d = data.flatMap((row, y) => row.flatMap((dark, x) => (dark ? [`M${x} ${y}h1v1h-1z`] : []))).join('');
  return { size, d };
}

export function QrCode({ text }: { text: string }) {
  const { size, d } = qrPath(text);
  return (
    <svg viewBox={`0 0 ${size} ${size}`} role="img" aria-label={lectureWords.qr} shapeRendering="crispEdges">
      <rect width={size} height={size} fill="#fff" />
      <path d={d} fill="#000" />
    </svg>
  );
}
