/** A plan being drawn up: parts and wires as they are put down, numbered as they come, and which holes are still free. */
import type { Plan, PlanBoard, PlanPart, PlanWire } from '../../shared/plan.ts';
import { BOARDS, type Column, type Rail, railX } from '../board/boards.ts';
import { legHoles } from '../board/footprints.ts';
import { type Hole, holeName, isRailHole } from '../board/tie-points.ts';
import { type Params, type PartKind, readParams } from '../parts/part.ts';

/** One strip of five holes. */
export interface Row {
  readonly board: PlanBoard;
  readonly row: number;
  readonly side: 'lower' | 'upper';
}

export interface BuilderState {
  readonly boards: PlanBoard[];
  readonly parts: PlanPart[];
  readonly wires: PlanWire[];
  /** names of holes with something in them */
  readonly taken: Set<string>;
  readonly counts: Map<string, number>;
  /** ids that no part gets, in small letters: the table's names */
  readonly reserved: ReadonlySet<string>;
}

/** Holes of a row in which wires and resistors end, from the edge inwards; those at the trench are for what spans it. */
const ENDS: Readonly<Record<Row['side'], readonly Column[]>> = { lower: ['a', 'b', 'c', 'd'], upper: ['j', 'i', 'h', 'g'] };

/** From one level to the next [pitch]. */
const BOARD_STEP = 21;

/** A board among others. level: how many boards stand above it. */
export interface BoardPlace {
  readonly kind: PlanBoard['kind'];
  readonly level: number;
}

/** names: of the table's columns. No part or wire is called so, nor is the part of a pin that a name looks like. */
export const newBuilderState = (places: readonly BoardPlace[], names: readonly string[] = []): BuilderState => ({
  boards: places.map(({ kind, level }, i) => ({
    id: `B${i + 1}`,
    kind,
    spot: [0, (level - (places[0]?.level ?? 0)) * BOARD_STEP],
    splitRails: false,
  })),
  parts: [],
  wires: [],
  taken: new Set(),
  counts: new Map(),
  reserved: new Set(names.flatMap((n) => [n, n.split('.')[0] ?? n]).map((n) => n.toLowerCase())),
});

/** label: a part called by an id of its own kind has it. */
export function nextId(state: BuilderState, prefix: string, label?: string): string {
  if (label !== undefined && new RegExp(`^${prefix}[1-9]\\d{0,3}$`).test(label)) return label;
  let n = state.counts.get(prefix) ?? 0;
  do n += 1;
  while (state.reserved.has(`${prefix}${n}`.toLowerCase()));
  state.counts.set(prefix, n);
  return `${prefix}${n}`;
}

function take(state: BuilderState, hole: Hole): string {
  const name = holeName(hole, state.boards);
  if (state.taken.has(name)) throw new Error(`the builder puts two things into ${name}`);
  state.taken.add(name);
  return name;
}

/** Takes the outermost free hole of a row. */
export function takeFreeHole(state: BuilderState, { board, row, side }: Row): string {
  const column = ENDS[side].find((c) => !state.taken.has(holeName({ board, column: c, row }, state.boards)));
  if (!column) throw new Error(`the builder has filled row ${row} of ${board.id}`);
  return take(state, { board, column, row });
}

/** Takes this hole. */
export const takeAt = (state: BuilderState, { board, row }: Row, column: Column): string => take(state, { board, column, row });

/** Takes the free hole of a rail that is nearest to a row. */
export function takeRailHole(state: BuilderState, board: PlanBoard, rail: Rail, row: number): string {
  const kind = BOARDS[board.kind];
  let nearest: Hole | undefined;
  let away = Number.POSITIVE_INFINITY;
  for (let k = 1; k <= kind.railHoles; k++) {
    const hole: Hole = { board, rail, k };
    const gap = Math.abs(railX(kind, k) - row);
    if (gap >= away || state.taken.has(holeName(hole, state.boards))) continue;
    [nearest, away] = [hole, gap];
  }
  if (!nearest) throw new Error(`the builder has filled rail ${rail} of ${board.id}`);
  return take(state, nearest);
}

/** The rail of this sign beside a row. */
export const railBeside = (state: BuilderState, { board, row, side }: Row, sign: '+' | '-'): string =>
  takeRailHole(state, board, `${sign}${side === 'lower' ? 'a' : 'j'}`, row);

/** Holes of the rail beside these rows of one board, from left to right: one for each, in their order, so that as little as can be leans. */
export function railHolesBeside(state: BuilderState, rows: readonly Row[], sign: '+' | '-'): string[] {
  const [first] = rows;
  if (!first) return [];
  const rail: Rail = `${sign}${first.side === 'lower' ? 'a' : 'j'}`;
  const kind = BOARDS[first.board.kind];
  const free = Array.from({ length: kind.railHoles }, (_, i): Hole => ({ board: first.board, rail, k: i + 1 })).filter(
    (hole) => !state.taken.has(holeName(hole, state.boards)),
  );
  const x = free.map((hole) => (isRailHole(hole) ? railX(kind, hole.k) : 0));
  // the least sum of leans of the rows so far, with all holes before this one to choose from, and what it came from
  let best = Array.from({ length: free.length + 1 }, (): Assigned => ({ lean: 0, holes: [] }));
  for (const { row } of rows) {
    const next: Assigned[] = [{ lean: Number.POSITIVE_INFINITY, holes: [] }];
    for (const [i, at] of x.entries()) {
      const [without, before] = [next[i], best[i]];
      const lean = (before?.lean ?? Number.POSITIVE_INFINITY) + (at - row) ** 2;
      next.push(without && without.lean <= lean ? without : { lean, holes: [...(before?.holes ?? []), i] });
    }
    best = next;
  }
  return (best.at(-1)?.holes ?? []).map((i) => take(state, free[i] as Hole));
}

interface Assigned {
  readonly lean: number;
  readonly holes: readonly number[];
}

export function connect(state: BuilderState, from: string, to: string, colour: string): void {
  state.wires.push({ id: nextId(state, 'W'), from, to, colour });
}

/** Ties a row to a rail of its own side. */
export function tie(state: BuilderState, row: Row, sign: '+' | '-', colour: string = sign === '+' ? 'red' : 'black'): void {
  connect(state, railBeside(state, row, sign), takeFreeHole(state, row), colour);
}

export interface SeatedPart {
  readonly id: string;
  /** the row of a pin, by its name */
  row(pin: string): Row;
}

interface Placement {
  readonly prefix: string;
  readonly at: { readonly board: PlanBoard; readonly column: Column; readonly row: number };
  readonly params?: PlanPart['params'];
  readonly label?: string;
  /** '' for one without a name */
  readonly poleNames?: string[];
}

/** Puts a part with a body of its own onto a board. */
export function seat(state: BuilderState, kind: PartKind, { prefix, at, params, label, poleNames }: Placement): SeatedPart {
  const id = nextId(state, prefix);
  const part: PlanPart = {
    id,
    kind: kind.id,
    at: holeName(at, state.boards),
    ...(params ? { params } : {}),
    ...(label ? { label } : {}),
    ...(poleNames?.some((n) => n !== '') ? { poleNames } : {}),
  };
  const whole = completed(kind, part);
  const placed = legHoles(kind.footprint(whole), at, false);
  if ('noHoleFor' in placed) throw new Error(`the builder has no hole for pin ${placed.noHoleFor} of ${id}`);
  state.parts.push(part);
  const rows = new Map<string, Row>();
  for (const [i, pin] of kind.pins(whole).entries()) {
    const hole = placed.holes[i];
    if (!hole || isRailHole(hole)) throw new Error(`the builder has no hole for pin ${pin.name} of ${id}`);
    take(state, hole);
    rows.set(pin.name, { board: hole.board, row: hole.row, side: hole.column <= 'e' ? 'lower' : 'upper' });
  }
  return {
    id,
    row(pin) {
      const row = rows.get(pin);
      if (!row) throw new Error(`${kind.id} has no pin ${pin}`);
      return row;
    },
  };
}

/** Puts a part with two wires between two holes that have been taken. */
export function bridge(
  state: BuilderState,
  kind: PartKind,
  prefix: string,
  at: string,
  to: string,
  more: Pick<PlanPart, 'params' | 'label'>,
): string {
  const id = nextId(state, prefix, more.label);
  state.parts.push({ id, kind: kind.id, at, to, ...more });
  return id;
}

export function completed(kind: PartKind, part: PlanPart): Params {
  const params = readParams(kind, part);
  if (!params.ok) throw new Error(params.failure.says);
  return params.value;
}

export const finish = (state: BuilderState, rest: Omit<Plan, 'format' | 'version' | 'boards' | 'parts' | 'wires' | 'meters'>): Plan => ({
  format: 'lampwright-plan',
  version: 2,
  boards: state.boards,
  parts: state.parts,
  wires: state.wires,
  meters: [],
  ...rest,
});
