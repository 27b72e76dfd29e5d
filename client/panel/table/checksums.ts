/** Checksums of an image, by which a read-out or a file is told apart from another at a glance. */
import crc16ccitt from 'crc/calculators/crc16ccitt';
import crc32Of from 'crc/calculators/crc32';
import { grouped, type MemoryImage } from '../../../sim-core/index.ts';

const figures = (value: number, digits: number): string => value.toString(16).toUpperCase().padStart(digits, '0');

/**
 * sum: of all bytes, its low 16 bits, as device programmers show it (common practice, no source). CRC-16: polynomial 1021, begun at FFFF, not reflected.
 * CRC-32: that of ISO 3309 and IEEE 802.3, reflected. In hexadecimal.
 */
export const checksumsOf = (bytes: Uint8Array) => ({
  sum: figures(
    bytes.reduce((sum, b) => (sum + b) & 0xffff, 0),
    4,
  ),
  crc16: figures(crc16ccitt(bytes, 0xffff), 4),
  crc32: figures(crc32Of(bytes) >>> 0, 8),
});

/** Of the whole memory, as its binary file has it. */
export function sayChecksums({ bytes, given }: MemoryImage): string {
  const { sum, crc16, crc32 } = checksumsOf(bytes);
  const rest = given.every((g) => g === 0xff) ? '' : ', unused ones FF';
  return `Checksums of all ${grouped(bytes.length)} bytes${rest}: sum ${sum}, CRC-16 ${crc16}, CRC-32 ${crc32}.`;
}
