/** Tie points by name: reading, printing, where they lie, and which strip of metal they touch. */
import { done, failed, type Outcome } from '../../shared/outcome.ts';
import type { PlanBoard } from '../../shared/plan.ts';
import { BOARDS, type BoardKind, type Column, LINE_Y, LOWER, RAILS, type Rail, railHalf, railX, UPPER } from './boards.ts';

/** A hole: on a strip by column and row, or on a rail by its place along it. */
export type Hole =
  | { readonly board: PlanBoard; readonly column: Column; readonly row: number }
  | { readonly board: PlanBoard; readonly rail: Rail; readonly k: number };

/** Is this hole on a rail? */
export const isRailHole = (h: Hole): h is Extract<Hole, { rail: Rail }> => 'rail' in h;

const COLUMNS: readonly string[] = [...LOWER, ...UPPER];
const NAME = /^(?:([A-Za-z][A-Za-z0-9_]*):)?(?:([a-j])|([+-][aj]))(\d{1,3})$/;

/** The hole called `a12`, `+j7` or `B2:a12`; the first board is meant where none is named. Fails with `edit/unknown-hole`. */
export function readHole(name: string, boards: readonly PlanBoard[]): Outcome<Hole> {
  const refuse = (problem: string) => failed('edit/unknown-hole', name, `${name} ${problem}.`);
  const m = NAME.exec(name);
  if (!m) return refuse('is not the name of a tie point; write a column and a row such as a12, or a rail hole such as +j7');
  const board = m[1] === undefined ? boards[0] : boards.find((b) => b.id === m[1]);
  if (!board)
    return refuse(m[1] === undefined ? 'needs a board, and this bench has none' : `names board ${m[1]}, which is not on this bench`);
  const kind = BOARDS[board.kind];
  const n = Number(m[4]);
  if (m[2] !== undefined) {
    if (n < 1 || n > kind.rows) return refuse(`is off the board: ${board.id} has rows 1 to ${kind.rows}`);
    return done({ board, column: m[2] as Column, row: n });
  }
  if (n < 1 || n > kind.railHoles) return refuse(`is off the board: a rail of ${board.id} has holes 1 to ${kind.railHoles}`);
  return done({ board, rail: m[3] as Rail, k: n });
}

/** The shortest name: the first board of a bench goes without its id. */
export function holeName(h: Hole, boards: readonly PlanBoard[]): string {
  const local = isRailHole(h) ? `${h.rail}${h.k}` : `${h.column}${h.row}`;
  return h.board.id === boards[0]?.id ? local : `${h.board.id}:${local}`;
}

/** Centre of a hole in bench coordinates [pitch]. */
export function holeSpot(h: Hole): readonly [x: number, y: number] {
  const [x0, y0] = h.board.spot;
  return isRailHole(h) ? [x0 + railX(BOARDS[h.board.kind], h.k), y0 + LINE_Y[h.rail]] : [x0 + h.row, y0 + LINE_Y[h.column]];
}

/** The hole of a terminal row at dx, dy pitches from another hole of the same board, if there is one. */
export function holeBeside(h: Hole, dx: number, dy: number): Hole | undefined {
  if (isRailHole(h)) return undefined;
  const row = h.row + dx;
  const y = LINE_Y[h.column] + dy;
  const column = COLUMNS.find((c) => LINE_Y[c as Column] === y) as Column | undefined;
  if (column === undefined || row < 1 || row > BOARDS[h.board.kind].rows) return undefined;
  return { board: h.board, column, row };
}

/** The hole at a spot of the bench, if there is one. */
export function holeAt([x, y]: readonly [x: number, y: number], boards: readonly PlanBoard[]): Hole | undefined {
  for (const board of boards) {
    const kind = BOARDS[board.kind];
    const [dx, dy] = [x - board.spot[0], y - board.spot[1]];
    const column = COLUMNS.find((c) => LINE_Y[c as Column] === dy) as Column | undefined;
    if (column !== undefined && Number.isInteger(dx) && dx >= 1 && dx <= kind.rows) return { board, column, row: dx };
    const rail = RAILS.find((r) => LINE_Y[r] === dy);
    const k = rail === undefined ? 0 : railHoleAt(kind, dx);
    if (rail !== undefined && k > 0) return { board, rail, k };
  }
  return undefined;
}

/** The number of a rail's hole at x [pitch], or 0. */
function railHoleAt(kind: BoardKind, x: number): number {
  const from = x - kind.railStart;
  const k = from - Math.floor(from / 6) + 1;
  return k >= 1 && k <= kind.railHoles && railX(kind, k) === x ? k : 0;
}

/** The hole of a rail that is nearest to x [bench pitch] among those that fit. */
export function railHoleNear(board: PlanBoard, rail: Rail, x: number, fits: (h: Hole) => boolean): Hole | undefined {
  const away = (h: Hole) => Math.abs(holeSpot(h)[0] - x);
  return Array.from({ length: BOARDS[board.kind].railHoles }, (_, i): Hole => ({ board, rail, k: i + 1 }))
    .sort((a, b) => away(a) - away(b))
    .find(fits);
}

/** The holes on the same piece of metal as another, itself among them, in order of the board. */
export function sameStrip(h: Hole): readonly Hole[] {
  if (isRailHole(h)) {
    const strip = stripOf(h);
    const all = Array.from({ length: BOARDS[h.board.kind].railHoles }, (_, i): Hole => ({ board: h.board, rail: h.rail, k: i + 1 }));
    return all.filter((o) => stripOf(o) === strip);
  }
  const side = (LOWER as readonly string[]).includes(h.column) ? LOWER : UPPER;
  return side.map((column) => ({ board: h.board, column, row: h.row }));
}

/**
 * The piece of metal under a hole, by name: `B1/12a` (row 12, columns a to e), `B1/12f`, `B1/+j`, or `B1/+j0` and `B1/+j1` where rails are split.
 * Two holes are connected by the board itself exactly when their strips have one name.
 */
export function stripOf(h: Hole): string {
  if (!isRailHole(h)) return `${h.board.id}/${h.row}${(LOWER as readonly string[]).includes(h.column) ? 'a' : 'f'}`;
  return `${h.board.id}/${h.rail}${h.board.splitRails ? railHalf(BOARDS[h.board.kind], h.k) : ''}`;
}

/** The strip under the hole of this name; a terminal beside the boards is a piece of metal of its own, under its own name. */
export function stripAt(point: string, boards: readonly PlanBoard[]): string {
  const hole = readHole(point, boards);
  return hole.ok ? stripOf(hole.value) : point;
}

/** Every hole of a board, rails first, then row by row: the order in which a reader walks the board. */
export function holesOf(board: PlanBoard): Hole[] {
  const kind = BOARDS[board.kind];
  const rails = RAILS.flatMap((rail) => Array.from({ length: kind.railHoles }, (_, i): Hole => ({ board, rail, k: i + 1 })));
  const rows = Array.from({ length: kind.rows }, (_, i) => COLUMNS.map((c): Hole => ({ board, column: c as Column, row: i + 1 })));
  return [...rails, ...rows.flat()];
}

/** [pitch] */
export function holesApart(a: Hole, b: Hole): number {
  const [[ax, ay], [bx, by]] = [holeSpot(a), holeSpot(b)];
  return Math.hypot(ax - bx, ay - by);
}

/** Of two sets of holes the two that are nearest to each other and not on one strip; of equals the first. */
export function nearestPair(these: readonly Hole[], those: readonly Hole[]): readonly [Hole, Hole] | undefined {
  let best: readonly [Hole, Hole] | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const a of these)
    for (const b of those) {
      if (stripOf(a) === stripOf(b) || holesApart(a, b) >= least - 1e-9) continue;
      least = holesApart(a, b);
      best = [a, b];
    }
  return best;
}
