/** Sums of products as text that a rule can be made of again. */
import { quotedName } from '../expression/names.ts';
import type { Cube } from './cube.ts';

/** words: A AND NOT B OR C; signs: A & !B | C; textbook: A·B' + C */
export type Notation = 'words' | 'signs' | 'textbook';

const SAID: Readonly<Record<Notation, { readonly and: string; readonly or: string; readonly not: (name: string) => string }>> = {
  words: { and: ' AND ', or: ' OR ', not: (n) => `NOT ${n}` },
  signs: { and: ' & ', or: ' | ', not: (n) => `!${n}` },
  textbook: { and: '·', or: ' + ', not: (n) => `${n}'` },
};

/** inputs: names, bit 0 first; within a product the most significant input stands first. */
export const printSum = (products: readonly Cube[], inputs: readonly string[], notation: Notation = 'words'): string =>
  printProducts(products, inputs, notation).join(' ');

/** A product each, all but the last with the sign for OR behind it. */
export function printProducts(products: readonly Cube[], inputs: readonly string[], notation: Notation): string[] {
  const { and, or, not } = SAID[notation];
  const product = ({ care, value }: Cube): string => {
    const literals: string[] = [];
    for (let i = inputs.length - 1; i >= 0; i--) {
      if (!((care >> i) & 1)) continue;
      const name = quotedName(inputs[i] ?? '');
      literals.push((value >> i) & 1 ? name : not(name));
    }
    return literals.length > 0 ? literals.join(and) : '1';
  };
  if (products.length === 0) return ['0'];
  return products.map((p, i) => (i < products.length - 1 ? `${product(p)}${or.trimEnd()}` : product(p)));
}
