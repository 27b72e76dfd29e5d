/** Checksums of an image, by which a read-out or a file is told apart from another at a glance. */
import { grouped } from '../../shared/grouped.ts';
import { hex } from '../units/hex.ts';
import type { MemoryImage } from './memory-image.ts';

/** Three checksums of the same bytes, in hexadecimal: four figures, four and eight. */
export interface Checksums {
  readonly sum: string;
  readonly crc16: string;
  readonly crc32: string;
}

/**
 * sum: of all bytes, its low 16 bits, as device programmers show it (common practice, no source). CRC-16: polynomial 1021, begun at FFFF, not reflected.
 * CRC-32: that of ISO 3309 and IEEE 802.3, polynomial 04C11DB7, reflected, begun at FFFFFFFF and inverted at the end.
 */
export function checksumsOf(bytes: Uint8Array): Checksums {
  let sum = 0;
  let crc16 = 0xffff;
  let crc32 = ~0;
  for (const byte of bytes) {
    sum = (sum + byte) & 0xffff;
    crc16 = ((crc16 << 8) & 0xffff) ^ (CRC16[(crc16 >> 8) ^ byte] as number);
    crc32 = (crc32 >>> 8) ^ (CRC32[(crc32 ^ byte) & 0xff] as number);
  }
  return { sum: hex(sum, 4), crc16: hex(crc16, 4), crc32: hex(~crc32 >>> 0, 8) };
}

/** What eight steps of a division make of each byte. */
const remainders = (step: (rest: number) => number, place: number): readonly number[] =>
  Array.from({ length: 256 }, (_, byte) => {
    let rest = byte << place;
    for (let bit = 0; bit < 8; bit++) rest = step(rest);
    return rest;
  });

const CRC16 = remainders((rest) => ((rest << 1) & 0xffff) ^ (rest & 0x8000 ? 0x1021 : 0), 8);
/** 04C11DB7 with its bits in the other order */
const CRC32 = remainders((rest) => (rest >>> 1) ^ (rest & 1 ? 0xedb88320 : 0), 0);

/** One sentence on the whole memory, as its binary file has it. */
export function sayChecksums({ bytes, given }: MemoryImage): string {
  const { sum, crc16, crc32 } = checksumsOf(bytes);
  const rest = given.every((g) => g === 0xff) ? '' : ', unused ones FF';
  return `Checksums of all ${grouped(bytes.length)} bytes${rest}: sum ${sum}, CRC-16 ${crc16}, CRC-32 ${crc32}.`;
}
