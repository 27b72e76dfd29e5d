/** Products of inputs as cubes, and sums of them. */
import type { TruthTable } from '../truth-table.ts';

/** A product: input i takes part if bit i of care is 1, and then it must equal bit i of value. value has no bits outside care. */
export interface Cube {
  readonly care: number;
  readonly value: number;
}

/** One output as a sum of products of inputs. */
export interface SumOfProducts {
  /** none: the constant 0; one without care: the constant 1 */
  readonly products: readonly Cube[];
  /** no sum of products has fewer products than this */
  readonly atLeast: number;
  /** fewest products: shown by complete search */
  readonly proven: boolean;
  /** of all sums with fewest products the fewest literals: shown by complete search */
  readonly literalsProven: boolean;
}

export const ABSENT_WORD = 0;
export const ON = 1;
export const FREE = 2;

/** One output's cells, OFF, ON or FREE a row. */
export function cellsOf(table: TruthTable, output: number): Uint8Array {
  const cells = new Uint8Array(table.values.length);
  for (let r = 0; r < cells.length; r++)
    cells[r] = ((table.dontCare[r] ?? 0) >> output) & 1 ? FREE : ((table.values[r] ?? 0) >> output) & 1;
  return cells;
}

export function literalsOf(cube: Cube): number {
  let n = 0;
  for (let rest = cube.care; rest !== 0; rest &= rest - 1) n++;
  return n;
}

export const covers = (cube: Cube, row: number): boolean => (row & cube.care) === cube.value;

/** What a sum gives in a row. */
export const sumIn = (products: readonly Cube[], row: number): 0 | 1 => (products.some((p) => covers(p, row)) ? 1 : 0);

/** First by products, then by literals, of which 128 products of eight inputs have 1 024. */
const PRODUCT = 4096;
export const priceOf = (cube: Cube): number => PRODUCT + literalsOf(cube);
export const productsIn = (price: number): number => Math.floor(price / PRODUCT);
