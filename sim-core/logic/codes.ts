/** Number codes of the trade: Gray, BCD, excess-3, digit patterns, parity. NaN where a code has no word for the number. */
import { HEX_DIGITS } from './segments.ts';

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
