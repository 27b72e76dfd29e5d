/** Minimal sums of random functions: right in every row, the cheapest there is, proven, and bounded from below by rows that no product joins. */
import fc from 'fast-check';
import { describe, expect } from 'vitest';
import { covers, ON, sumIn } from '../../sim-core/logic/minimise/cube.ts';
import { shortSum } from '../../sim-core/logic/minimise/heuristic.ts';
import { independentSetBound } from '../../sim-core/logic/minimise/independent-set-bound.ts';
import { minimise } from '../../sim-core/logic/minimise/minimise.ts';
import { cells, leastPrice, plainSearch, priceOfAll, tableOf } from '../support/any-sum.ts';
import { type Result, trial } from '../support/trial.ts';

const inputs = (n: number) => `${n} inputs`;
const sum = (results: readonly Result[], figure: string) => results.reduce((total, r) => total + Number(r[figure] ?? 0), 0);

describe('a minimised sum', () => {
  trial(
    'gives what the table asks for in every row, and is proven the shortest',
    { cases: cells(1, 6), sample: 1000, full: 200_000 },
    (f) => {
      const { products, atLeast, proven } = minimise(tableOf(f), 0);
      for (const [r, cell] of f.c.entries()) if (cell !== 2) expect(sumIn(products, r)).toBe(cell);
      expect([atLeast, proven]).toEqual([products.length, true]);
      return { kind: inputs(f.n), products: products.length };
    },
  );

  trial('is the cheapest there is, by trying all sums, to four inputs', { cases: cells(1, 4), sample: 200, full: 20_000 }, (f) => {
    const { products, literalsProven } = minimise(tableOf(f), 0);
    expect(priceOfAll(products)).toBe(leastPrice(f.c));
    expect(literalsProven).toBe(true);
    return { kind: inputs(f.n), products: products.length };
  });

  trial(
    'is the cheapest there is, by a plain search over the prime implicants, of five inputs and where growing alone falls short',
    {
      cases: cells(5, 5),
      sample: 400,
      full: 20_000,
      // otherwise the search would have had nothing to do
      together: (results) => expect(sum(results, 'improved')).toBeGreaterThan(results.length / 40),
    },
    ({ n, c }) => {
      if (!c.includes(ON) || !c.includes(0)) return { kind: 'constant' };
      const price = priceOfAll(minimise(tableOf({ n, c }), 0).products);
      expect(price).toBe(plainSearch(c));
      return { kind: inputs(n), improved: price < priceOfAll(shortSum(c)) ? 1 : 0 };
    },
  );

  trial('above eight inputs is right, prime and without a needless product', { cases: cells(9, 11), sample: 4, full: 2000 }, (f) => {
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
    return { kind: inputs(f.n), products: products.length };
  });

  trial(
    'found by growing and shrinking has at most a tenth more products than the minimum',
    {
      cases: cells(5, 7),
      sample: 60,
      full: 2000,
      together(results) {
        expect(sum(results, 'short') / sum(results, 'least')).toBeLessThan(1.1);
        expect(sum(results, 'short')).toBeGreaterThanOrEqual(sum(results, 'least'));
      },
    },
    ({ n, c }) => {
      if (!c.includes(ON) || !c.includes(0)) return { kind: 'constant' };
      return { kind: inputs(n), short: shortSum(c).length, least: minimise(tableOf({ n, c }), 0).products.length };
    },
  );
});

describe('the bound on the number of products', () => {
  trial(
    'is never above the minimum, which is never above the short sum',
    {
      cases: fc.oneof(cells(1, 6), cells(7, 8)),
      sample: 100,
      full: 10_000,
      // and it says something: nine tenths of the minimum on these functions
      together: (results) => expect(sum(results, 'bound') / sum(results, 'least')).toBeGreaterThan(0.9),
    },
    (f) => {
      if (!f.c.includes(ON) || !f.c.includes(0)) return { kind: 'constant' };
      const short = shortSum(f.c).length;
      const { products, atLeast } = minimise(tableOf(f), 0);
      const bound = independentSetBound(f.c).length;
      expect(bound).toBeLessThanOrEqual(atLeast);
      expect(atLeast).toBeLessThanOrEqual(products.length);
      expect(products.length).toBeLessThanOrEqual(short);
      return { kind: inputs(f.n), bound, least: products.length, short };
    },
  );

  trial('stands on rows of 1 of which no two lie in one product', { cases: cells(1, 10), sample: 15, full: 2000 }, ({ n, c }) => {
    const rows = independentSetBound(c);
    for (const [i, a] of rows.entries()) {
      expect(c[a]).toBe(ON);
      for (const b of rows.slice(i + 1)) {
        const apart = a ^ b;
        const between = [...c.keys()].filter((r) => ((r ^ a) & ~apart) === 0);
        if (!between.some((r) => c[r] === 0)) expect.fail(`rows ${a} and ${b} fit into one product`);
      }
    }
    return { kind: inputs(n), rows: rows.length };
  });
});
