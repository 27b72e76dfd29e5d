/** The boards: how many rows, which columns, where each hole is, which holes share a strip. Knows nothing of what is plugged in. */

/** Columns below the trench, from the edge. */
export const LOWER = ['a', 'b', 'c', 'd', 'e'] as const;
/** Columns above the trench, from the trench. */
export const UPPER = ['f', 'g', 'h', 'i', 'j'] as const;
export type Column = (typeof LOWER)[number] | (typeof UPPER)[number];
/** Two rails a side: the pair beside column a and the pair beside column j. */
export const RAILS = ['+j', '-j', '+a', '-a'] as const;
export type Rail = (typeof RAILS)[number];

export interface BoardKind {
  readonly id: 'board-63' | 'board-30';
  readonly title: string;
  readonly rows: number;
  /** holes in one rail, in groups of five with one pitch between the groups */
  readonly railHoles: number;
  /** x of a rail's first hole, in pitches; row r stands at x = r */
  readonly railStart: number;
}

/** 630 + 200 and 300 + 100 tie points: SOURCES.md S58, the usual 830- and 400-point boards. */
export const BOARDS: Readonly<Record<BoardKind['id'], BoardKind>> = {
  'board-63': { id: 'board-63', title: 'Board, 63 rows', rows: 63, railHoles: 50, railStart: 3 },
  'board-30': { id: 'board-30', title: 'Board, 30 rows', rows: 30, railHoles: 25, railStart: 2 },
};

/**
 * y of each line of holes, in pitches of 0.1 inch, downwards from the upper plus rail.
 * e to f is 0.3 inch, the trench that a narrow DIP straddles (from memory).
 */
export const LINE_Y: Readonly<Record<Column | Rail, number>> = {
  '+j': 0,
  '-j': 1,
  j: 3,
  i: 4,
  h: 5,
  g: 6,
  f: 7,
  e: 10,
  d: 11,
  c: 12,
  b: 13,
  a: 14,
  '+a': 16,
  '-a': 17,
};

/** x of hole k (from 1) of a rail, in pitches. */
export const railX = (kind: BoardKind, k: number): number => kind.railStart + (k - 1) + Math.floor((k - 1) / 5);

/** Half of a rail a hole belongs to when the rails are split: 0 left, 1 right. */
export const railHalf = (kind: BoardKind, k: number): 0 | 1 => (k <= kind.railHoles / 2 ? 0 : 1);

/** Outline of a board in pitches: it reaches one and a half pitches past its outermost holes. */
export const boardSize = (kind: BoardKind): { x: number; y: number; width: number; height: number } => ({
  x: -0.5,
  y: -1.2,
  width: kind.rows + 2,
  height: 19.4,
});
