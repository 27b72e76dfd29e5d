/** What is due when: events in order of time, and of asking where times are equal. */

function exchange<V>(list: V[], i: number, j: number): void {
  const held = list[i] as V;
  list[i] = list[j] as V;
  list[j] = held;
}

/** A binary heap, its columns side by side: what is due at each place, when, and in which turn it was asked for. */
export class EventQueue<T> {
  private readonly times: number[] = [];
  private readonly turns: number[] = [];
  private readonly events: T[] = [];
  private asked = 0;

  /** time of the next event [s]; Infinity when there is none */
  next(): number {
    return this.times.length > 0 ? (this.times[0] as number) : Number.POSITIVE_INFINITY;
  }

  add(time: number, event: T): void {
    this.times.push(time);
    this.turns.push(this.asked++);
    this.events.push(event);
    this.rise(this.times.length - 1);
  }

  /** takes the next event off */
  take(): T | undefined {
    if (this.times.length === 0) return undefined;
    this.swap(0, this.times.length - 1);
    this.times.pop();
    this.turns.pop();
    const event = this.events.pop();
    this.sink();
    return event;
  }

  private before(i: number, j: number): boolean {
    const a = this.times[i] as number;
    const b = this.times[j] as number;
    return a < b || (a === b && (this.turns[i] as number) < (this.turns[j] as number));
  }

  private swap(i: number, j: number): void {
    exchange(this.times, i, j);
    exchange(this.turns, i, j);
    exchange(this.events, i, j);
  }

  private rise(i: number): void {
    for (let at = i; at > 0; ) {
      const up = (at - 1) >> 1;
      if (!this.before(at, up)) return;
      this.swap(at, up);
      at = up;
    }
  }

  private sink(): void {
    for (let at = 0; ; ) {
      let least = at;
      for (let child = 2 * at + 1; child <= 2 * at + 2 && child < this.times.length; child++) if (this.before(child, least)) least = child;
      if (least === at) return;
      this.swap(at, least);
      at = least;
    }
  }
}
