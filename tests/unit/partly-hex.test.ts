/** Addresses and bytes of which not everything is known, as they are shown. */
import { expect, test } from 'vitest';
import { addressHex, partlyHex } from '../../sim-core/units/partly-hex.ts';

test('an address has as many digits as the memory needs: three for 2K, four for 8K and 32K, two for 256 bytes', () => {
  const at = (value: number, bits: number) => addressHex({ value, unknown: 0, bits });
  expect([at(0x7ff, 11), at(0x1fff, 13), at(0x7fff, 15), at(5, 15), at(0x1f, 8)]).toEqual(['7FF', '1FFF', '7FFF', '0005', '1F']);
});

test('a digit that an unknown bit reaches into is a question mark, and no other is', () => {
  expect(partlyHex({ value: 0x50, unknown: 0x01 }, 2)).toBe('5?');
  expect(addressHex({ value: 0x203, unknown: 0x1010, bits: 13 })).toBe('?2?3');
});
