/** Checksums of images against the check values that their definitions print. */
import { describe, expect, test } from 'vitest';
import { checksumsOf, sayChecksums } from '../../client/panel/table/checksums.ts';
import { blankImage, wholeImage } from '../../sim-core/index.ts';

const text = (ascii: string) => new TextEncoder().encode(ascii);

describe('the checksums of "123456789"', () => {
  // check values of the two polynomials, as parameter tables of CRCs print them (from memory)
  test('are 29B1 for CRC-16 begun at FFFF and CBF43926 for CRC-32', () => {
    expect(checksumsOf(text('123456789'))).toMatchObject({ crc16: '29B1', crc32: 'CBF43926' });
  });
  test('sum: nine digits from 31 to 39 are 1DD', () => {
    expect(checksumsOf(text('123456789')).sum).toBe('01DD');
  });
});

test('an erased memory of 2K: the sum of 2 048 times FF, cut to 16 bits, is F800', () => {
  expect(sayChecksums(wholeImage(new Uint8Array(2048).fill(0xff)))).toMatch(/^Checksums of all 2048 bytes: sum F800, /);
  expect(sayChecksums(blankImage(2048))).toMatch(/^Checksums of all 2048 bytes, unused ones FF: sum F800, /);
});

test('one bit that is another changes both CRCs', () => {
  const a = new Uint8Array(256).map((_, i) => i);
  for (let bit = 0; bit < 2048; bit += 7) {
    const b = a.slice();
    b[bit >> 3]! ^= 1 << (bit & 7);
    expect(checksumsOf(b).crc16).not.toBe(checksumsOf(a).crc16);
    expect(checksumsOf(b).crc32).not.toBe(checksumsOf(a).crc32);
  }
});
