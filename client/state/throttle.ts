/** When pages and words follow the bench: at once after a hand, and no more often than they can be read where the bench changes by itself. */
import type { PageClock } from '../worker/clock.ts';

/** The least time between two settlings of a bench that changes by itself; so long after a hand, changes are the hand's [ms]. */
const SETTLE_EVERY = 250;
const AFTER_HAND = 300;

/** settle: called after the drawing has been painted. The answer is called for every change; touchedAt: when a person last did something [ms]. */
export function makeThrottle(clock: PageClock, settle: () => void): (touchedAt: number) => void {
  let settledAt = 0;
  let waiting = false;
  const now = () => {
    waiting = false;
    settledAt = clock.now();
    settle();
  };
  return (touchedAt) => {
    const time = clock.now();
    const wait = time - touchedAt < AFTER_HAND ? 0 : settledAt + SETTLE_EVERY - time;
    if (wait <= 0) clock.beforePaint(() => clock.after(0, now));
    else if (!waiting) {
      waiting = true;
      clock.after(wait, now);
    }
  };
}
