/** Numbers in hexadecimal as the bench writes them: capital figures, as many as asked for, a ? for each that an unknown bit reaches into. */

/** The bits set in `unknown` are not known; those bits of `value` are 0. */
export interface Partly {
  readonly value: number;
  readonly unknown: number;
}

/** Padded with zeros to `digits` figures; a larger number keeps all that it needs. */
export const hex = (value: number, digits: number): string => value.toString(16).toUpperCase().padStart(digits, '0');

/** A byte as two hexadecimal digits. */
export const hexByte = (byte: number): string => hex(byte, 2);

/** With 0x, and as many figures as the last address of a memory of `size` bytes has, at least two. */
export const hexAddress = (address: number, size = 0): string =>
  `0x${hex(address, Math.max(2, Math.max(0, size - 1).toString(16).length))}`;

/** A number with unknown bits in hexadecimal: a ? for each digit that they reach into. */
export const partlyHex = ({ value, unknown }: Partly, digits: number): string =>
  Array.from({ length: digits }, (_, i) => {
    const shift = 4 * (digits - 1 - i);
    return (unknown >> shift) & 15 ? '?' : hex((value >> shift) & 15, 1);
  }).join('');

/** With 0x, and as many figures as addresses of so many bits need. */
export const partlyHexAddress = (address: Partly & { readonly bits: number }): string =>
  `0x${partlyHex(address, Math.ceil(address.bits / 4))}`;
