/** Minimal sums of products against published examples. */
import { describe, expect, test } from 'vitest';
import { type Cube, cellsOf, literalsOf } from '../../sim-core/logic/minimise/cube.ts';
import { primesOf } from '../../sim-core/logic/minimise/exact.ts';
import { minimise } from '../../sim-core/logic/minimise/minimise.ts';
import { tableOfWords } from '../../sim-core/logic/truth-table.ts';

/** Inputs a (most significant) b c …; minterms and don't-cares by number. */
function given(inputs: number, minterms: readonly number[], free: readonly number[] = []) {
  const rows = Array.from({ length: 2 ** inputs }, (_, r) => r);
  const letters = Array.from({ length: inputs }, (_, i) => 'abcdef'[inputs - 1 - i]!);
  const made = tableOfWords(
    letters,
    ['F'],
    rows.map((r) => Number(minterms.includes(r))),
    rows.map((r) => Number(free.includes(r))),
  );
  if (!made.ok) throw new Error(made.failure.says);
  return made.value;
}
/** "ab'" style, letters from the most significant. */
const said = (cube: Cube, letters: readonly string[]) =>
  [...letters.keys()]
    .toReversed()
    .filter((i) => (cube.care >> i) & 1)
    .map((i) => `${letters[i]}${(cube.value >> i) & 1 ? '' : "'"}`)
    .join('');

interface Example {
  readonly source: string;
  readonly inputs: number;
  readonly minterms: readonly number[];
  readonly free?: readonly number[];
  /** all that there are */
  readonly primes?: readonly string[];
  /** some of them, where the source could be read in part */
  readonly primesAmong?: readonly string[];
  /** sums that the source names as minimal */
  readonly sums?: readonly string[];
}

const EXAMPLES: readonly Example[] = [
  {
    source: "lecture 10 on Petrick's method, course 349, University of Idaho (mrc.uidaho.edu): primes K to Q, solutions KNP and LMQ",
    inputs: 3,
    minterms: [0, 1, 2, 5, 6, 7],
    primes: ["a'b'", "a'c'", "b'c", "bc'", 'ac', 'ab'],
    sums: ["a'b' + bc' + ac", "a'c' + b'c + ab"],
  },
  {
    source: 'article “Quine–McCluskey algorithm” in the same encyclopedia, from memory: m(4,8,10,11,12,15) + d(9,14)',
    inputs: 4,
    minterms: [4, 8, 10, 11, 12, 15],
    free: [9, 14],
    primes: ["bc'd'", "ab'", "ad'", 'ac'],
    sums: ["bc'd' + ab' + ac", "bc'd' + ad' + ac"],
  },
  {
    source:
      'C. H. Roth, Fundamentals of Logic Design, chapter 6: the example m(0,1,2,5,6,7,8,9,10,14) as its published slides have it; primes and sum from memory',
    inputs: 4,
    minterms: [0, 1, 2, 5, 6, 7, 8, 9, 10, 14],
    primes: ["b'c'", "b'd'", "cd'", "a'c'd", "a'bd", "a'bc"],
    sums: ["a'bd + b'c' + cd'"],
  },
  {
    source: 'lecture 10, as above, on free rows: m(9,12,13,15) + d(1,4,5,7,8,11,14), four of its pairs of pairs as printed there',
    inputs: 4,
    minterms: [9, 12, 13, 15],
    free: [1, 4, 5, 7, 8, 11, 14],
    primesAmong: ["c'd", "bc'", "ac'", 'bd'],
  },
];

describe.each(EXAMPLES)('$source', ({ inputs, minterms, free, primes, primesAmong, sums }) => {
  const table = given(inputs, minterms, free);
  const found = primesOf(cellsOf(table, 0)).map((p) => said(p, table.inputs));
  test('the prime implicants are those, or have those among them', () => {
    if (primes) expect(found.toSorted()).toEqual(primes.toSorted());
    else expect(found).toEqual(expect.arrayContaining([...(primesAmong ?? [])]));
  });
  if (!sums) return;
  test('the minimal sum is one of those', () => {
    const { products, proven } = minimise(table, 0);
    const sum = products
      .map((p) => said(p, table.inputs))
      .sort()
      .join();
    expect(sums?.map((s) => s.split(' + ').sort().join())).toContain(sum);
    expect(proven).toBe(true);
  });
});

test('decimal digit on seven segments, 6 and 9 with tails: literals of the known minimal sums', () => {
  // from memory, as most textbooks print them for A B C D with rows 10 to 15 free: a = A+C+BD+B'D', c = B+C'+D, e = B'D'+CD'
  const rows = [0x3f, 0x06, 0x5b, 0x4f, 0x66, 0x6d, 0x7d, 0x07, 0x7f, 0x6f];
  const count = (segment: number) => {
    const on = [...rows.keys()].filter((r) => (rows[r]! >> segment) & 1);
    const { products } = minimise(given(4, on, [10, 11, 12, 13, 14, 15]), 0);
    return [products.length, products.reduce((n, p) => n + literalsOf(p), 0)];
  };
  expect([count(0), count(2), count(4)]).toEqual([
    [4, 6],
    [3, 3],
    [2, 4],
  ]);
});
