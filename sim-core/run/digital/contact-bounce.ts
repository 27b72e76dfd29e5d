/** How a contact bounces: from a seed, when it opens and closes again after it was moved. */
import type { Bounce } from '../../parts/part.ts';

/** Metal does not part and meet again faster than this [s]; from memory. */
const LEAST_GAP = 1e-6;
/** Up to so many rebounds; from memory. */
const MOST_REBOUNDS = 3;

/**
 * Times [s] after the move at which the contact changes once more; always an even number of them, ascending, LEAST_GAP or more apart.
 * The last lies at most · uᵖ, u uniform in [0, 1) and p such that its mean is `mean`. Mean and most are published (SOURCES.md S50); this
 * distribution between them, one to three rebounds, and that the others lie anywhere before the last, are our choice.
 */
export function contactBounce({ mean, most }: Bounce, random: () => number): number[] {
  const changes = 2 * (1 + Math.floor(MOST_REBOUNDS * random()));
  const within = most * random() ** (most / mean - 1);
  const drawn = Array.from({ length: changes - 1 }, () => within * random()).sort((a, b) => a - b);
  let last = 0;
  return [...drawn, within].map((t) => {
    last = Math.max(t, last + LEAST_GAP);
    return last;
  });
}
