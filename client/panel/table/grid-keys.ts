/** What a key does in the grid of rows: where the cursor goes, or what the marked cells become. */
import type { Cell } from '../../../sim-core/index.ts';

/** column: 0 is the leftmost wanted output; −1 is the row's number */
export interface GridCell {
  readonly row: number;
  readonly column: number;
}

export interface GridSize {
  readonly rows: number;
  readonly columns: number;
  /** rows in sight */
  readonly page: number;
}

export type GridKey = { readonly to: GridCell; readonly marks: boolean } | { readonly cell: Cell } | 'go' | undefined;

const CELLS: Readonly<Record<string, Cell>> = {
  '0': 0,
  '1': 1,
  '-': '-',
  x: '-',
  X: '-',
  '.': '-',
  Delete: '-',
  Backspace: '-',
};

export function gridKey(e: KeyboardEvent, at: GridCell, size: GridSize): GridKey {
  if (e.altKey) return undefined;
  const mod = e.ctrlKey || e.metaKey;
  const cell = CELLS[e.key];
  if (cell !== undefined && !mod) return { cell };
  if (e.key === ' ' && !mod) return at.column < 0 ? 'go' : undefined;
  if (e.key === 'Enter') return 'go';
  const to = destination(e.key, mod, at, size);
  if (!to) return undefined;
  return {
    to: { row: Math.min(size.rows - 1, Math.max(0, to.row)), column: Math.min(size.columns - 1, Math.max(-1, to.column)) },
    marks: e.shiftKey,
  };
}

function destination(key: string, mod: boolean, { row, column }: GridCell, { rows, columns, page }: GridSize): GridCell | undefined {
  switch (key) {
    case 'ArrowDown':
      return { row: row + 1, column };
    case 'ArrowUp':
      return { row: row - 1, column };
    case 'ArrowRight':
      return { row, column: column + 1 };
    case 'ArrowLeft':
      return { row, column: column - 1 };
    case 'PageDown':
      return { row: row + page, column };
    case 'PageUp':
      return { row: row - page, column };
    case 'Home':
      return mod ? { row: 0, column: 0 } : { row, column: -1 };
    case 'End':
      return mod ? { row: rows - 1, column: columns - 1 } : { row, column: columns - 1 };
    default:
      return undefined;
  }
}
