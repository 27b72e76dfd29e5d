/** What is due when: events in order of time, and of asking where times are equal. */

export interface Agenda<T> {
  /** time of the next event [s]; Infinity when there is none */
  readonly next: number;
  add(time: number, event: T): void;
  /** takes the next event off */
  take(): T | undefined;
}

/** A binary heap. */
export function makeAgenda<T>(): Agenda<T> {
  const heap: { time: number; turn: number; event: T }[] = [];
  let turns = 0;
  const before = (i: number, j: number): boolean => {
    const a = heap[i];
    const b = heap[j];
    return a !== undefined && b !== undefined && (a.time < b.time || (a.time === b.time && a.turn < b.turn));
  };
  const swap = (i: number, j: number) => {
    const a = heap[i];
    const b = heap[j];
    if (a && b) {
      heap[i] = b;
      heap[j] = a;
    }
  };
  return {
    get next() {
      return heap[0]?.time ?? Number.POSITIVE_INFINITY;
    },
    add(time, event) {
      heap.push({ time, turn: turns++, event });
      for (let i = heap.length - 1; i > 0; ) {
        const up = (i - 1) >> 1;
        if (!before(i, up)) break;
        swap(i, up);
        i = up;
      }
    },
    take() {
      const first = heap[0];
      const last = heap.pop();
      if (first === undefined || last === undefined) return undefined;
      if (heap.length > 0) {
        heap[0] = last;
        for (let i = 0; ; ) {
          let least = i;
          for (const child of [2 * i + 1, 2 * i + 2]) if (before(child, least)) least = child;
          if (least === i) break;
          swap(i, least);
          i = least;
        }
      }
      return first.event;
    },
  };
}
