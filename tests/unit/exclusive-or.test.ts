/** Outputs with exclusive ORs: equal to their table in every row that is asked, fewer gates or not taken, and rules can be made of their text. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  formsOf,
  gatesFor,
  hasXor,
  minimise,
  type Notation,
  type OutputForm,
  printForm,
  type TruthTable,
  tableOfRules,
  tableOfWords,
} from '../../sim-core/index.ts';
import { cellsOf } from '../../sim-core/logic/minimise/cube.ts';
import { exclusiveForm } from '../../sim-core/logic/minimise/exclusive-or.ts';
import { formIn, plainForm } from '../../sim-core/logic/minimise/form.ts';
import { names } from '../support/any-sum.ts';

const NOTATIONS: readonly Notation[] = ['words', 'signs', 'textbook'];
const formed = (table: TruthTable): readonly OutputForm[] =>
  formsOf(
    table,
    table.outputs.map((_, o) => minimise(table, o)),
  );
const written = (table: TruthTable, notation: Notation = 'words'): string[] =>
  formed(table).map((f) => printForm(f, table.inputs, notation).join(' '));
function ruled(inputs: readonly string[], outputs: readonly string[], rules: string): TruthTable {
  const table = tableOfRules(inputs, outputs, rules);
  if (!table.ok) throw new Error(table.failure.says);
  return table.value;
}

/** Tables whose outputs are random, or begin with XORs of inputs that random bits are then turned over and freed in. */
const tables = fc.tuple(fc.integer({ min: 1, max: 6 }), fc.integer({ min: 1, max: 3 })).chain(([inputs, outputs]) => {
  const rows = 2 ** inputs;
  const words = (max: number) => fc.array(fc.nat(max), { minLength: rows, maxLength: rows });
  return fc
    .tuple(
      words(2 ** outputs - 1),
      words(2 ** outputs - 1),
      fc.array(fc.nat(rows - 1), { minLength: outputs, maxLength: outputs }),
      fc.constantFrom('random', 'parity', 'product'),
    )
    .map(([random, free, masks, sort]) => {
      const parity = (word: number) => word.toString(2).replaceAll('0', '').length & 1;
      const values = random.map((word, row) => {
        if (sort === 'random') return word;
        // the XOR of some inputs, or of some with the product of the others
        return masks.reduce(
          (v, mask, o) =>
            v | ((parity(row & mask) ^ (sort === 'product' && (row & ~mask & (rows - 1)) === (~mask & (rows - 1)) ? 1 : 0)) << o),
          0,
        );
      });
      const table = tableOfWords(
        names(inputs),
        masks.map((_, o) => `F${o}`),
        values,
        sort === 'random' ? free : free.map((f, row) => f & (random[row] as number)),
      );
      if (!table.ok) throw new Error(table.failure.says);
      return table.value;
    });
});

test('the text gives the table in every row that is asked, in each notation; and together no more gates than the sums alone', () => {
  let withXor = 0;
  fc.assert(
    fc.property(tables, fc.constantFrom(...NOTATIONS), (table, notation) => {
      const sums = table.outputs.map((_, o) => minimise(table, o));
      const forms = formsOf(table, sums);
      withXor += forms.filter(hasXor).length;
      const back = ruled(
        table.inputs,
        table.outputs,
        written(table, notation)
          .map((f, o) => `F${o} = ${f}`)
          .join('\n'),
      );
      for (const [row, value] of table.values.entries()) {
        const asked = (2 ** table.outputs.length - 1) & ~(table.dontCare[row] as number);
        expect((back.values[row] as number) & asked).toBe(value & asked);
        for (const [o, form] of forms.entries()) expect(formIn(form, row)).toBe(((back.values[row] as number) >> o) & 1);
      }
      const plain = sums.map((sum) => plainForm(sum, table.inputs.length));
      expect(gatesFor(forms, 2).gateCount).toBeLessThanOrEqual(gatesFor(plain, 2).gateCount);
    }),
    { numRuns: 300 },
  );
  expect(withXor).toBeGreaterThan(100);
});

describe('an exclusive OR is found', () => {
  test('of all inputs, or of some, straight and inverted', () => {
    const table = ruled(names(5), ['P', 'Q', 'N'], 'P = parity(A4..A0); Q = A1 XOR A3; N = NOT (A0 XOR A2 XOR A4)'.replaceAll('; ', '\n'));
    expect(written(table)).toEqual(['A4 XOR A3 XOR A2 XOR A1 XOR A0', 'A3 XOR A1', 'NOT (A4 XOR A2 XOR A0)']);
    expect(written(table, 'textbook')[2]).toBe("(A4 ⊕ A2 ⊕ A0)'");
    expect(written(table, 'signs')[1]).toBe('A3 ^ A1');
  });
  test('in front of a sum of products', () => {
    expect(written(ruled(names(3), ['F'], 'F = A2 XOR (A1 AND NOT A0)'))).toEqual(['A2 XOR (A1 AND NOT A0)']);
  });
  test('as a letter of a product: two numbers of four bits that are equal', () => {
    const equal = ruled(names(8), ['E'], 'E = {A7..A4} = {A3..A0}');
    expect(written(equal)).toEqual(['NOT (A7 XOR A3) AND NOT (A6 XOR A2) AND NOT (A5 XOR A1) AND NOT (A4 XOR A0)']);
    // four XORs and inverters, and three ANDs
    expect(gatesFor(formed(equal), 2)).toMatchObject({ gateCount: 11, gates: { xor2: 4, inverters: 4, and2: 3 } });
  });
  test('where rows are free, if what is asked allows it', () => {
    const [values, free] = [
      [0, 1, 1, 0, 1, 0, 0, 0],
      [0, 0, 0, 0, 0, 0, 0, 1],
    ];
    const table = tableOfWords(names(3), ['F'], values, free);
    expect(table.ok && written(table.value)).toEqual(['A2 XOR A1 XOR A0']);
  });
});

describe('and none', () => {
  test('where the function shows none', () => {
    const table = ruled(names(3), ['M'], 'M = (A0 AND A1) OR (A1 AND A2) OR (A0 AND A2)');
    expect(exclusiveForm(cellsOf(table, 0))).toBeUndefined();
    expect(hasXor(formed(table)[0]!)).toBe(false);
  });
  test('where a constant or a wire will do', () => {
    expect(written(ruled(names(2), ['Z', 'W'], 'Z = A0 XOR A0\nW = NOT A1'))).toEqual(['0', 'NOT A1']);
  });
});

test('what is equal is built once: products and XORs that several outputs take', () => {
  const half = formed(ruled(['a', 'b'], ['S', 'N'], 'S = a XOR b\nN = NOT (a XOR b)'));
  expect(gatesFor(half, 2)).toMatchObject({ gateCount: 2, gates: { xor2: 1, inverters: 1 } });
  const shared = formed(ruled(['a', 'b', 'c'], ['F', 'G'], 'F = a AND b OR c\nG = a AND b OR NOT c'));
  // one AND for both, an inverter, two ORs
  expect(gatesFor(shared, 2)).toMatchObject({ products: 3, gateCount: 4 });
});
