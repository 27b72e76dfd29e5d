/** Sets of small numbers as bits in 32-bit words. */

export const range = (n: number): number[] => Array.from({ length: n }, (_, i) => i);
export function bitsOf(list: readonly number[], size: number): Uint32Array {
  const words = new Uint32Array((size + 31) >> 5);
  for (const i of list) setBit(words, i);
  return words;
}
export function setBit(words: Uint32Array | undefined, i: number): void {
  if (words) words[i >> 5] = ((words[i >> 5] ?? 0) | (1 << (i & 31))) >>> 0;
}
export function clearBit(words: Uint32Array, i: number): void {
  words[i >> 5] = ((words[i >> 5] ?? 0) & ~(1 << (i & 31))) >>> 0;
}
export const hasBit = (words: Uint32Array, i: number): boolean => (((words[i >> 5] ?? 0) >>> (i & 31)) & 1) === 1;
export const isEmpty = (words: Uint32Array): boolean => words.every((w) => w === 0);
export const and = (a: Uint32Array | undefined, b: Uint32Array): Uint32Array => b.map((w, i) => w & (a?.[i] ?? 0));
export const without = (a: Uint32Array, b: Uint32Array | undefined): Uint32Array => a.map((w, i) => w & ~(b?.[i] ?? 0));
export const firstBit = (words: Uint32Array): number => {
  const i = words.findIndex((w) => w !== 0);
  return i < 0 ? -1 : 32 * i + 31 - Math.clz32((words[i] ?? 0) & -(words[i] ?? 0));
};

/** Is a, where mask has bits, inside b? */
export function isWithin(a: Uint32Array | undefined, b: Uint32Array | undefined, mask: Uint32Array): boolean {
  for (let i = 0; i < mask.length; i++) if ((a?.[i] ?? 0) & ~(b?.[i] ?? 0) & (mask[i] ?? 0)) return false;
  return true;
}

export function single(a: Uint32Array | undefined, mask: Uint32Array): number | 'none' | 'several' {
  let found: number | 'none' = 'none';
  for (let i = 0; i < mask.length; i++) {
    const w = (a?.[i] ?? 0) & (mask[i] ?? 0);
    if (w === 0) continue;
    if (found !== 'none' || (w & (w - 1)) !== 0) return 'several';
    found = 32 * i + 31 - Math.clz32(w);
  }
  return found;
}

/** Numbers of the bits that are 1, ascending. */
export function listOf(words: Uint32Array): number[] {
  const list: number[] = [];
  for (let i = 0; i < words.length; i++)
    for (let rest = words[i] ?? 0; rest !== 0; rest &= rest - 1) list.push(32 * i + 31 - Math.clz32(rest & -rest));
  return list;
}
