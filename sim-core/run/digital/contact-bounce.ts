/** How a contact bounces: from a seed, when it opens and closes again after a hand has moved it. */

/** Metal does not part and meet again faster than this [s]; from memory. */
const LEAST_GAP = 1e-6;

/**
 * Times [s] after the move at which the contact changes once more; always an even number of them, ascending, LEAST_GAP or more apart.
 * Up to three rebounds inside `longest`: how many is from memory, how long SOURCES.md S50.
 */
export function contactBounce(longest: number, random: () => number): number[] {
  const rebounds = Math.floor(4 * random());
  const within = longest * random();
  const drawn = Array.from({ length: 2 * rebounds }, () => within * random()).sort((a, b) => a - b);
  let last = 0;
  return drawn.map((t) => {
    last = Math.max(t, last + LEAST_GAP);
    return last;
  });
}
