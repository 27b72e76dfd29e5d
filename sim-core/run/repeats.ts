/**
 * A bench that comes to the same state again and again: what its network is set to, and every voltage, are those of a moment before, and so is what
 * follows. What chips hold inside is not looked at, so a state has to come back more than once.
 */

/** Jumps after which states begin to be remembered: most acts have fewer. */
const FIRST_JUMPS = 12;
/** Voltages that differ by less are the same [V]: a hundred times what a step in time may be wrong by. */
const SAME_VOLTS = 1e-4;
/** So often each state has to come back. */
const ROUNDS = 3;
/** A loop of more states is not looked for. */
const MOST_STATES = 64;

/** An edge takes no longer than this part of the time between two of them; our choice. */
const EDGE_SHARE = 0.25;

interface Visit {
  readonly x: Float64Array;
  at: number;
}

export class Repeats {
  private jumps = 0;
  private readonly states = new Map<string, Visit>();
  /** states in a row that were known */
  private known = 0;
  private lastPeriod = Number.NaN;
  private jumpedAt = Number.NaN;
  private gap = Number.NaN;

  /** the bench is waited for again, or a hand has moved something */
  begin(): void {
    this.jumps = 0;
    this.known = 0;
    this.states.clear();
  }

  /** The network has changed, to this state, at voltages x. True: it goes round in a loop. */
  jumped(state: () => string, x: Float64Array, now: number): boolean {
    this.jumps += 1;
    this.gap = now - this.jumpedAt;
    this.jumpedAt = now;
    if (this.jumps <= FIRST_JUMPS) return false;
    const key = state();
    const before = this.states.get(key);
    if (before && alike(before.x, x)) {
      this.known += 1;
      this.lastPeriod = now - before.at;
    } else {
      this.known = 0;
      if (this.states.size >= MOST_STATES) this.states.clear();
    }
    if (before) {
      before.x.set(x);
      before.at = now;
    } else this.states.set(key, { x: x.slice(), at: now });
    return this.known >= ROUNDS * this.states.size;
  }

  /** when the edge that has just begun is over, as far as the time between the last two tells [s] */
  settledAt(): number {
    return this.jumpedAt + EDGE_SHARE * this.gap;
  }

  /** from one coming of a state to the next [s] */
  period(): number {
    return this.lastPeriod;
  }
}

function alike(a: Float64Array, b: Float64Array): boolean {
  for (let i = 0; i < a.length; i++) if (!(Math.abs((a[i] as number) - (b[i] as number)) < SAME_VOLTS)) return false;
  return true;
}
