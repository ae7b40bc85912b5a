/** A text as the dark modules of a QR code. */
import { encode } from 'uqr';

/** Light modules around the code. Source: ISO/IEC 18004 asks for four. */
const QUIET = 4;

/** `size`: modules along a side, with the light ones around; `d`: a path of unit squares. */
export function qrPath(text: string): { size: number; d: string } {
  const { data, size } = encode(text, { ecc: 'M', border: QUIET });
  const d = data.flatMap((row, y) => row.flatMap((dark, x) => (dark ? [`M${x} ${y}h1v1h-1z`] : []))).join('');
  return { size, d };
}
