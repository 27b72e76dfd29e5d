/** How much processor time each of several threads of this process has had, and what is done with one that has had too much. */

/** How often it is looked at [ms]. */
const EVERY = 50;

interface Share {
  spent: number;
  readonly most: number;
  readonly tooMuch: () => void;
}

/**
 * The process's processor time, shared equally among the threads that are counted: they do nothing but compute, so each gets the same. On a machine that has
 * much else to do a thread gets little, and none of it is charged for the waiting.
 */
export class ProcessorTime<Thread> {
  private readonly shares = new Map<Thread, Share>();
  private before = process.cpuUsage();
  private clock: NodeJS.Timeout | undefined;

  /** most: processor time [s] after which `tooMuch` is called, once. */
  count(thread: Thread, most: number, tooMuch: () => void): void {
    this.look();
    this.shares.set(thread, { spent: 0, most, tooMuch });
    this.clock ??= setInterval(() => this.look(), EVERY).unref();
  }

  end(thread: Thread): void {
    this.look();
    this.shares.delete(thread);
    if (this.shares.size > 0) return;
    clearInterval(this.clock);
    this.clock = undefined;
  }

  private look(): void {
    const now = process.cpuUsage();
    const each = (now.user - this.before.user + now.system - this.before.system) / 1e6 / this.shares.size;
    this.before = now;
    for (const [thread, share] of this.shares) {
      share.spent += each;
      if (share.spent <= share.most) continue;
      this.shares.delete(thread);
      share.tooMuch();
    }
  }
}
