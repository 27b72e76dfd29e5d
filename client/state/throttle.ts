/** When pages and words follow the bench: at once after a hand, and no more often than they can be read where the bench changes by itself. */

/** The least time between two settlings of a bench that changes by itself; so long after a hand, changes are the hand's [ms]. */
const SETTLE_EVERY = 250;
const AFTER_HAND = 300;

/** settle: called after the drawing has been painted. The answer is called for every change; touchedAt: when a person last did something [ms]. */
export function makeThrottle(settle: () => void): (touchedAt: number) => void {
  let settledAt = 0;
  let waiting = false;
  const now = () => {
    waiting = false;
    settledAt = performance.now();
    settle();
  };
  return (touchedAt) => {
    const time = performance.now();
    const wait = time - touchedAt < AFTER_HAND ? 0 : settledAt + SETTLE_EVERY - time;
    if (wait <= 0) requestAnimationFrame(() => setTimeout(now));
    else if (!waiting) {
      waiting = true;
      setTimeout(now, wait);
    }
  };
}
