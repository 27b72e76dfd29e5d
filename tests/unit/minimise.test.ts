/** Minimal sums of products: what they give in every row, that no shorter one exists, and how they are printed and built. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Cube, cellsOf, literalsOf, sumIn } from '../../sim-core/logic/minimise/cube.ts';
import { primesOf } from '../../sim-core/logic/minimise/exact.ts';
import { plainForm } from '../../sim-core/logic/minimise/form.ts';
import { gatesFor } from '../../sim-core/logic/minimise/gate-count.ts';
import { minimise } from '../../sim-core/logic/minimise/minimise.ts';
import { type Notation, printSum } from '../../sim-core/logic/minimise/print.ts';
import { tableOfRules } from '../../sim-core/logic/rules-table.ts';
import { rowsOf, tableOfWords, wrongBits } from '../../sim-core/logic/truth-table.ts';
import { cells, leastPrice, names, oneOutput, priceOfAll, tableOf } from '../support/any-sum.ts';

describe('a minimised sum', () => {
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
  const form = (...products: Cube[]) => plainForm({ products }, 4);
  test('are counted by the rule: trees, shared products, one inverter an input', () => {
    // F = A'BC + D, G = A'BC + B'D'
    const abc = { care: 7, value: 6 };
    const forms = [form(abc, { care: 8, value: 8 }), form(abc, { care: 10, value: 0 })];
    expect(gatesFor(forms, 2)).toEqual({
      products: 3,
      gates: { inverters: 3, and2: 3, and4: 0, or2: 2, or4: 0, xor2: 0 },
      gateCount: 8,
      packages: 3,
    });
    expect(gatesFor(forms, 4)).toEqual({
      products: 3,
      gates: { inverters: 3, and2: 1, and4: 1, or2: 2, or4: 0, xor2: 0 },
      gateCount: 7,
      packages: 4,
    });
  });
  test('of a wire are none', () => {
    expect(gatesFor([form({ care: 1, value: 1 }), form()], 2).packages).toBe(0);
  });
  test('of a decimal digit are more than the one package of a memory', () => {
    const digit = tableOfRules(names(4), ['a', 'b', 'c', 'd', 'e', 'f', 'g'], 'N = A3..A0; {g..a} = digit(N); dontcare when N > 9');
    if (!digit.ok) throw new Error(digit.failure.says);
    const sums = digit.value.outputs.map((_, o) => minimise(digit.value, o));
    expect(cellsOf(digit.value, 0)[12]).toBe(2);
    expect(
      gatesFor(
        sums.map((found) => plainForm(found, 4)),
        4,
      ).packages,
    ).toBeGreaterThan(5);
  });
});
