/** How long, and through how many events, a bench is given to come to rest before it is said to have none. */

/** How long a bench is given to come to rest after the last event [s]: what still drifts then is a floating node. */
export const SETTLE_LIMITS = 0.2;
/** Turns of the loop after which a bench is given up as never resting, or left behind for this stretch of time. */
export const TURNS_TO_REST = 30_000;
export const TURNS_IN_TIME = 300_000;
/** A level that passes a mark so many times after one move of a contact, with nothing due but clocks' ticks, has no rest: an oscillator's. */
const RESTLESS = 30;
/** The same while more is due: a memory may step through a sequence of its own before it stops. */
const RESTLESS_ANSWERING = 120;

/** Counts what keeps a bench from resting. */
export class SettleLimits {
  /** by watch: how often it has passed its mark since a contact last moved */
  private passes = new Uint8Array(0);
  private neverRests = false;
  /** the first `many`: parts in the order in which they were first counted, and how often */
  private readonly parts: string[] = [];
  private readonly times: number[] = [];
  private many = 0;

  /** the bench is waited for again; watches: how many of its voltages' marks are watched */
  begin(watches: number): void {
    if (this.passes.length === watches) this.passes.fill(0);
    else this.passes = new Uint8Array(watches);
    this.neverRests = false;
    this.many = 0;
  }

  /** a contact has moved: levels may pass their marks again */
  contactMoved(): void {
    this.passes.fill(0);
  }

  /** these watches have passed their marks; due: something is due beside what clocks have begun; byClock: a clock has begun this. Returns them. */
  count(passed: Int32Array, due: boolean, byClock: boolean): Int32Array {
    // a clock may tick as often as it likes while something else is waited for
    if (due && byClock) return passed;
    const most = due ? RESTLESS_ANSWERING : RESTLESS;
    for (let p = 0; p < passed.length; p++) {
      const w = passed[p] as number;
      this.passes[w] = Math.min((this.passes[w] as number) + 1, RESTLESS_ANSWERING);
      if ((this.passes[w] as number) >= most) this.neverRests = true;
    }
    return passed;
  }

  /** some level has passed its mark too often */
  restless(): boolean {
    return this.neverRests;
  }

  /** this part has done something that was due */
  countPart(part: string): void {
    let k = 0;
    while (k < this.many && this.parts[k] !== part) k += 1;
    if (k === this.many) {
      this.parts[k] = part;
      this.times[k] = 0;
      this.many += 1;
    }
    this.times[k] = (this.times[k] as number) + 1;
  }

  /** the parts that have answered too often; of a restless bench only those which `reads` says may not swing for ever, as a timer may */
  restlessChips(reads: (part: string) => boolean): string[] {
    return this.parts
      .slice(0, this.many)
      .filter((part, k) => (this.times[k] as number) >= RESTLESS / 2 && (!this.neverRests || reads(part)));
  }
}
