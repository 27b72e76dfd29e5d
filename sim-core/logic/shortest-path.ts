/** Short open paths through points whose distance is the number of bits in which they differ. Ties go to the lower address. */
import { bitCount } from '../units/bit-count.ts';

export interface Stop {
  readonly address: number;
  readonly data: number;
  /** bits of data that matter; absent: all. The others stay as they stand. */
  readonly given?: number;
}

/** Where a bit matters in one of the two only, no flip between them is for its sake. */
export function flipsBetween(a: Stop, b: Stop): number {
  return bitCount(a.address ^ b.address) + bitCount((a.data ^ b.data) & (a.given ?? -1) & (b.given ?? -1));
}

/** The shortest path from start through all stops: least[set, last] = min over before of least[set − last, before] + distance. 2^n · n² steps. */
export function exactOrder(start: Stop, stops: readonly Stop[]): Stop[] {
  const n = stops.length;
  if (n === 0) return [];
  const far = 0xffff;
  const apart = Uint16Array.from({ length: n * n }, (_, i) => flipsBetween(stops[Math.floor(i / n)] ?? start, stops[i % n] ?? start));
  const least = new Uint16Array(2 ** n * n).fill(far);
  const before = new Int8Array(2 ** n * n).fill(-1);
  for (const [i, stop] of stops.entries()) least[(1 << i) * n + i] = flipsBetween(start, stop);
  for (let set = 1; set < 2 ** n; set++)
    for (let last = 0; last < n; last++) {
      const so = least[set * n + last] ?? far;
      if (so === far) continue;
      for (let next = 0; next < n; next++) {
        if ((set >> next) & 1) continue;
        const at = (set | (1 << next)) * n + next;
        const sum = so + (apart[last * n + next] ?? 0);
        if (sum >= (least[at] ?? far)) continue;
        least[at] = sum;
        before[at] = last;
      }
    }
  let set = 2 ** n - 1;
  let last = 0;
  for (let i = 1; i < n; i++) if ((least[set * n + i] ?? far) < (least[set * n + last] ?? far)) last = i;
  const order: Stop[] = [];
  while (last >= 0) {
    const stop = stops[last];
    if (stop) order.unshift(stop);
    const previous = before[set * n + last] ?? -1;
    set &= ~(1 << last);
    last = previous;
  }
  return order;
}

/** Nearest neighbour from the start; improved: then 2-opt and Or-opt until neither helps. */
export function anyOrder(start: Stop, stops: readonly Stop[], improved: boolean): Stop[] {
  const left = [...stops];
  const path = [start];
  while (left.length > 0) {
    const from = path.at(-1) ?? start;
    let best = 0;
    let least = Number.POSITIVE_INFINITY;
    for (const [i, stop] of left.entries()) {
      const d = flipsBetween(from, stop);
      if (d < least) {
        least = d;
        best = i;
      }
    }
    path.push(...left.splice(best, 1));
  }
  if (improved) while (reverseRuns(path) || moveRuns(path));
  return path.slice(1);
}

/** Distance between neighbours on the path; behind its end nothing is to be gone. */
const step = (path: readonly Stop[], a: number, b: number): number => {
  const [p, q] = [path[a], path[b]];
  return p && q ? flipsBetween(p, q) : 0;
};

/** 2-opt: turns runs i … k end for end where that shortens the path. The start stays. */
function reverseRuns(path: Stop[]): boolean {
  let helped = false;
  for (let i = 1; i < path.length - 1; i++)
    for (let k = i + 1; k < path.length; k++) {
      const gain = step(path, i - 1, i) + step(path, k, k + 1) - step(path, i - 1, k) - step(path, i, k + 1);
      if (gain <= 0) continue;
      path.splice(i, k - i + 1, ...path.slice(i, k + 1).reverse());
      helped = true;
    }
  return helped;
}

/** Or-opt: moves runs of up to three stops elsewhere, either way round. */
function moveRuns(path: Stop[]): boolean {
  let helped = false;
  for (let length = 1; length <= 3; length++)
    for (let i = 1; i + length <= path.length; i++) {
      const end = i + length - 1;
      const freed = step(path, i - 1, i) + step(path, end, end + 1) - (end + 1 < path.length ? step(path, i - 1, end + 1) : 0);
      if (freed <= 0) continue;
      let best = 0;
      let move: readonly [behind: number, turned: boolean] | undefined;
      for (let k = 0; k < path.length; k++) {
        if (k >= i - 1 && k <= end) continue;
        const open = step(path, k, k + 1);
        for (const turned of [false, true]) {
          const [first, last] = turned ? [end, i] : [i, end];
          const gain = freed + open - step(path, k, first) - (k + 1 < path.length ? step(path, last, k + 1) : 0);
          if (gain <= best) continue;
          best = gain;
          move = [k, turned];
        }
      }
      if (!move) continue;
      const [behind, turned] = move;
      const run = path.splice(i, length);
      path.splice((behind > i ? behind - length : behind) + 1, 0, ...(turned ? run.reverse() : run));
      helped = true;
    }
  return helped;
}

/** Every path is a spanning tree, so none is shorter than the least one (Prim). */
export function lowerBound(start: Stop, stops: readonly Stop[]): number {
  const near = stops.map((s) => flipsBetween(start, s));
  const waiting = new Set(stops.keys());
  let sum = 0;
  while (waiting.size > 0) {
    let next = -1;
    for (const i of waiting) if (next < 0 || (near[i] ?? 0) < (near[next] ?? 0)) next = i;
    waiting.delete(next);
    sum += near[next] ?? 0;
    const added = stops[next] ?? start;
    for (const i of waiting) near[i] = Math.min(near[i] ?? 0, flipsBetween(added, stops[i] ?? start));
  }
  return sum;
}
