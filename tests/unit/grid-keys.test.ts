/** Keys in the grid of rows: where the cursor goes, and what becomes of the marked cells. */
import { describe, expect, test } from 'vitest';
import { type GridCell, gridKey } from '../../client/panel/table/grid-keys.ts';

const SIZE = { rows: 16, columns: 4, page: 5 };
const press = (key: string, at: GridCell = { row: 7, column: 2 }, held: Partial<KeyboardEvent> = {}) =>
  gridKey({ key, altKey: false, ctrlKey: false, metaKey: false, shiftKey: false, ...held } as KeyboardEvent, at, SIZE);
const to = (row: number, column: number, marks = false) => ({ to: { row, column }, marks });

describe('the cursor', () => {
  test('goes by arrows, pages, and to the ends of a row and of the table', () => {
    expect(press('ArrowDown')).toEqual(to(8, 2));
    expect(press('ArrowUp')).toEqual(to(6, 2));
    expect(press('ArrowRight')).toEqual(to(7, 3));
    expect(press('ArrowLeft')).toEqual(to(7, 1));
    expect(press('PageDown')).toEqual(to(12, 2));
    expect(press('PageUp')).toEqual(to(2, 2));
    expect(press('Home')).toEqual(to(7, -1));
    expect(press('End')).toEqual(to(7, 3));
    expect(press('Home', undefined, { ctrlKey: true })).toEqual(to(0, 0));
    expect(press('End', undefined, { metaKey: true })).toEqual(to(15, 3));
  });
  test('stays within the table, and marks with Shift', () => {
    expect(press('ArrowUp', { row: 0, column: 0 })).toEqual(to(0, 0));
    expect(press('ArrowLeft', { row: 0, column: -1 })).toEqual(to(0, -1));
    expect(press('PageDown', { row: 14, column: 3 })).toEqual(to(15, 3));
    expect(press('ArrowRight', { row: 14, column: 3 }, { shiftKey: true })).toEqual(to(14, 3, true));
  });
});

describe('a cell', () => {
  test('becomes what is typed: 0, 1, or – by any of its keys', () => {
    expect([press('0'), press('1')]).toEqual([{ cell: 0 }, { cell: 1 }]);
    for (const key of ['-', 'x', 'X', '.', 'Delete', 'Backspace']) expect(press(key)).toEqual({ cell: '-' });
  });
  test('is left alone with Alt, and by keys that mean nothing here; Enter sets the switches to its row', () => {
    expect(press('0', undefined, { altKey: true })).toBeUndefined();
    expect(press('0', undefined, { ctrlKey: true })).toBeUndefined();
    expect(press('q')).toBeUndefined();
    expect(press('Enter')).toBe('go');
  });
});
