/** Minimal sums of products: what they give in every row, that no shorter one exists, and how they are printed and built. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Cube, cellsOf, covers, literalsOf, ON, priceOf, sumIn } from '../../sim-core/logic/minimise/cube.ts';
import { primesOf } from '../../sim-core/logic/minimise/exact.ts';
import { gatesFor } from '../../sim-core/logic/minimise/gate-count.ts';
import { shortSum } from '../../sim-core/logic/minimise/heuristic.ts';
import { independentSetBound } from '../../sim-core/logic/minimise/independent-set-bound.ts';
import { minimise } from '../../sim-core/logic/minimise/minimise.ts';
import { type Notation, printSum } from '../../sim-core/logic/minimise/print.ts';
import { tableOfRules } from '../../sim-core/logic/rules-table.ts';
import { rowsOf, type TruthTable, tableOfWords, wrongBits } from '../../sim-core/logic/truth-table.ts';

const names = (n: number) => Array.from({ length: n }, (_, i) => `A${i}`);
const oneOutput = (n: number, values: readonly number[], free: readonly number[] = values.map(() => 0)): TruthTable => {
  const made = tableOfWords(names(n), ['F'], values, free);
  if (!made.ok) throw new Error(made.failure.says);
  return made.value;
};

/** cells of a random function: 0, 1, and in some functions free ones */
const cells = (least: number, most: number) =>
  fc
    .tuple(fc.integer({ min: least, max: most }), fc.constantFrom(2, 3))
    .chain(([n, kinds]) =>
      fc.array(fc.nat(kinds - 1), { minLength: 2 ** n, maxLength: 2 ** n }).map((c) => ({ n, c: Uint8Array.from(c) })),
    );
const tableOf = ({ n, c }: { n: number; c: Uint8Array }) =>
  oneOutput(
    n,
    [...c].map((v) => v & 1),
    [...c].map((v) => v >> 1),
  );

/** The least price of any sum of products, by trying every set of implicants in order of size. Only for few inputs. */
function leastPrice(c: Uint8Array): number {
  const all = c.length - 1;
  const must = [...c.keys()].filter((r) => c[r] === ON);
  const implicants: { price: number; covers: number }[] = [];
  for (let care = 0; care <= all; care++)
    for (let value = 0; value <= care; value++) {
      if (value & ~care) continue;
      const cube: Cube = { care, value };
      const rows = [...c.keys()].filter((r) => covers(cube, r));
      if (rows.every((r) => c[r] !== 0))
        implicants.push({ price: priceOf(cube), covers: must.reduce((m, r, i) => m | (rows.includes(r) ? 1 << i : 0), 0) });
    }
  // cheapest price of each set of covered rows: every way of adding implicants, one row at a time
  const least = new Map<number, number>([[0, 0]]);
  const full = 2 ** must.length - 1;
  for (let set = 0; set < full; set++) {
    const now = least.get(set);
    if (now === undefined) continue;
    for (const i of implicants) {
      const next = set | i.covers;
      if (next > set && now + i.price < (least.get(next) ?? Infinity)) least.set(next, now + i.price);
    }
  }
  return least.get(full) ?? Infinity;
}

/** The least price of a cover by primes: the first row that is left takes each of its primes in turn, and nothing is left out but what costs too much already. */
function plainSearch(c: Uint8Array): number {
  const primes = primesOf(c);
  const must = [...c.keys()].filter((r) => c[r] === ON);
  let best = Infinity;
  const go = (left: readonly number[], price: number) => {
    if (price >= best) return;
    const [row] = left;
    if (row === undefined) best = price;
    else
      for (const p of primes)
        if (covers(p, row))
          go(
            left.filter((r) => !covers(p, r)),
            price + priceOf(p),
          );
  };
  go(must, 0);
  return best;
}

const priceOfAll = (products: readonly Cube[]) => products.reduce((sum, p) => sum + priceOf(p), 0);

describe('a minimised sum', () => {
  test('gives what the table asks for in every row of three thousand random functions', () => {
    fc.assert(
      fc.property(cells(1, 6), (f) => {
        const { products, atLeast, proven } = minimise(tableOf(f), 0);
        for (const [r, cell] of f.c.entries()) if (cell !== 2) expect(sumIn(products, r)).toBe(cell);
        expect(proven).toBe(true);
        expect(atLeast).toBe(products.length);
      }),
      { numRuns: 3000 },
    );
  });

  test('is the cheapest there is, by trying all sums, to four inputs', () => {
    fc.assert(
      fc.property(cells(1, 4), (f) => {
        const { products, literalsProven } = minimise(tableOf(f), 0);
        expect(priceOfAll(products)).toBe(leastPrice(f.c));
        expect(literalsProven).toBe(true);
      }),
      { numRuns: 300 },
    );
  });

  test('is the cheapest there is, by a plain search over the prime implicants, of five inputs and where growing alone falls short', () => {
    let improved = 0;
    fc.assert(
      fc.property(cells(5, 5), ({ n, c }) => {
        if (!c.includes(ON) || !c.includes(0)) return;
        const price = priceOfAll(minimise(tableOf({ n, c }), 0).products);
        expect(price).toBe(plainSearch(c));
        if (price < priceOfAll(shortSum(c))) improved++;
      }),
      { numRuns: 400, seed: 3 },
    );
    // otherwise the search would have had nothing to do
    expect(improved).toBeGreaterThan(10);
  });

  test('of all 256 functions of three inputs is the cheapest there is', () => {
    for (let f = 0; f < 256; f++) {
      const c = Uint8Array.from({ length: 8 }, (_, r) => (f >> r) & 1);
      expect(priceOfAll(minimise(tableOf({ n: 3, c }), 0).products), `function ${f}`).toBe(leastPrice(c));
    }
  });

  test('of seven and eight inputs is right, and its least number of products is proven', () => {
    fc.assert(
      fc.property(cells(7, 8), (f) => {
        const { products, atLeast, proven } = minimise(tableOf(f), 0);
        for (const [r, cell] of f.c.entries()) if (cell !== 2) expect(sumIn(products, r)).toBe(cell);
        expect([atLeast, proven]).toEqual([products.length, true]);
      }),
      // one seed: a proof may take longer than its patience, and then says so
      { numRuns: 6, seed: 8 },
    );
  });

  test('above eight inputs is right, prime and without a needless product', () => {
    fc.assert(
      fc.property(cells(9, 11), (f) => {
        const { products } = minimise(tableOf(f), 0);
        const count = new Uint16Array(f.c.length);
        for (const p of products) for (let r = 0; r < f.c.length; r++) if (covers(p, r)) count[r]!++;
        for (const [r, cell] of f.c.entries()) if (cell !== 2 && count[r]! > 0 !== (cell === 1)) expect.fail(`row ${r}`);
        for (const p of products) {
          expect(f.c.some((cell, r) => cell === ON && covers(p, r) && count[r] === 1)).toBe(true);
          for (let rest = p.care; rest !== 0; rest &= rest - 1) {
            const bit = rest & -rest;
            const larger = { care: p.care & ~bit, value: p.value & ~bit };
            expect(f.c.some((cell, r) => cell === 0 && covers(larger, r))).toBe(true);
          }
        }
      }),
      { numRuns: 4 },
    );
  });

  test('found by growing and shrinking has at most a tenth more products than the minimum, over 60 functions', () => {
    let [short, least] = [0, 0];
    fc.assert(
      fc.property(cells(5, 7), ({ n, c }) => {
        if (!c.includes(ON) || !c.includes(0)) return;
        short += shortSum(c).length;
        least += minimise(tableOf({ n, c }), 0).products.length;
      }),
      { numRuns: 60 },
    );
    expect(short / least).toBeLessThan(1.1);
    expect(short).toBeGreaterThanOrEqual(least);
  });

  test('of a constant is 0 or 1', () => {
    expect(printSum(minimise(oneOutput(2, [0, 0, 0, 0], [1, 0, 0, 0]), 0).products, names(2))).toBe('0');
    expect(printSum(minimise(oneOutput(2, [1, 1, 0, 1], [0, 0, 1, 0]), 0).products, names(2))).toBe('1');
  });

  test('of parity has every row as a product: nothing can be joined', () => {
    const parity = tableOfRules(names(8), ['P'], 'P = parity(A7..A0)');
    const { products, proven } = minimise(parity.ok ? parity.value : oneOutput(1, [0, 0]), 0);
    expect([products.length, proven, products.every((p) => literalsOf(p) === 8)]).toEqual([128, true, true]);
  });
});

describe('the bound on the number of products', () => {
  test('is never above the minimum, which is never above the short sum: 400 functions of up to eight inputs', () => {
    let [bounds, least] = [0, 0];
    fc.assert(
      fc.property(fc.oneof(cells(1, 6), cells(7, 8)), (f) => {
        const short = shortSum(f.c).length;
        const { products, atLeast } = f.c.includes(ON) && f.c.includes(0) ? minimise(tableOf(f), 0) : { products: [], atLeast: 0 };
        if (products.length === 0) return;
        const bound = independentSetBound(f.c).length;
        expect(bound).toBeLessThanOrEqual(atLeast);
        expect(atLeast).toBeLessThanOrEqual(products.length);
        expect(products.length).toBeLessThanOrEqual(short);
        bounds += bound;
        least += products.length;
      }),
      { numRuns: 400, seed: 5 },
    );
    // and it says something: nine tenths of the minimum on these functions
    expect(bounds / least).toBeGreaterThan(0.9);
  });

  test('stands on rows of 1 of which no two lie in one product', () => {
    fc.assert(
      fc.property(cells(1, 10), ({ c }) => {
        const rows = independentSetBound(c);
        for (const [i, a] of rows.entries()) {
          expect(c[a]).toBe(ON);
          for (const b of rows.slice(i + 1)) {
            const apart = a ^ b;
            const between = [...c.keys()].filter((r) => ((r ^ a) & ~apart) === 0);
            if (!between.some((r) => c[r] === 0)) expect.fail(`rows ${a} and ${b} fit into one product`);
          }
        }
      }),
      { numRuns: 30 },
    );
  });

  test('shows above eight inputs that the sum of two numbers of five bits has no shorter one', () => {
    const sum = tableOfRules(names(10), ['S5', 'S4', 'S3', 'S2', 'S1', 'S0'].toReversed(), '{S5..S0} = {A9..A5} + {A4..A0}');
    if (!sum.ok) throw new Error(sum.failure.says);
    for (const output of [0, 1, 2, 3, 4, 5]) expect(minimise(sum.value, output).proven, `S${output}`).toBe(true);
  });

  test('is reached with progress inside one output, never back and never above the whole', () => {
    for (const n of [8, 12]) {
      let state = n;
      const c = Uint8Array.from({ length: 2 ** n }, () => {
        state = (state * 1_103_515_245 + 12_345) & 0x7fffffff;
        return (state >> 16) & 3 ? 1 : 0;
      });
      const told: number[] = [];
      minimise(tableOf({ n, c }), 0, (part) => told.push(part));
      expect(told.length).toBeGreaterThan(10);
      expect(told).toEqual([...told].sort((a, b) => a - b));
      expect(told.at(-1)).toBeLessThanOrEqual(1);
    }
  });
});

test('prime implicants of ¬A¬B + AB with one row free', () => {
  expect(primesOf(Uint8Array.from([1, 0, 2, 1]))).toEqual([
    { care: 1, value: 0 },
    { care: 2, value: 2 },
  ]);
});

describe('a printed sum', () => {
  test.each(['words', 'signs', 'textbook'] as const)('in %s is a rule that makes the same table', (notation: Notation) => {
    const inputs = ['A', 'grow light', 'or', 'B2'];
    fc.assert(
      fc.property(cells(4, 4), ({ c }) => {
        const made = tableOfWords(
          inputs,
          ['F'],
          [...c].map((v) => v & 1),
          [...c].map((v) => v >> 1),
        );
        if (!made.ok) throw new Error(made.failure.says);
        const back = tableOfRules(inputs, ['F'], `F = ${printSum(minimise(made.value, 0).products, inputs, notation)}`);
        if (!back.ok) throw new Error(back.failure.says);
        for (let r = 0; r < rowsOf(back.value); r++) expect(wrongBits(made.value, r, back.value.values[r]!)).toBe(0);
      }),
      { numRuns: 200 },
    );
  });
  test('looks as people write it', () => {
    const products = [
      { care: 5, value: 1 },
      { care: 2, value: 2 },
    ];
    expect(printSum(products, ['A', 'B', 'C'])).toBe('NOT C AND A OR B');
    expect(printSum(products, ['A', 'B', 'C'], 'textbook')).toBe("C'·A + B");
    expect(printSum(products, ['A', 'B', 'C'], 'signs')).toBe('!C & A | B');
  });
});

describe('gates and packages', () => {
  const sum = (...products: Cube[]) => ({ products, atLeast: products.length, proven: true, literalsProven: true });
  test('are counted by the rule: trees, shared products, one inverter an input', () => {
    // F = A'BC + D, G = A'BC + B'D'
    const abc = { care: 7, value: 6 };
    const sums = [sum(abc, { care: 8, value: 8 }), sum(abc, { care: 10, value: 0 })];
    expect(gatesFor(sums, 2)).toEqual({ gates: { inverters: 3, and2: 3, and4: 0, or2: 2, or4: 0 }, gateCount: 8, packages: 3 });
    expect(gatesFor(sums, 4)).toEqual({ gates: { inverters: 3, and2: 1, and4: 1, or2: 2, or4: 0 }, gateCount: 7, packages: 4 });
  });
  test('of a wire are none', () => {
    expect(gatesFor([sum({ care: 1, value: 1 }), sum()], 2).packages).toBe(0);
  });
  test('of a decimal digit are more than the one package of a memory', () => {
    const digit = tableOfRules(names(4), ['a', 'b', 'c', 'd', 'e', 'f', 'g'], 'N = A3..A0; {g..a} = digit(N); free when N > 9');
    if (!digit.ok) throw new Error(digit.failure.says);
    const sums = digit.value.outputs.map((_, o) => minimise(digit.value, o));
    expect(cellsOf(digit.value, 0)[12]).toBe(2);
    expect(gatesFor(sums, 4).packages).toBeGreaterThan(5);
  });
});
