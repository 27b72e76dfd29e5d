/** Which watched voltages have passed their marks. Watches of one voltage are looked at together: most of the time it is between its two nearest marks. */
import { GROUND, type Node } from '../../devices/network.ts';

/** A voltage that is watched: node a against node b, passing `mark` [V]; with c, passing that part of the voltage of c against b. */
export interface Watch {
  readonly a: Node;
  readonly b: Node;
  readonly c?: Node;
  readonly mark: number;
}

/** By how much the voltage from a to b leaves what lies between its two ends, within h [s], at most [V]. */
interface Way {
  strays(a: Node, b: Node, h: number): number;
}

export interface Watches {
  readonly list: readonly Watch[];
  /** by watch, 1: it was last seen above its mark; changed only by `cross` */
  readonly above: Uint8Array;
}

/** A mark has been passed when the voltage is this far beyond it [V]. */
export const PASSED = 1e-9;

/** A voltage that passes its mark by less than this [V] and comes back has not passed it; as fine as a step in time. */
const STRAY = 1e-6;

/** The first `count`, in place. Nearly in order already: most voltages are watched by one chip. */
function ascend(list: Int32Array, count: number): void {
  for (let k = 1; k < count; k++) {
    const w = list[k] as number;
    let at = k;
    for (; at > 0 && (list[at - 1] as number) > w; at--) list[at] = list[at - 1] as number;
    list[at] = w;
  }
}

/** Node voltages are given with ground in place n. */
export class ThresholdCrossings {
  private readonly list: readonly Watch[];
  private readonly above: Uint8Array;
  private readonly n: number;
  private readonly members: number[][] = [];
  private readonly voltageOf: Int32Array;
  private readonly first: Watch[];
  private readonly nodeA: Int32Array;
  private readonly nodeB: Int32Array;
  private readonly nodeC: Int32Array;
  private readonly marks: Float64Array;
  /** the highest mark that it is above, and the lowest that it is below */
  private readonly low: Float64Array;
  private readonly high: Float64Array;
  private readonly found: Int32Array;
  /** by count: so many of `found` */
  private readonly views: Int32Array[] = [];
  readonly every: Int32Array<ArrayBuffer>;

  constructor({ list, above }: Watches, n: number) {
    this.list = list;
    this.above = above;
    this.n = n;
    const numbers = new Map<string, number>();
    this.voltageOf = Int32Array.from(list, ({ a, b, c }, i) => {
      const key = `${a} ${b} ${c}`;
      const voltage = numbers.get(key) ?? this.members.push([]) - 1;
      numbers.set(key, voltage);
      this.members[voltage]?.push(i);
      return voltage;
    });
    this.first = this.members.map(([i]) => list[i as number] as Watch);
    this.nodeA = Int32Array.from(this.first, (w) => this.inside(w.a));
    this.nodeB = Int32Array.from(this.first, (w) => this.inside(w.b));
    this.nodeC = Int32Array.from(this.first, (w) => this.inside(w.c));
    this.marks = Float64Array.from(list, (w) => w.mark);
    this.low = new Float64Array(this.members.length);
    this.high = new Float64Array(this.members.length);
    for (const voltage of this.members.keys()) this.enclose(voltage);
    this.found = new Int32Array(list.length);
    this.every = Int32Array.from(this.members.keys());
  }

  /** those of them that one of these watches looks at */
  voltagesOf(wanted: (watch: Watch) => boolean): Int32Array {
    return Int32Array.from([...this.members.keys()].filter((k) => wanted(this.first[k] as Watch)));
  }

  /** the watches of these voltages that are beyond their marks by now, by more than `far` [V] ≥ PASSED, ascending; written again by every look */
  passing(v: Float64Array, voltages: Int32Array, far = PASSED): Int32Array {
    let count = 0;
    for (let k = 0; k < voltages.length; k++) {
      const voltage = voltages[k] as number;
      const b = v[this.nodeB[voltage] as number] as number;
      const u = (v[this.nodeA[voltage] as number] as number) - b;
      const c = this.nodeC[voltage] as number;
      const whole = c < 0 ? 1 : (v[c] as number) - b;
      if (whole > 0 && u - (this.low[voltage] as number) * whole >= -PASSED && u - (this.high[voltage] as number) * whole <= PASSED)
        continue;
      const here = this.members[voltage] as number[];
      for (let m = 0; m < here.length; m++) {
        const i = here[m] as number;
        const by = this.over(v, i);
        if (!(this.above[i] === 1 ? by < -far : by > far)) continue;
        this.found[count++] = i;
      }
    }
    ascend(this.found, count);
    this.views[count] ??= this.found.subarray(0, count);
    return this.views[count] as Int32Array;
  }

  /** Could one of these voltages pass a mark between two moments h [s] apart and come back? */
  mayPassTwice(from: Float64Array, to: Float64Array, voltages: Int32Array, way: Way, h: number): boolean {
    for (let k = 0; k < voltages.length; k++) {
      const voltage = voltages[k] as number;
      const [a, b, c] = [this.nodeA[voltage] as number, this.nodeB[voltage] as number, this.nodeC[voltage] as number];
      const by = way.strays(a, b, h) + (c < 0 ? 0 : way.strays(c, b, h));
      if (by > STRAY && Math.min(this.room(from, voltage), this.room(to, voltage)) < by) return true;
    }
    return false;
  }

  /** these watches are on their other sides from now on */
  cross(passed: Int32Array): Int32Array {
    for (let k = 0; k < passed.length; k++) {
      const i = passed[k] as number;
      this.above[i] = 1 - (this.above[i] as number);
      this.enclose(this.voltageOf[i] as number);
    }
    return passed;
  }

  /** how far it is from the nearest of its marks [V] */
  private room(v: Float64Array, voltage: number): number {
    let least = Number.POSITIVE_INFINITY;
    const here = this.members[voltage] as number[];
    for (let m = 0; m < here.length; m++) least = Math.min(least, Math.abs(this.over(v, here[m] as number)));
    return least;
  }

  private inside(node: Node | undefined): number {
    return node === undefined ? -1 : node === GROUND ? this.n : node;
  }

  private enclose(voltage: number): void {
    let least = Number.NEGATIVE_INFINITY;
    let most = Number.POSITIVE_INFINITY;
    const here = this.members[voltage] as number[];
    for (let k = 0; k < here.length; k++) {
      const i = here[k] as number;
      const mark = this.marks[i] as number;
      if (this.above[i] === 1) {
        if (mark > least) least = mark;
      } else if (mark < most) most = mark;
    }
    this.low[voltage] = least;
    this.high[voltage] = most;
  }

  watch(i: number): Watch {
    return this.list[i] as Watch;
  }

  /** how far a watch is past its mark, beyond what counts as passed [V] */
  beyond(v: Float64Array, i: number): number {
    const over = this.over(v, i);
    return (this.above[i] === 1 ? -over : over) - PASSED;
  }

  /** how far a watch is above its mark [V] */
  over(v: Float64Array, i: number): number {
    const voltage = this.voltageOf[i] as number;
    const b = v[this.nodeB[voltage] as number] as number;
    const c = this.nodeC[voltage] as number;
    const mark = this.marks[i] as number;
    return (v[this.nodeA[voltage] as number] as number) - b - (c < 0 ? mark : mark * ((v[c] as number) - b));
  }
}
