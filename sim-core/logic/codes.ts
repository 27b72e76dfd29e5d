/** Number codes of the trade: Gray, BCD, excess-3, parity, 7-segment patterns. NaN where a code has no word for the number. */

/** Bit 0 is segment a, bit 6 is g: the order of the usual byte gfedcba. */
export const SEGMENTS = ['a', 'b', 'c', 'd', 'e', 'f', 'g'] as const;

/**
 * 0 to 9, A to F as they are usually drawn, 6 and 9 with tails (from memory; the ten digits agree with the function table of SOURCES.md S36 but for the
 * tails of 6 and 9, which those drivers leave out: tested).
 */
export const HEX_DIGITS: readonly number[] = [
  0x3f, 0x06, 0x5b, 0x4f, 0x66, 0x6d, 0x7d, 0x07, 0x7f, 0x6f, 0x77, 0x7c, 0x39, 0x5e, 0x79, 0x71,
];

/** The character that these segments look like, or undefined; with or without tails. */
export function characterOf(segments: number): string | undefined {
  if (segments === 0) return ' ';
  if (segments === 0x7c) return 'b';
  if (segments === 0x67) return '9';
  if (segments === 0x40) return '−';
  const value = HEX_DIGITS.indexOf(segments);
  return value < 0 ? undefined : '0123456789AbCdEF'[value];
}

export const gray = (n: number): number => (n ^ (n >>> 1)) >>> 0;

export function fromGray(code: number): number {
  let n = code;
  for (let shift = 1; shift < 32; shift *= 2) n ^= n >>> shift;
  return n >>> 0;
}

/** Eight decimal digits fill 32 bits. */
const MOST_BCD = 99_999_999;

/** Decimal digits in four bits each: 42 → 0x42. */
export function bcd(n: number): number {
  if (n > MOST_BCD) return Number.NaN;
  let code = 0;
  for (let rest = n, weight = 1; rest > 0; rest = Math.floor(rest / 10), weight *= 16) code += (rest % 10) * weight;
  return code;
}

/** 0x42 → 42; a nibble above 9 is no digit. */
export function fromBcd(code: number): number {
  let n = 0;
  for (let rest = code, weight = 1; rest > 0; rest = Math.floor(rest / 16), weight *= 10) {
    if (rest % 16 > 9) return Number.NaN;
    n += (rest % 16) * weight;
  }
  return n;
}

/** One decimal digit plus three: the nines' complement is then the inversion of all bits. */
export const excess3 = (digit: number): number => (digit <= 9 ? digit + 3 : Number.NaN);

/** Lit segments of a hexadecimal digit, bit 0 is a, bit 6 is g. */
export const digitPattern = (n: number): number => HEX_DIGITS[n] ?? Number.NaN;

export function onesIn(n: number): number {
  let count = 0;
  for (let rest = n >>> 0; rest !== 0; rest &= rest - 1) count++;
  return count;
}

/** 1 if an odd number of bits is 1. */
export const parity = (n: number): number => onesIn(n) & 1;
