/** How a contact chatters: from a seed, when it opens and closes again after a hand has moved it. */

/** Uniform numbers in [0, 1) from a seed: a 32-bit Weyl sequence through a mixing function of the murmur3 family. */
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

/** Metal does not part and meet again faster than this [s]; from memory. */
const LEAST_GAP = 1e-6;

/**
 * Times [s] after the move at which the contact changes once more; always an even number of them, ascending, LEAST_GAP or more apart.
 * Up to three rebounds inside `longest`: how many is from memory, how long SOURCES.md S50.
 */
export function chatter(longest: number, random: () => number): number[] {
  const rebounds = Math.floor(4 * random());
  const within = longest * random();
  const drawn = Array.from({ length: 2 * rebounds }, () => within * random()).sort((a, b) => a - b);
  let last = 0;
  return drawn.map((t) => {
    last = Math.max(t, last + LEAST_GAP);
    return last;
  });
}
