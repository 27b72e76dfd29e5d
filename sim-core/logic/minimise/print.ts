/** Sums of products as text that a rule can be made of again. */
import type { Cube } from './cube.ts';

/** words: A AND NOT B OR C; signs: A & !B | C; textbook: A·B' + C */
export type Notation = 'words' | 'signs' | 'textbook';

const PLAIN_NAME = /^[\p{L}_][\p{L}\p{N}_]*$/u;
const SAID: Readonly<Record<Notation, { readonly and: string; readonly or: string; readonly not: (name: string) => string }>> = {
  words: { and: ' AND ', or: ' OR ', not: (n) => `NOT ${n}` },
  signs: { and: ' & ', or: ' | ', not: (n) => `!${n}` },
  textbook: { and: '·', or: ' + ', not: (n) => `${n}'` },
};

/** inputs: names, bit 0 first; within a product the most significant input stands first. */
export function printSum(products: readonly Cube[], inputs: readonly string[], notation: Notation = 'words'): string {
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
  return products.length > 0 ? products.map(product).join(or) : '0';
}

const WORDS = /^(?:and|or|not|xor|nand|nor|xnor|mod|div|plus|minus|times|if|then|else|free|when)$/i;
/** A name as a rule spells it: in quotation marks where it is not one plain word. */
const quotedName = (name: string): string => (PLAIN_NAME.test(name) && !WORDS.test(name) ? name : `"${name}"`);
