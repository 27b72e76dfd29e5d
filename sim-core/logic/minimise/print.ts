/** Outputs of gates as text that a rule can be made of again. */
import { quotedName } from '../expression/names.ts';
import type { Cube } from './cube.ts';
import { type OutputForm, plainForm } from './form.ts';

/** words: A AND NOT B OR C; signs: A & !B | C; textbook: A·B' + C */
export type Notation = 'words' | 'signs' | 'textbook';

interface Signs {
  readonly and: string;
  readonly or: string;
  readonly xor: string;
  readonly not: (name: string) => string;
}

const SIGNS: Readonly<Record<Notation, Signs>> = {
  words: { and: ' AND ', or: ' OR ', xor: ' XOR ', not: (n) => `NOT ${n}` },
  signs: { and: ' & ', or: ' | ', xor: ' ^ ', not: (n) => `!${n}` },
  textbook: { and: '·', or: ' + ', xor: ' ⊕ ', not: (n) => `${n}'` },
};

/** inputs: names, bit 0 first; within a product the most significant input stands first. */
export const printSum = (products: readonly Cube[], inputs: readonly string[], notation: Notation = 'words'): string =>
  printForm(plainForm({ products }, inputs.length), inputs, notation).join(' ');

/** A line each: what the sum is XORed with, if anything, then the products, all but the last with the sign that leads on. */
export function printForm({ letters, beside, products }: OutputForm, inputs: readonly string[], notation: Notation = 'words'): string[] {
  const signs = SIGNS[notation];
  const names = letters.map((mask) => letterName(mask, inputs, signs));
  const sum = products.map((p, i) => `${product(p, names, signs)}${i < products.length - 1 ? signs.or.trimEnd() : ''}`);
  const turned = xorOf(beside, inputs, signs);
  if (turned === '') return sum.length > 0 ? sum : ['0'];
  if (sum.length === 0) return [turned];
  if (products.some((p) => p.care === 0)) return [signs.not(`(${turned})`)];
  sum[0] = `(${sum[0]}`;
  sum.push(`${sum.pop()})`);
  return [`${turned}${signs.xor.trimEnd()}`, ...sum];
}

/** What each letter of a form is called: an input as it is, an exclusive OR in brackets. */
export const letterNames = ({ letters }: OutputForm, inputs: readonly string[]): string[] =>
  letters.map((mask) => inputs.find((_, i) => mask === 1 << i) ?? letterName(mask, inputs, SIGNS.words));

function product({ care, value }: Cube, names: readonly string[], { and, not }: Signs): string {
  const literals = names.flatMap((name, i) => ((care >> i) & 1 ? [(value >> i) & 1 ? name : not(name)] : []));
  return literals.length > 0 ? literals.reverse().join(and) : '1';
}

function letterName(mask: number, inputs: readonly string[], signs: Signs): string {
  const name = xorOf(mask, inputs, signs);
  return (mask & (mask - 1)) === 0 ? name : `(${name})`;
}

/** The most significant input first; '' for none. */
const xorOf = (mask: number, inputs: readonly string[], { xor }: Signs): string =>
  inputs
    .flatMap((name, i) => ((mask >> i) & 1 ? [quotedName(name)] : []))
    .reverse()
    .join(xor);
