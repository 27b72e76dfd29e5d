/** How many bits of a 32-bit word are 1. */

/** By pairs, nibbles and bytes (H. S. Warren, Hacker's Delight, section 5-1). */
export function bitCount(word: number): number {
  let w = word - ((word >>> 1) & 0x55555555);
  w = (w & 0x33333333) + ((w >>> 2) & 0x33333333);
  return Math.imul((w + (w >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24;
}
