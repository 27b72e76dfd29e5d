/** What is due when: events in order of time, and of asking where times are equal. */

export interface EventQueue<T> {
  /** time of the next event [s]; Infinity when there is none */
  next(): number;
  add(time: number, event: T): void;
  /** takes the next event off */
  take(): T | undefined;
}

function exchange<V>(list: V[], i: number, j: number): void {
  const held = list[i] as V;
  list[i] = list[j] as V;
  list[j] = held;
}

/** A binary heap, its columns side by side: what is due at each place, when, and in which turn it was asked for. */
export function makeEventQueue<T>(): EventQueue<T> {
  const times: number[] = [];
  const turns: number[] = [];
  const events: T[] = [];
  let asked = 0;
  const before = (i: number, j: number): boolean => {
    const a = times[i] as number;
    const b = times[j] as number;
    return a < b || (a === b && (turns[i] as number) < (turns[j] as number));
  };
  const swap = (i: number, j: number) => {
    exchange(times, i, j);
    exchange(turns, i, j);
    exchange(events, i, j);
  };
  const rise = (i: number) => {
    for (let at = i; at > 0; ) {
      const up = (at - 1) >> 1;
      if (!before(at, up)) return;
      swap(at, up);
      at = up;
    }
  };
  const sink = () => {
    for (let at = 0; ; ) {
      let least = at;
      for (let child = 2 * at + 1; child <= 2 * at + 2 && child < times.length; child++) if (before(child, least)) least = child;
      if (least === at) return;
      swap(at, least);
      at = least;
    }
  };
  return {
    next() {
      return times.length > 0 ? (times[0] as number) : Number.POSITIVE_INFINITY;
    },
    add(time, event) {
      times.push(time);
      turns.push(asked++);
      events.push(event);
      rise(times.length - 1);
    },
    take() {
      if (times.length === 0) return undefined;
      swap(0, times.length - 1);
      times.pop();
      turns.pop();
      const event = events.pop();
      sink();
      return event;
    },
  };
}
