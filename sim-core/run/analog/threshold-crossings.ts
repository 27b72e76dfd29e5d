/** Which watched voltages have passed their marks. Watches of one voltage are looked at together: most of the time it is between its two nearest marks. */
import { GROUND, type Node } from '../../devices/network.ts';

/** A voltage that is watched: node a against node b, passing `mark` [V]; with c, passing that part of the voltage of c against b. */
export interface Watch {
  readonly a: Node;
  readonly b: Node;
  readonly c?: Node;
  readonly mark: number;
}

export interface Watches {
  readonly list: readonly Watch[];
  /** by watch, 1: it was last seen above its mark; changed only by `cross` */
  readonly above: Uint8Array;
}

/** A mark has been passed when the voltage is this far beyond it [V]. */
export const PASSED = 1e-9;

/** Node voltages are given with ground in place n. */
export interface ThresholdCrossings {
  /** all voltages that are watched */
  readonly every: Int32Array;
  /** those of them that one of these watches looks at */
  voltagesOf(wanted: (watch: Watch) => boolean): Int32Array;
  /** how far a watch is above its mark [V] */
  over(v: Float64Array, watch: number): number;
  /** the watches of these voltages that are beyond their marks by now, ascending; written anew by every look */
  passing(v: Float64Array, voltages: Int32Array): Int32Array;
  /** these watches are on their other sides from now on */
  cross(passed: Int32Array): Int32Array;
}

/** The first `count`, in place. Nearly in order already: most voltages are watched by one chip. */
function ascend(list: Int32Array, count: number): void {
  for (let k = 1; k < count; k++) {
    const w = list[k] as number;
    let at = k;
    for (; at > 0 && (list[at - 1] as number) > w; at--) list[at] = list[at - 1] as number;
    list[at] = w;
  }
}

export function makeThresholdCrossings({ list, above }: Watches, n: number): ThresholdCrossings {
  const inside = (node: Node | undefined) => (node === undefined ? -1 : node === GROUND ? n : node);
  const numbers = new Map<string, number>();
  const members: number[][] = [];
  const voltageOf = Int32Array.from(list, ({ a, b, c }, i) => {
    const key = `${a} ${b} ${c}`;
    const voltage = numbers.get(key) ?? members.push([]) - 1;
    numbers.set(key, voltage);
    members[voltage]?.push(i);
    return voltage;
  });
  const first = members.map(([i]) => list[i as number] as Watch);
  const nodeA = Int32Array.from(first, (w) => inside(w.a));
  const nodeB = Int32Array.from(first, (w) => inside(w.b));
  const nodeC = Int32Array.from(first, (w) => inside(w.c));
  const marks = Float64Array.from(list, (w) => w.mark);
  /** the highest mark that it is above, and the lowest that it is below */
  const low = new Float64Array(members.length);
  const high = new Float64Array(members.length);
  const enclose = (voltage: number) => {
    let least = Number.NEGATIVE_INFINITY;
    let most = Number.POSITIVE_INFINITY;
    const here = members[voltage] as number[];
    for (let k = 0; k < here.length; k++) {
      const i = here[k] as number;
      const mark = marks[i] as number;
      if (above[i] === 1) {
        if (mark > least) least = mark;
      } else if (mark < most) most = mark;
    }
    low[voltage] = least;
    high[voltage] = most;
  };
  for (const voltage of members.keys()) enclose(voltage);

  const over = (v: Float64Array, i: number): number => {
    const voltage = voltageOf[i] as number;
    const b = v[nodeB[voltage] as number] as number;
    const c = nodeC[voltage] as number;
    const mark = marks[i] as number;
    return (v[nodeA[voltage] as number] as number) - b - (c < 0 ? mark : mark * ((v[c] as number) - b));
  };
  const found = new Int32Array(list.length);
  /** by count: so many of `found` */
  const views: Int32Array[] = [];

  return {
    every: Int32Array.from(members.keys()),
    voltagesOf: (wanted) => Int32Array.from([...members.keys()].filter((k) => wanted(first[k] as Watch))),
    over,
    passing(v, voltages) {
      let count = 0;
      for (let k = 0; k < voltages.length; k++) {
        const voltage = voltages[k] as number;
        const b = v[nodeB[voltage] as number] as number;
        const u = (v[nodeA[voltage] as number] as number) - b;
        const c = nodeC[voltage] as number;
        const whole = c < 0 ? 1 : (v[c] as number) - b;
        if (whole > 0 && u - (low[voltage] as number) * whole >= -PASSED && u - (high[voltage] as number) * whole <= PASSED) continue;
        const here = members[voltage] as number[];
        for (let m = 0; m < here.length; m++) {
          const i = here[m] as number;
          const by = over(v, i);
          if (!(above[i] === 1 ? by < -PASSED : by > PASSED)) continue;
          found[count++] = i;
        }
      }
      ascend(found, count);
      views[count] ??= found.subarray(0, count);
      return views[count] as Int32Array;
    },
    cross(passed) {
      for (let k = 0; k < passed.length; k++) {
        const i = passed[k] as number;
        above[i] = 1 - (above[i] as number);
        enclose(voltageOf[i] as number);
      }
      return passed;
    },
  };
}
