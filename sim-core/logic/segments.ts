/** Seven-segment patterns: which segments make which character, and which character a set of lit segments looks like. */

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
