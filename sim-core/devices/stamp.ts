/** How one two-terminal element enters the equations: its current into two rows, its slope into three places of the matrix. */
import type { CurrentAndSlope } from './laws.ts';

/** A current that flows from node a to node b, into both rows. */
export function add(a: number, b: number, now: CurrentAndSlope, residual: Float64Array, magnitude: Float64Array): void {
  const { i } = now;
  const size = Math.abs(i);
  residual[a] = (residual[a] as number) + i;
  residual[b] = (residual[b] as number) - i;
  magnitude[a] = (magnitude[a] as number) + size;
  magnitude[b] = (magnitude[b] as number) + size;
}

/** Its slope, into the three places of element k. */
export function addSlope(slots: Int32Array, k: number, g: number, values: Float64Array): void {
  const aa = slots[3 * k] as number;
  const bb = slots[3 * k + 1] as number;
  const ab = slots[3 * k + 2] as number;
  values[aa] = (values[aa] as number) + g;
  values[bb] = (values[bb] as number) + g;
  values[ab] = (values[ab] as number) - g;
}
