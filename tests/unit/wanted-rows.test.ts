/** Cells of the wanted table as a change of their own: as small as what changed, undone to the bit, and fitted to a table that has moved on. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Plan, PlanWanted } from '../../shared/plan.ts';
import { settingCells, settingWanted, withWantedCells } from '../../sim-core/document/edits/wanted.ts';
import { apply, type Change, invert, rebase, sayChange } from '../../sim-core/index.ts';
import type { Cell, CellChange } from '../../sim-core/logic/truth-table.ts';
import { planWith } from '../support/plans.ts';

const line = (letter: string, count: number) =>
  Array.from({ length: count }, (_, i) => ({ name: `${letter}${i}`, pin: `U1.${letter}${i}` }));
const table = (inputs: number, outputs: number, rows: readonly number[], free?: readonly number[], expressions?: string[]): PlanWanted => ({
  inputs: line('A', inputs),
  outputs: line('D', outputs),
  rules: [],
  rows: [...rows],
  // the list of free bits stands before the rules in a plan that was built, and behind them in one that was edited
  ...(free ? { dontCare: [...free] } : {}),
  ...(expressions ? { expressions } : {}),
});

const sizes = { inputs: 5, outputs: 4 };
const words = fc.array(fc.nat(15), { minLength: 32, maxLength: 32 });
const anyTable = fc
  .record({ rows: words, free: fc.option(fc.oneof(words, fc.constant(new Array<number>(32).fill(0)))), ruled: fc.boolean() })
  .map(({ rows, free, ruled }) =>
    table(sizes.inputs, sizes.outputs, free ? rows.map((w, r) => w & ~free[r]!) : rows, free ?? undefined, ruled ? ['D0 = A0'] : undefined),
  );
const anyCells = (most: number) =>
  fc.array(fc.record({ row: fc.nat(31), output: fc.nat(3), cell: fc.constantFrom<Cell[]>(0, 1, '-') }), {
    minLength: 1,
    maxLength: most,
  });
const on = (wanted: PlanWanted): Plan => planWith({ wanted });
const cellsOf = ({ wanted }: Plan) => wanted && { rows: wanted.rows, free: wanted.dontCare ?? wanted.rows.map(() => 0) };

describe('cells filled in', () => {
  test('become what they were given, few or all, and go back to the bit', () => {
    fc.assert(
      fc.property(anyTable, fc.oneof(anyCells(3), anyCells(120)), (wanted, cells: CellChange[]) => {
        const before = on(wanted);
        const change = rebase(before, settingCells(wanted, cells));
        const after = apply(before, change);
        const asked = withWantedCells(wanted, cells);
        expect(cellsOf(after)).toEqual(asked.ok && cellsOf(on(asked.value)));
        expect(JSON.stringify(apply(after, invert(change)))).toBe(JSON.stringify(before));
        expect(apply(apply(after, invert(change)), change)).toEqual(after);
      }),
      { numRuns: 500 },
    );
  });

  test('take a few hundred signs in a table of 65 536 rows, and one sentence', () => {
    const wide = table(16, 16, new Array<number>(65536).fill(0x5a5a));
    const change = settingCells(wide, [{ row: 40_000, output: 3, cell: 0 }]);
    expect(JSON.stringify(change).length).toBeLessThan(200);
    expect(sayChange(change)).toBe('change the wanted table in row 40000');
    expect(apply(on(wide), change).wanted?.rows[40_000]).toBe(0x5a52);
  });

  test('that are so already change nothing', () => {
    expect(settingCells(table(1, 1, [0, 1]), [{ row: 1, output: 0, cell: 1 }])).toEqual({ op: 'all', changes: [] });
  });
});

describe('a table that has moved on', () => {
  const wanted = table(2, 2, [0, 0, 0, 0]);
  const change = settingCells(wanted, [{ row: 2, output: 0, cell: 1 }]);

  test('keeps the bits that the change was not about', () => {
    const moved = on(table(2, 2, [0, 0, 2, 3]));
    const fitting = rebase(moved, change);
    expect(apply(moved, fitting).wanted?.rows).toEqual([0, 0, 3, 3]);
    expect(apply(apply(moved, fitting), invert(fitting))).toEqual(moved);
  });
  test('that has fewer rows, or is gone, is left alone', () => {
    expect(rebase(on(table(1, 2, [0, 0])), change)).toEqual({ op: 'all', changes: [] });
    expect(rebase(planWith({}), change)).toEqual({ op: 'all', changes: [] });
  });
});

test('two tables of the same columns differ by rows, of other columns or rules by the whole', () => {
  fc.assert(
    fc.property(anyTable, anyCells(4), (before, cells) => {
      const next = withWantedCells(before, cells);
      if (!next.ok) throw new Error(next.failure.says);
      const change: Change = settingWanted(before, next.value);
      const after = apply(on(before), change);
      expect(cellsOf(after)).toEqual(cellsOf(on(next.value)));
      expect(JSON.stringify(apply(after, invert(change)))).toBe(JSON.stringify(on(before)));
    }),
    { numRuns: 300 },
  );
  const before = table(2, 1, [0, 1, 0, 1]);
  expect(settingWanted(before, { ...before, expressions: ['D0 = A0'] })).toMatchObject({ op: 'set', field: 'wanted' });
  expect(settingWanted(before, table(2, 1, [0, 1, 1, 1])).op).toBe('set-rows');
  expect(settingWanted(before, undefined)).toMatchObject({ op: 'set', field: 'wanted' });
});

test('cells that the table does not have, as a mark from before a column went may still hold, are left out', () => {
  const wanted = table(2, 1, [0, 0, 0, 0]);
  const filled = (rows: number, output: number) =>
    apply(
      on(wanted),
      settingCells(
        wanted,
        Array.from({ length: rows }, (_, row): CellChange => ({ row, output, cell: 1 })),
      ),
    ).wanted?.rows;
  expect(filled(6, 0)).toEqual([1, 1, 1, 1]);
  expect(filled(3, -1)).toEqual([0, 0, 0, 0]);
  expect(filled(3, 1)).toEqual([0, 0, 0, 0]);
});
