/** A table that a hand has filled in otherwise than its rules: which cells, and the way back. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Outcome } from '../../shared/outcome.ts';
import { exceptionBits, ruledBy, ruleExceptions } from '../../sim-core/logic/rule-exceptions.ts';
import { type Cell, cellAt, type TruthTable, withCells } from '../../sim-core/logic/truth-table.ts';

const value = <T>(o: Outcome<T>): T => {
  if (!o.ok) throw new Error(o.failure.says);
  return o.value;
};
const RULES = 'vent = hot and not damp\nfan = hot xor dark\nfree when hot and damp and dark';
const ruled = value(ruledBy(['hot', 'damp', 'dark'], ['vent', 'fan', 'led'], RULES));

test('as the rules fill it, a table departs nowhere, whatever an output without a rule says', () => {
  expect(ruled.outputs).toBe(0b011);
  expect(ruleExceptions(ruled.table, ruled)).toEqual([]);
  const led: TruthTable = withCells(
    ruled.table,
    Array.from({ length: 8 }, (_, row) => ({ row, output: 2, cell: 1 as const })),
  );
  expect(ruleExceptions(led, ruled)).toEqual([]);
});

test('a 0, a 1 or a free cell in the place of another departs, by output and row, and filling in what the rules say leads back', () => {
  const cells = fc.array(fc.record({ row: fc.nat(7), output: fc.nat(1), cell: fc.constantFrom<Cell[]>(0, 1, '-') }), { maxLength: 20 });
  fc.assert(
    fc.property(cells, (changes) => {
      const table = withCells(ruled.table, changes);
      const found = ruleExceptions(table, ruled).flatMap(({ output, rows }) => rows.map((row) => `${output} ${row}`));
      const expected = [0, 1].flatMap((output) =>
        Array.from({ length: 8 }, (_, row) => row)
          .filter((row) => cellAt(table, row, output) !== cellAt(ruled.table, row, output))
          .map((row) => `${output} ${row}`),
      );
      expect(found).toEqual(expected);
      for (let row = 0; row < 8; row++) expect(exceptionBits(table, ruled, row) !== 0).toBe(expected.some((e) => e.endsWith(` ${row}`)));
    }),
  );
});

test('rules that cannot be read any more are told as such', () => {
  const read = ruledBy(['hot'], ['vent'], 'vent = cold');
  expect(read.ok).toBe(false);
});
