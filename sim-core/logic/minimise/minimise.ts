/** The shortest sum of products of each output: exact to eight inputs; above, a short one with a bound below which none can be. */
import type { TruthTable } from '../truth-table.ts';
import { ABSENT_WORD, cellsOf, ON, type SumOfProducts } from './cube.ts';
import { minimalSum } from './exact.ts';
import { shortSum } from './heuristic.ts';
import { independentSetBound } from './independent-set-bound.ts';

const EXACT_INPUTS = 8;

/** Parts of the work above eight inputs that the short sum takes; the bound takes the rest. */
const GROWING = 0.4;

/** progress: called with 0 to 1 */
export function minimise(table: TruthTable, output: number, progress: (part: number) => void = () => {}): SumOfProducts {
  const cells = cellsOf(table, output);
  if (!cells.includes(ON)) return { products: [], atLeast: 0, proven: true, literalsProven: true };
  if (!cells.includes(ABSENT_WORD)) return { products: [{ care: 0, value: 0 }], atLeast: 1, proven: true, literalsProven: true };
  if (table.inputs.length <= EXACT_INPUTS) return minimalSum(cells, shortSum(cells), progress);
  const products = shortSum(cells, (part) => progress(GROWING * part));
  const atLeast = independentSetBound(cells, (part) => progress(GROWING + (1 - GROWING) * part)).length;
  return { products, atLeast, proven: products.length === atLeast, literalsProven: false };
}
