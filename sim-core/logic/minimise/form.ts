/** One output as gates would make it: a sum of products whose letters are inputs or exclusive ORs of inputs, itself XORed with some inputs or none. */
import { type Cube, type SumOfProducts, sumIn } from './cube.ts';

/** A sum over letters, XORed with some inputs or none; masks have bit i for input i. */
export interface OutputForm {
  /** the letters of the products: inputs whose exclusive OR each is; a single bit is the input itself. No input is in two letters. */
  readonly letters: readonly number[];
  /** inputs that the sum is XORed with; 0: none */
  readonly beside: number;
  /** over the letters: bit k of a cube is letter k */
  readonly products: readonly Cube[];
}

/** A sum over the inputs themselves. inputs: how many there are. */
export const plainForm = ({ products }: Pick<SumOfProducts, 'products'>, inputs: number): OutputForm => ({
  letters: Array.from({ length: inputs }, (_, i) => 1 << i),
  beside: 0,
  products,
});

/** What a form gives in a row. */
export function formIn({ letters, beside, products }: OutputForm, row: number): 0 | 1 {
  const word = letters.reduce((w, mask, k) => w | (parityOf(row & mask) << k), 0);
  return (sumIn(products, word) ^ parityOf(row & beside)) as 0 | 1;
}

/** Is an exclusive OR of two inputs or more in it? */
export const hasXor = ({ letters, beside }: OutputForm): boolean => beside !== 0 || letters.some((mask) => (mask & (mask - 1)) !== 0);

function parityOf(word: number): 0 | 1 {
  let odd: 0 | 1 = 0;
  for (let rest = word; rest !== 0; rest &= rest - 1) odd = odd === 0 ? 1 : 0;
  return odd;
}
