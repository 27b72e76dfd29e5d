/** A clock that stands until a test lets time pass: waits and paints are done in the order of their time. */
import type { PageClock } from '../../client/worker/clock.ts';

/** A page paints so often [ms]. */
const FRAME = 1000 / 60;

export class FakeClock implements PageClock {
  private time = 0;
  private due: ReadonlyArray<{ readonly at: number; readonly does: () => void }> = [];

  now(): number {
    return this.time;
  }
  after(ms: number, does: () => void): () => void {
    const wait = { at: this.time + Math.max(0, ms), does };
    this.due = [...this.due, wait];
    return () => {
      this.due = this.due.filter((w) => w !== wait);
    };
  }
  beforePaint(does: () => void): void {
    this.after((Math.floor(this.time / FRAME) + 1) * FRAME - this.time, does);
  }

  /** Work has taken so long: time passes without anything being done. */
  spend(ms: number): void {
    this.time += ms;
  }
  /** Lets so much time pass, and everything be done that is due in it. */
  pass(ms: number): void {
    const end = this.time + ms;
    for (;;) {
      const next = this.due.reduce<(typeof this.due)[number] | undefined>((a, b) => (a && a.at <= b.at ? a : b), undefined);
      if (!next || next.at > end) break;
      this.due = this.due.filter((w) => w !== next);
      this.time = Math.max(this.time, next.at);
      next.does();
    }
    this.time = Math.max(this.time, end);
  }
  /** how much is still to be done */
  get waiting(): number {
    return this.due.length;
  }
}
