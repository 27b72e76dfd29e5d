/** A block of the table that is marked with the mouse or with Shift: what it fills, and what it copies. */
import { expect, test } from 'vitest';
import { blockBetween, changesTo, isIn, markedText } from '../../client/panel/table/marked.ts';
import { tableOfWords } from '../../sim-core/logic/truth-table.ts';

// three outputs; columns show them from the most significant to the least
const table = tableOfWords(['a', 'b'], ['p', 'q', 'r'], [0b001, 0b010, 0b100, 0b111], [0, 0, 0b001, 0]);
const given = table.ok ? table.value : undefined;

test('a block is the same from whichever corner it was drawn, and the number of a row stands for its first column', () => {
  const block = { rows: [1, 3], columns: [0, 2] };
  expect(blockBetween({ row: 3, column: 0 }, { row: 1, column: 2 })).toEqual(block);
  expect(blockBetween({ row: 1, column: 2 }, { row: 3, column: -1 })).toEqual(block);
  expect([
    isIn(blockBetween({ row: 1, column: 1 }, { row: 2, column: 1 }), 2, 1),
    isIn(blockBetween({ row: 1, column: 1 }, { row: 2, column: 1 }), 2, 2),
  ]).toEqual([true, false]);
});

test('every marked cell becomes the same, each in the output of its column', () => {
  expect(changesTo(blockBetween({ row: 0, column: 0 }, { row: 1, column: 1 }), '-', 3)).toEqual([
    { row: 0, output: 2, cell: '-' },
    { row: 0, output: 1, cell: '-' },
    { row: 1, output: 2, cell: '-' },
    { row: 1, output: 1, cell: '-' },
  ]);
});

test('what is copied has a line a row and a tab between columns, and X where a cell is free', () => {
  expect(markedText(blockBetween({ row: 0, column: 0 }, { row: 3, column: 2 }), given!)).toBe('0\t0\t1\n0\t1\t0\n1\t0\tX\n1\t1\t1\n');
});
