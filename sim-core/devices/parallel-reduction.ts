/** Elements of one kind that join the same two nodes, taken together: sixty-four chips on one bus have one clamp and one capacitance there. */
import type { ElementTable } from './stamp.ts';

export interface ParallelGroup extends ElementTable {
  /** of each: how much of it there is in all */
  readonly total: Float64Array;
}

/** In the order in which each pair of nodes comes first; what has both ends on one node is left out. */
export function mergeParallel({ a, b, slots }: ElementTable, amounts: ArrayLike<number>): ParallelGroup {
  const first = new Map<string, number>();
  const kept: number[] = [];
  const total: number[] = [];
  for (let k = 0; k < a.length; k++) {
    if (a[k] === b[k]) continue;
    const key = `${a[k]} ${b[k]}`;
    let place = first.get(key);
    if (place === undefined) {
      place = kept.length;
      first.set(key, place);
      kept.push(k);
      total.push(0);
    }
    total[place] = (total[place] as number) + (amounts[k] as number);
  }
  return {
    a: Int32Array.from(kept, (k) => a[k] as number),
    b: Int32Array.from(kept, (k) => b[k] as number),
    slots: Int32Array.from(kept, (k) => slots[k] as number),
    total: Float64Array.from(total),
  };
}
