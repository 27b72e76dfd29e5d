/** The look-up at the heart of a CRC of sixteen bits, four bits at a time, on two memories. */
import { counted, type DemoTable } from './table.ts';

/** Polynomial x^16 + x^12 + x^5 + 1; each input bit adds the polynomial, moved up by its place. */
export const crcNibble: DemoTable = {
  id: 'crc-nibble',
  title: 'CRC table',
  description:
    'Four bits in, the sixteen bits to be added to the remainder out: with a register of sixteen bits beside it, a check sum of any message.',
  inputs: counted('N', 4),
  outputs: counted('R', 16),
  rules: 'R15..R0 = (N0 times 0x1021) XOR (N1 times 0x2042) XOR (N2 times 0x4084) XOR (N3 times 0x8108)',
};
