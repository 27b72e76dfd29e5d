/** The shortest sum of products of each output: exact to eight inputs, good above. */
import type { TruthTable } from '../truth-table.ts';
import { cellsOf, OFF, ON, type SumOfProducts } from './cube.ts';
import { minimalSum } from './exact.ts';
import { shortSum } from './heuristic.ts';

const EXACT_INPUTS = 8;

export function minimise(table: TruthTable, output: number): SumOfProducts {
  const cells = cellsOf(table, output);
  if (!cells.includes(ON)) return { products: [], atLeast: 0, proven: true, literalsProven: true };
  if (!cells.includes(OFF)) return { products: [{ care: 0, value: 0 }], atLeast: 1, proven: true, literalsProven: true };
  const short = shortSum(cells);
  if (table.inputs.length <= EXACT_INPUTS) return minimalSum(cells, short);
  return { products: short, atLeast: 1, proven: short.length === 1, literalsProven: false };
}
