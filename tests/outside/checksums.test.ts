/** Checksums of images against the check values that their definitions print. */
import { gzipSync } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { blankImage, checksumsOf, sayChecksums, wholeImage, writeSRecord } from '../../sim-core/index.ts';

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

// the count 03 and the address 0000 add up to 03, whose ones' complement is FC: SOURCES.md S67, S68
test('a file of S-records of 16-bit addresses that begins nowhere ends with S9030000FC', () => {
  expect(
    writeSRecord(wholeImage(Uint8Array.of(0x42)))
      .trim()
      .split(/\r?\n/)
      .at(-1),
  ).toBe('S9030000FC');
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

test('CRC-32 is the one that gzip writes behind what it packs (RFC 1952, 2.3.1: the last eight bytes are CRC-32 and length, low byte first)', () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => {
      const packed = gzipSync(bytes);
      expect(checksumsOf(bytes).crc32).toBe(
        packed
          .readUInt32LE(packed.length - 8)
          .toString(16)
          .toUpperCase()
          .padStart(8, '0'),
      );
    }),
  );
});

test('CRC-16 of bytes followed by their own CRC-16 is 0', () => {
  // a remainder appended to what was divided leaves none: the definition of a CRC without a final inversion
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => {
      const { crc16 } = checksumsOf(bytes);
      const own = [crc16.slice(0, 2), crc16.slice(2)].map((d) => Number.parseInt(d, 16));
      expect(checksumsOf(Uint8Array.from([...bytes, ...own])).crc16).toBe('0000');
    }),
  );
});
