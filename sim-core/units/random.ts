/** Numbers that look like chance and come from a seed: the same seed, the same numbers, everywhere. */

/** Uniform in [0, 1): a 32-bit Weyl sequence through a mixing function of the murmur3 family. */
export function makeRandom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x9e3779b9) >>> 0;
    let z = state;
    z = Math.imul(z ^ (z >>> 16), 0x85ebca6b);
    z = Math.imul(z ^ (z >>> 13), 0xc2b2ae35);
    return ((z ^ (z >>> 16)) >>> 0) / 2 ** 32;
  };
}
