/** The time that live work is done by and waits for: the machine's own in the browser, a test's elsewhere. */

export interface Clock {
  /** [ms] since a moment that stays the same */
  now(): number;
  /** Does it in so many ms; the answer calls it off. */
  after(ms: number, does: () => void): () => void;
}

/** The clock of a page, which also knows when it paints. */
export interface PageClock extends Clock {
  /** Does it right before the next paint. */
  beforePaint(does: () => void): void;
}

export const systemClock: Clock = {
  now: () => performance.now(),
  after(ms, does) {
    const timer = setTimeout(does, ms);
    return () => clearTimeout(timer);
  },
};

export const pageClock: PageClock = { ...systemClock, beforePaint: (does) => void requestAnimationFrame(does) };
