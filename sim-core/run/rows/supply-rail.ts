/** The one voltage that all blocks on a rail share: where what they take together is what the supply gives. */
import type { Network, Node } from '../../devices/network.ts';
import { RELATIVE_RESIDUAL, RESIDUAL_FLOOR } from '../../solve/equations.ts';
import { slotOf } from '../../solve/pattern.ts';
import { fitTerms, type Range, slopeAt, TERMS, valueAt } from './polynomial.ts';

/**
 * What is summed up on a rail is made of multiples of this [A], [S]: doubles below 128 hold them all, so that sums are exact, whatever is added first and
 * taken away again.
 */
const QUANTUM = 2 ** -46;
export const exact = (value: number): number => Math.round(value / QUANTUM) * QUANTUM;

/** Half of the widest and of the narrowest range [V]. */
const WIDEST = 1 / 16;
const NARROWEST = 1 / 1024;
/** So far beyond its range is believed to lead on, in halves of it. */
const BEYOND = 4;
/** A rail at the edge of its range belongs to both. */
const EDGE = 1e-6;
/** A step of t below this is rounding. */
const SMALLEST = 4e-15;
const MOST_STEPS = 30;

export class SupplyRail {
  readonly node: Node;
  private readonly part: Network;
  range: Range = { middle: 0, half: WIDEST };
  /** what all blocks take together [A]: a polynomial of multiples of QUANTUM */
  readonly taken = new Float64Array(TERMS);
  private readonly total = new Float64Array(TERMS);
  /** conductance to ground of chips that draw another current than when this was made [S] */
  drains = 0;
  /** what the supply, and all else between the rail and ground, takes [A] */
  private readonly own = new Float64Array(TERMS);
  private readonly x = new Float64Array(2);
  private readonly residual = new Float64Array(2);
  private readonly magnitude = new Float64Array(2);
  private readonly jacobian: Float64Array;
  /** [V], and its place in the range */
  volts = 0;
  t = 0;
  /** voltages at whose crossing something else than a block changes, and how many of them are below it */
  private readonly marks: readonly number[];
  private readonly side: number;
  /** true: one of them is in the range */
  private marked = false;

  /** volts: where it is. What is between the rail and ground, and in no block, keeps the values that it has now. */
  constructor(whole: Network, node: Node, volts: number, marks: readonly number[]) {
    this.node = node;
    this.volts = volts;
    this.marks = marks;
    this.side = this.below(volts);
    this.part = whole.extract([node]);
    this.part.follow();
    this.jacobian = new Float64Array(this.part.pattern.row.length + 1);
  }

  /** Takes over the values of the circuit that it was made of; to be followed by `goTo`. */
  follow(): void {
    this.part.follow();
  }

  /** Takes the range that this voltage is in; false if what stands on the rail alone is too crooked there. */
  goTo(volts: number): boolean {
    this.volts = volts;
    const width = 2 * this.range.half;
    this.range = { middle: Math.round(volts / width) * width, half: this.range.half };
    this.t = (volts - this.range.middle) / this.range.half;
    this.marked = this.below(this.range.middle + width) !== this.below(this.range.middle - width) || this.below(volts) !== this.side;
    return this.fitOwn() || this.narrow();
  }

  /** Takes a narrower range about the voltage where it is; false if there is none. */
  narrow(): boolean {
    if (this.range.half <= NARROWEST) return false;
    this.range = { middle: this.range.middle, half: this.range.half / 2 };
    return this.goTo(this.volts);
  }

  /** Finds the voltage at which all currents add up to nothing; false if that is in another range, which it then takes. */
  settle(): boolean {
    const { own, taken, drains, range, total } = this;
    for (let d = 0; d < TERMS; d++) total[d] = (own[d] as number) + (taken[d] as number);
    total[0] = (total[0] as number) + drains * range.middle;
    total[1] = (total[1] as number) + drains * range.half;
    let t = Math.min(Math.max(this.t, -1), 1);
    for (let step = 0; step < MOST_STEPS; step++) {
      const next = Math.min(Math.max(t - valueAt(total, 0, t) / slopeAt(total, 0, t), -BEYOND), BEYOND);
      const by = Math.abs(next - t);
      t = next;
      if (!(by > SMALLEST)) break;
    }
    this.t = t;
    this.volts = range.middle + t * range.half;
    return Math.abs(t) <= 1 + EDGE;
  }

  /** Is it on the side of every mark where it was when this was made? */
  holds(): boolean {
    return !this.marked || this.below(this.volts) === this.side;
  }

  /** Marks below this voltage. */
  private below(volts: number): number {
    let count = 0;
    for (let m = 0; m < this.marks.length; m++) if (volts > (this.marks[m] as number)) count += 1;
    return count;
  }

  private fitOwn(): boolean {
    const { middle, half } = this.range;
    const at = ([-1, 0, 1] as const).map((t) => this.take(middle + t * half));
    const [low, here, high] = at as [Take, Take, Take];
    fitTerms(
      { values: [low.amps, here.amps, high.amps], slopes: [half * low.siemens, half * here.siemens, half * high.siemens] },
      this.own,
      0,
    );
    return [-0.75, -0.4, 0.4, 0.75].every((t) => {
      const { amps, magnitude } = this.take(middle + t * half);
      return Math.abs(amps - valueAt(this.own, 0, t)) <= 0.1 * RELATIVE_RESIDUAL * magnitude + RESIDUAL_FLOOR;
    });
  }

  private take(volts: number): Take {
    this.x[0] = volts;
    this.part.evaluate(this.x, this.residual, this.magnitude, this.jacobian);
    return {
      amps: this.residual[0] as number,
      magnitude: this.magnitude[0] as number,
      siemens: this.jacobian[slotOf(this.part.pattern, 0, 0)] as number,
    };
  }
}

/** At one voltage: what is taken [A], what that was added up from, and by how much it grows [S]. */
interface Take {
  readonly amps: number;
  readonly magnitude: number;
  readonly siemens: number;
}
