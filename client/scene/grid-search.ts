/** The cheapest way between two cells of a grid, along its rows and columns: what each cell, each step and each corner costs decides. */
import FlatQueue from 'flatqueue';

/** A window of cells, row by row. */
export interface CellGrid {
  readonly wide: number;
  readonly high: number;
  /** cost of stepping into the cell; sideways: along a row */
  costOf(column: number, row: number, sideways: boolean): number;
}

export type GridPlace = readonly [column: number, row: number];

/** Left, right, up, down. */
const MOVES = [
  [-1, 0],
  [1, 0],
  [0, -1],
  [0, 1],
] as const;

/**
 * The cells in which the way turns, with both ends, and its cost; undefined if there is none for less than `most`. Best first, by what was spent and
 * what the straight rest will cost at least (Hart, Nilsson and Raphael 1968); a state is a cell and the direction it was come from.
 */
export function cheapestWay(
  grid: CellGrid,
  from: GridPlace,
  to: GridPlace,
  { step, corner, most }: { readonly step: number; readonly corner: number; readonly most: number },
): { readonly turns: readonly GridPlace[]; readonly cost: number } | undefined {
  const { wide, high } = grid;
  const spent = new Float64Array(wide * high * MOVES.length).fill(most);
  const before = new Int32Array(spent.length).fill(-1);
  const open = new FlatQueue<number>();
  const cellOf = (state: number): GridPlace => [(state >> 2) % wide, Math.floor((state >> 2) / wide)];
  const rest = (column: number, row: number) => step * (Math.abs(column - to[0]) + Math.abs(row - to[1]));
  const reach = (state: number, cost: number, from: number) => {
    const [column, row] = cellOf(state);
    if (cost + rest(column, row) >= most || cost >= (spent[state] ?? 0)) return;
    spent[state] = cost;
    before[state] = from;
    open.push(state, cost + rest(column, row));
  };
  for (const d of MOVES.keys()) reach((from[1] * wide + from[0]) * MOVES.length + d, 0, -1);
  for (let state = open.pop(); state !== undefined; state = open.pop()) {
    const [column, row] = cellOf(state);
    const cost = spent[state] ?? 0;
    if (column === to[0] && row === to[1]) return { turns: turnsTo(state, before, cellOf), cost };
    for (const [d, [dx, dy]] of MOVES.entries()) {
      const [x, y] = [column + dx, row + dy];
      // no way leads back over itself
      if (x < 0 || y < 0 || x >= wide || y >= high || d === ((state & 3) ^ 1)) continue;
      const turn = d === (state & 3) ? 0 : corner;
      reach((y * wide + x) * MOVES.length + d, cost + turn + step + grid.costOf(x, y, dy === 0), state);
    }
  }
  return undefined;
}

function turnsTo(end: number, before: Int32Array, cellOf: (state: number) => GridPlace): GridPlace[] {
  const turns: GridPlace[] = [cellOf(end)];
  let state = end;
  for (let last = before[state] ?? -1; last >= 0; last = before[state] ?? -1) {
    if ((last & 3) !== (state & 3) || (before[last] ?? -1) < 0) turns.push(cellOf(last));
    state = last;
  }
  return turns.reverse();
}
