/** Numbers of which some bits are not known, in hexadecimal: a ? for every digit that an unknown bit reaches into. */

interface Partly {
  readonly value: number;
  readonly unknown: number;
}

export const partlyHex = ({ value, unknown }: Partly, digits: number): string =>
  Array.from({ length: digits }, (_, i) => {
    const shift = 4 * (digits - 1 - i);
    return (unknown >> shift) & 15 ? '?' : ((value >> shift) & 15).toString(16).toUpperCase();
  }).join('');

/** An address with as many digits as addresses of so many bits need. */
export const addressHex = (address: Partly & { readonly bits: number }): string => partlyHex(address, Math.ceil(address.bits / 4));
