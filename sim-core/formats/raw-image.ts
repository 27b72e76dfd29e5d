/** Raw bytes, as a reader of chips gives them: no addresses, no checks, only their number. */

import { grouped } from '../../shared/grouped.ts';
import { done, failed, type Outcome } from '../../shared/outcome.ts';
import type { MemoryImage } from '../logic/memory-image.ts';
import { type FileRead, type MemoryPlace, remarksOn } from './placing.ts';

/**
 * Refused where the file is larger than the memory or ends before it; a shorter one leaves the rest at `fill`, and a remark says so.
 * Fails with `image/wrong-size`.
 */
export function readRawImage(file: Uint8Array, { size, fill = 0xff, from = 0 }: MemoryPlace): Outcome<FileRead> {
  if (from >= file.length && file.length > 0)
    return failed(
      'image/wrong-size',
      'size',
      `The file has ${grouped(file.length)} bytes and ends before byte ${from}, where this memory begins. Begin it earlier.`,
    );
  const whole = file.subarray(from);
  if (whole.length > size)
    return failed(
      'image/wrong-size',
      'size',
      `The file has ${grouped(whole.length)} bytes${from > 0 ? ` from byte ${from} on` : ''}, and ${grouped(size)} fit into this memory. Choose a larger memory, or cut the file.`,
    );
  const bytes = new Uint8Array(size).fill(fill);
  bytes.set(whole);
  const given = new Uint8Array(size).fill(0xff, 0, whole.length);
  return done({ image: { bytes, given }, remarks: remarksOn({ bytes, given }, 0, fill) });
}

/** The whole memory, fill included. */
export const writeRawImage = (image: MemoryImage): Uint8Array => image.bytes.slice();
