/** Work on a running bench that is done in slices: whoever waits for it does something else between two of them, or stops it. */

/** Simulated time that passes in slices. Only one is under way on a bench: what begins next stops it. */
export interface Slices<T> {
  /** goes on for so many turns at most; a turn is a new rest, a step in time or what is due at one moment. True: it is over. */
  go(turns: number): boolean;
  /** ends it where the bench is now; what a hand had still to do is done at once */
  stop(): void;
  /** what came of it, once it is over */
  readonly result: T | undefined;
}

/** Work that yields after each turn, as slices. stopping: told before it is gone on with for the last time, and no turn follows. */
export class TurnSlices<T> implements Slices<T> {
  private readonly turns: Iterator<void, T>;
  private readonly stopping: () => void;
  private over: { readonly result: T } | undefined;

  constructor(turns: Iterator<void, T>, stopping: () => void) {
    this.turns = turns;
    this.stopping = stopping;
  }

  get result(): T | undefined {
    return this.over?.result;
  }

  go(turns: number): boolean {
    for (let k = 0; k < turns && !this.over; k++) this.next();
    return this.over !== undefined;
  }

  stop(): void {
    if (this.over) return;
    this.stopping();
    while (!this.over) this.next();
  }

  private next(): void {
    const { done, value } = this.turns.next();
    if (done) this.over = { result: value };
  }
}

/** All of it at once. */
export function allTurns<T>(turns: Iterator<unknown, T>): T {
  for (;;) {
    const { done, value } = turns.next();
    if (done) return value;
  }
}
