/**
 * Outputs that gates make with exclusive ORs: inputs that count only by their XOR, and inputs that turn the output over in every row. So parities, adders'
 * sums and comparators are written as they are built, where that takes fewer gates. Nothing says that no other form is shorter still.
 */
import type { TruthTable } from '../truth-table.ts';
import { ABSENT_WORD, type Cube, cellsOf, FREE, ON, type SumOfProducts } from './cube.ts';
import { minimalSum } from './exact.ts';
import { formIn, hasXor, type OutputForm, plainForm } from './form.ts';
import { gatesFor } from './gate-count.ts';
import { shortSum } from './heuristic.ts';

/** Up to so many letters the sum over them is the shortest. */
const EXACT_LETTERS = 8;

/** One form an output, by its sum of products: with XOR where that takes fewer gates of two inputs, and only if all outputs together do too. */
export function formsOf(table: TruthTable, sums: readonly SumOfProducts[]): readonly OutputForm[] {
  const plain = sums.map((sum) => plainForm(sum, table.inputs.length));
  const forms = plain.map((form, output) => {
    const other = exclusiveForm(cellsOf(table, output));
    return other && gatesFor([other], 2).gateCount < gatesFor([form], 2).gateCount ? other : form;
  });
  return gatesFor(forms, 2).gateCount < gatesFor(plain, 2).gateCount ? forms : plain;
}

/** With at least one exclusive OR, and equal in every row that is asked; undefined: the function shows none. */
export function exclusiveForm(cells: Uint8Array): OutputForm | undefined {
  let now: Reduced = { cells, letters: Array.from({ length: Math.log2(cells.length) }, (_, i) => 1 << i) };
  for (let merged = mergedOnce(now); merged; merged = mergedOnce(now)) now = merged;
  let beside = 0;
  for (let k = turning(now); k >= 0; k = turning(now)) {
    beside ^= now.letters[k] as number;
    now = without(now, k);
  }
  const form: OutputForm = { letters: now.letters, beside, products: productsOf(now.cells) };
  return hasXor(form) && cells.every((cell, row) => cell === FREE || cell === formIn(form, row)) ? form : undefined;
}

/** A function over letters, one cell a word of them. */
interface Reduced {
  readonly cells: Uint8Array;
  readonly letters: readonly number[];
}

/** Do all asked words keep their cell (or, `same` false, change it) when these letters turn over? With at least one pair that is asked. */
function answers(cells: Uint8Array, turned: number, same: boolean): boolean {
  let asked = false;
  for (let w = 0; w < cells.length; w++) {
    const [one, other] = [cells[w] as number, cells[w ^ turned] as number];
    if (one === FREE || other === FREE) continue;
    if ((one === other) !== same) return false;
    asked = true;
  }
  return asked;
}

/** Does a letter decide anything by itself? */
const matters = (cells: Uint8Array, bit: number): boolean => cells.some((cell, w) => cell === ON && cells[w ^ bit] === ABSENT_WORD);

/** Two letters that only count by their exclusive OR become one. */
function mergedOnce({ cells, letters }: Reduced): Reduced | undefined {
  for (let i = 0; i < letters.length; i++)
    for (let j = i + 1; j < letters.length; j++) {
      const [a, b] = [1 << i, 1 << j];
      if (!matters(cells, a) || !matters(cells, b) || !answers(cells, a | b, true)) continue;
      const joined = letters.map((mask, k) => (k === i ? mask ^ (letters[j] as number) : mask));
      return { cells: halved(cells, j, (w) => [w, w ^ a ^ b]), letters: joined.filter((_, k) => k !== j) };
    }
  return undefined;
}

/** A letter that turns the output over in every word; −1: none. */
const turning = ({ cells, letters }: Reduced): number => letters.findIndex((_, k) => answers(cells, 1 << k, false));

/** The function without a letter that turns it over: as it is where that is 0. */
function without({ cells, letters }: Reduced, k: number): Reduced {
  const straight = Uint8Array.from(cells, (cell, w) => (cell !== FREE && (w >> k) & 1 ? cell ^ ON : cell));
  return { cells: halved(straight, k, (w) => [w, w ^ (1 << k)]), letters: letters.filter((_, i) => i !== k) };
}

/** Half the cells: for each word with letter k at 0, what one of two words says, where either is asked. */
function halved(cells: Uint8Array, k: number, both: (word: number) => readonly [number, number]): Uint8Array {
  const low = (1 << k) - 1;
  return Uint8Array.from({ length: cells.length / 2 }, (_, q) => {
    const [one, other] = both(((q & ~low) << 1) | (q & low)).map((w) => cells[w] as number) as [number, number];
    return one === FREE ? other : one;
  });
}

function productsOf(cells: Uint8Array): readonly Cube[] {
  if (!cells.includes(ON)) return [];
  if (!cells.includes(ABSENT_WORD)) return [{ care: 0, value: 0 }];
  const short = shortSum(cells);
  return cells.length <= 2 ** EXACT_LETTERS ? minimalSum(cells, short).products : short;
}
