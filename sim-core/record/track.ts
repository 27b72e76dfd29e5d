/** One quantity over time in bounded memory: spans of time with the first, least, most and last value in each. What grows too long is made coarser, the oldest first. */

/** So much of one quantity. Between two spans it went from the last value of one to the first of the next. */
export interface TrackSpan {
  /** [s] */
  readonly from: number;
  readonly until: number;
  readonly first: number;
  readonly least: number;
  readonly most: number;
  readonly last: number;
  /** values that were taken in it; 1: it stood still */
  readonly moves: number;
}

/** Numbers a span. */
const WIDTH = 7;
const [FROM, UNTIL, FIRST, LEAST, MOST, LAST, MOVES] = [0, 1, 2, 3, 4, 5, 6] as const;
/** This part of the room is made coarser when it is full: two spans become one. */
const OLDER = 0.75;
const SMALLEST = 4;

export class Track {
  private readonly spans: Float64Array;
  private count = 0;

  /** room: spans that are kept. grain: what stays within it of a span's first value has not moved; its least and most are kept all the same. */
  constructor(
    private readonly room: number,
    private readonly grain = 0,
  ) {
    if (room < SMALLEST) throw new Error(`a track of ${room} spans is too short`);
    this.spans = new Float64Array(room * WIDTH);
  }

  get length(): number {
    return this.count;
  }

  /** [bytes] */
  get size(): number {
    return this.spans.byteLength;
  }

  /** Times never go back; two values at one time are a jump. */
  add(time: number, value: number): void {
    const { spans } = this;
    const at = (this.count - 1) * WIDTH;
    if (this.count > 0 && spans[at + MOVES] === 1 && this.isStill(at, value)) {
      spans[at + UNTIL] = time;
      spans[at + LAST] = value;
      if (value < (spans[at + LEAST] as number)) spans[at + LEAST] = value;
      if (value > (spans[at + MOST] as number)) spans[at + MOST] = value;
      return;
    }
    if (this.count === this.room) this.coarsen();
    this.put(this.count, time, value);
    this.count += 1;
  }

  at(place: number): TrackSpan {
    const k = place * WIDTH;
    const [from = 0, until = 0, first = 0, least = 0, most = 0, last = 0, moves = 0] = this.spans.subarray(k, k + WIDTH);
    return { from, until, first, least, most, last, moves };
  }

  /** All that touch this stretch of time, oldest first: what stood at its beginning is among them. */
  between(from: number, until: number): TrackSpan[] {
    const found: TrackSpan[] = [];
    for (let place = 0; place < this.count; place++) {
      const next = place + 1 < this.count ? (this.spans[(place + 1) * WIDTH + FROM] as number) : Number.POSITIVE_INFINITY;
      if (next > from && (this.spans[place * WIDTH + FROM] as number) <= until) found.push(this.at(place));
    }
    return found;
  }

  private isStill(at: number, value: number): boolean {
    const first = this.spans[at + FIRST] as number;
    return value === first || Math.abs(value - first) <= this.grain;
  }

  private put(place: number, time: number, value: number): void {
    this.spans.set([time, time, value, value, value, value, 1], place * WIDTH);
  }

  private coarsen(): void {
    const { spans } = this;
    const pairs = Math.floor((this.room * OLDER) / 2);
    for (let p = 0; p < pairs; p++) {
      const [to, a, b] = [p * WIDTH, 2 * p * WIDTH, (2 * p + 1) * WIDTH];
      const both = (k: number, join: (x: number, y: number) => number) => join(spans[a + k] as number, spans[b + k] as number);
      spans.set(
        [
          spans[a + FROM] as number,
          spans[b + UNTIL] as number,
          spans[a + FIRST] as number,
          both(LEAST, Math.min),
          both(MOST, Math.max),
          spans[b + LAST] as number,
          both(MOVES, (x, y) => x + y),
        ],
        to,
      );
    }
    spans.copyWithin(pairs * WIDTH, 2 * pairs * WIDTH, this.count * WIDTH);
    this.count -= pairs;
  }
}
