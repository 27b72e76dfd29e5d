/** How long, and through how many events, a bench is given to come to rest before it is said to have none. */

/** How long a bench is given to come to rest after the last event [s]: what still drifts then is a floating node. */
export const SETTLE_LIMITS = 0.2;
/** Turns of the loop after which an act is over, whatever still goes on; and after which a stretch of time that was asked for is left behind. */
export const TURNS_TO_REST = 30_000;
export const TURNS_IN_TIME = 300_000;
/** Turns that are waited for a last voltage to arrive while nothing is due but the ticks of clocks, which keep it moving for ever. */
export const TURNS_AMONG_TICKS = 1000;
/** A level that passes a mark so many times after one move of a contact, with nothing due but clocks' ticks, has no rest: an oscillator's. */
const RESTLESS = 30;
/** The same while more is due: a memory may step through a sequence of its own before it stops. */
const RESTLESS_ANSWERING = 120;
/** A level that has passed its mark so often may be part of a loop: there and back, and there again. */
const RETURNS = 3;
/** So many passes of each level are remembered: their times give the period. */
const REMEMBERED = 17;
/** A level passes its mark more than twice a period where each edge shakes the supply; more often than this, its period is not looked for. */
const MOST_PASSES = 8;
/** Times from one coming to the next are the same period if they differ by less than this part. */
const SAME_PERIOD = 1e-3;
/** The period is a mean over so many, if so many are remembered. */
const AVERAGED = 3;

/** Counts which levels keep a bench from resting. */
export class SettleLimits {
  /** by watch: how often it has passed its mark since a contact last moved */
  private passes = new Uint8Array(0);
  /** by watch: when it last did so [s], a ring of REMEMBERED each */
  private times = new Float64Array(0);
  private neverRests = false;

  /** the bench is waited for again; watches: how many of its voltages' marks are watched */
  begin(watches: number): void {
    if (this.passes.length === watches) this.passes.fill(0);
    else {
      this.passes = new Uint8Array(watches);
      this.times = new Float64Array(REMEMBERED * watches);
    }
    this.neverRests = false;
  }

  /** a contact has moved: levels may pass their marks again */
  contactMoved(): void {
    this.passes.fill(0);
  }

  /** these watches have passed their marks at this moment; due: something is due beside what clocks have begun; byClock: a clock has begun this. Returns them. */
  count(passed: Int32Array, now: number, due: boolean, byClock: boolean): Int32Array {
    // a clock may tick as often as it likes
    if (byClock) return passed;
    const most = due ? RESTLESS_ANSWERING : RESTLESS;
    for (let p = 0; p < passed.length; p++) {
      const w = passed[p] as number;
      const before = this.passes[w] as number;
      this.times[REMEMBERED * w + (before % REMEMBERED)] = now;
      // so that the ring goes on at its next place
      this.passes[w] = before + 1 < RESTLESS_ANSWERING + REMEMBERED ? before + 1 : before + 1 - REMEMBERED;
      if ((this.passes[w] as number) >= most) this.neverRests = true;
    }
    return passed;
  }

  /** some level has passed its mark too often */
  restless(): boolean {
    return this.neverRests;
  }

  /** this level goes to and fro */
  returns(watch: number): boolean {
    return (this.passes[watch] as number) >= RETURNS;
  }

  /** mean of the last periods of a level that goes to and fro [s] */
  period(watch: number): number {
    const passes = this.passesOfPeriod(watch) ?? 2;
    const periods = Math.min(AVERAGED, Math.floor((this.remembered(watch) - 1) / passes));
    return (this.at(watch, 0) - this.at(watch, periods * passes)) / periods;
  }

  /** An even number of passes after which all times come again, the least there is. */
  private passesOfPeriod(watch: number): number | undefined {
    const most = Math.min(MOST_PASSES, Math.floor(this.remembered(watch) / 2));
    for (let passes = 2; passes <= most; passes += 2) {
      const first = this.at(watch, 0) - this.at(watch, passes);
      const comesAgain = (back: number) => Math.abs(this.at(watch, back) - this.at(watch, back + passes) - first) < SAME_PERIOD * first;
      if (Array.from({ length: passes }, (_, back) => back).every(comesAgain)) return passes;
    }
    return undefined;
  }

  private remembered(watch: number): number {
    return Math.min(this.passes[watch] as number, REMEMBERED);
  }

  /** when a level passed its mark, so many passes ago [s] */
  private at(watch: number, back: number): number {
    return this.times[REMEMBERED * watch + (((this.passes[watch] as number) - 1 - back) % REMEMBERED)] as number;
  }
}
