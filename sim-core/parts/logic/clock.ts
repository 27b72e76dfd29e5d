/**
 * What a clock pin's wandering between its levels means for what a chip stores. An edge is a way from low to high; a clock that left its level and came
 * back may have been one, and one that took longer between the levels than the family allows may have been any number of them.
 */
import type { Level } from '../part.ts';
import type { Numbers } from './unknown-enumeration.ts';

/** How many rising edges there may have been since the clock left the level it had. */
export type Edges = 'none' | 'one' | 'none or one' | 'any number' | 'one or more';

export function edges(from: Level, to: Level, took: number, slowest: number): Edges {
  const slow = took > slowest;
  if (from === 'L' && to === 'H') return slow ? 'one or more' : 'one';
  if (from === 'H' && to === 'L') return slow ? 'any number' : 'none';
  return slow ? 'any number' : 'none or one';
}

/** The numbers a cell may have after so many edges; next: those after one edge. */
export function afterEdges(before: Numbers, count: Edges, next: (numbers: Numbers) => Numbers): Numbers {
  if (count === 'none') return before;
  const once = next(before);
  if (count === 'one') return once;
  if (count === 'none or one') return before | once;
  let all = count === 'any number' ? before | once : once;
  for (let more = all | next(all); more !== all; more = all | next(all)) all = more;
  return all;
}
