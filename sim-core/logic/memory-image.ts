/** What a memory holds or has to hold: its bytes, and which of their bits somebody gave. */

import { grouped } from '../../shared/grouped.ts';
import { done, failed, type Outcome } from '../../shared/outcome.ts';
import { hexAddress, hexByte } from '../units/hex.ts';

/** Bytes by address, and for each a mask of the bits that were given. */
export interface MemoryImage {
  /** one byte an address */
  readonly bytes: Uint8Array;
  /** bits that were given, 0xFF for a whole byte; the others are fill and may be anything */
  readonly given: Uint8Array;
}

/** Addresses from `from` up to, not including, `to`. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/** size: bytes. fill: what is not given; 0xFF is the erased state of most memories. */
export const blankImage = (size: number, fill = 0xff): MemoryImage => ({
  bytes: new Uint8Array(size).fill(fill),
  given: new Uint8Array(size),
});

/** A read-out of a real chip: every byte counts. */
export const wholeImage = (bytes: Uint8Array): MemoryImage => ({ bytes: bytes.slice(), given: new Uint8Array(bytes.length).fill(0xff) });

/** Runs of bytes with a given bit (or, with false, of mere fill) in order of address. */
export function spansOf(image: MemoryImage, given = true): Span[] {
  const spans: Span[] = [];
  let from = -1;
  for (let a = 0; a <= image.given.length; a++) {
    const inside = a < image.given.length && (image.given[a] !== 0) === given;
    if (inside && from < 0) from = a;
    if (!inside && from >= 0) {
      spans.push({ from, to: a });
      from = -1;
    }
  }
  return spans;
}

/**
 * Both images' given bytes in one; where both give a byte it must be the same, unless `second` is to win.
 * Fails with `image/bytes-differ` or `image/sizes-differ`.
 */
export function mergeImages(first: MemoryImage, second: MemoryImage, wins: 'neither' | 'second' = 'neither'): Outcome<MemoryImage> {
  const size = first.bytes.length;
  if (second.bytes.length !== size)
    return failed(
      'image/sizes-differ',
      'size',
      `One image has ${grouped(size)} bytes and the other ${grouped(second.bytes.length)}. Choose the same memory for both.`,
    );
  const bytes = first.bytes.slice();
  const given = first.given.slice();
  for (let a = 0; a < size; a++) {
    const [one, other] = [bytes[a] ?? 0, second.bytes[a] ?? 0];
    const [mine, theirs] = [given[a] ?? 0, second.given[a] ?? 0];
    if ((one ^ other) & mine & theirs && wins === 'neither')
      return failed(
        'image/bytes-differ',
        hexAddress(a, size),
        `Address ${hexAddress(a, size)} holds ${hexByte(one)} in one image and ${hexByte(other)} in the other. Say which of the two counts.`,
      );
    bytes[a] = (one & ~theirs) | (other & theirs);
    given[a] = mine | theirs;
  }
  return done({ bytes, given });
}
