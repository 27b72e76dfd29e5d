/** Addresses and bytes as they are shown, also those of which not everything is known. */
import { expect, test } from 'vitest';
import { hexAddress, partlyHex, partlyHexAddress } from '../../sim-core/units/hex.ts';

test('an address has 0x, and as many digits as the memory needs: three for 2K, four for 8K and 32K, two for 256 bytes', () => {
  const at = (value: number, bits: number) => partlyHexAddress({ value, unknown: 0, bits });
  expect([at(0x7ff, 11), at(0x1fff, 13), at(0x7fff, 15), at(5, 15), at(0x1f, 8)]).toEqual(['0x7FF', '0x1FFF', '0x7FFF', '0x0005', '0x1F']);
});

test('a digit that an unknown bit reaches into is a question mark, and no other is', () => {
  expect(partlyHex({ value: 0x50, unknown: 0x01 }, 2)).toBe('5?');
  expect(partlyHexAddress({ value: 0x203, unknown: 0x1010, bits: 13 })).toBe('0x?2?3');
});

test('an address in a memory has 0x and as many figures as its last one, two at the least', () => {
  expect([hexAddress(5, 16), hexAddress(5, 2048), hexAddress(0x1ff, 0x1000), hexAddress(0x12345)]).toEqual([
    '0x05',
    '0x005',
    '0x1FF',
    '0x12345',
  ]);
});
