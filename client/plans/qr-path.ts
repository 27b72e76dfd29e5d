/** A QR code (ISO/IEC 18004) as one path of dark squares. */
import { encode } from 'uqr';

/** A code of the largest size, with the least correction, holds so many bytes: ISO/IEC 18004, version 40-L (from memory; the encoder refuses one more). */
export const QR_MOST = 2953;
/** Light squares round it, as the standard asks. */
const QUIET = 4;

/** size: of a side, in squares. undefined: the text is too long for a code. */
export function qrPath(text: string): { readonly size: number; readonly d: string } | undefined {
  if (new TextEncoder().encode(text).length > QR_MOST) return undefined;
  const { size, data } = encode(text, { ecc: 'L', border: QUIET });
  const rows = data.map((row, y) => row.map((dark, x) => (dark ? `M${x} ${y}h1v1h-1z` : '')).join(''));
  return { size, d: rows.join('') };
}
