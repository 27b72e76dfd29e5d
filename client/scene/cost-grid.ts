/** The ground that wires are laid on, in cells of half a pitch: what stands in each, how many wires pass through it, and what a path costs. */

import { around, type Box, type Spot } from './geometry.ts';
import { cheapestWay } from './grid-search.ts';
import { eachSpot, roughLength, type WirePath } from './wire-path.ts';

/** What wires keep off, and how much: a wire may well pass over a resistor, hardly over an LED, and not over a chip's print if there is any other way. */
export interface Obstacle {
  readonly box: Box;
  readonly weight: number;
}

/** Cost of a step of half a pitch on another wire, of one beside the boards, and of one beyond everything, where no picture reaches; and how many wires in one cell still count. */
const ON_WIRE = 2.6;
const OUTSIDE = 0.25;
const BEYOND = 3;
const MOST_WIRES = 4;
/** How far beyond its box a body is felt [pitch]. */
const FELT = 0.1;
/** How far beyond everything is still in the picture, and how far from their ends wires may be led [pitch]. */
const EDGE = 0.6;
const ROUND = 30;
/** Of a search: how far beside both ends it looks [pitch], and what half a pitch along a row or column of holes costs more than one between two. */
const WINDOW = 9;
const ON_HOLES = 0.05;

const HALF = 2;
/** Of a cell's number that is the same in every field: x and y of the bench are far below this [half pitch]. */
const FAR = 10_000;

export class CostField {
  /** first cell, and how many, across and down [half pitch] */
  private readonly left: number;
  private readonly top: number;
  private readonly wide: number;
  private readonly high: number;
  /** a cell: what stands in it costs so much; so many wires pass through it */
  private readonly ground: Float64Array;
  private readonly busy: Int16Array;

  /** ends: of all wires that are to be laid on it; the ground is made no larger than those need. */
  constructor(bodies: readonly Obstacle[], boards: readonly Box[], ends: readonly Spot[]) {
    const corners = [...boards, ...bodies.map((b) => b.box)].flatMap((b): Spot[] => [
      [b.x, b.y],
      [b.x + b.width, b.y + b.height],
    ]);
    const all = around(ends, ROUND);
    [this.left, this.top] = [Math.round(all.x * HALF), Math.round(all.y * HALF)];
    [this.wide, this.high] = [Math.ceil(all.width * HALF) + 1, Math.ceil(all.height * HALF) + 1];
    this.ground = new Float64Array(this.wide * this.high).fill(BEYOND);
    this.busy = new Int16Array(this.wide * this.high);
    this.rowsIn(around([...corners, ...ends]), EDGE, (first, end) => this.ground.fill(OUTSIDE, first, end));
    for (const board of boards) this.rowsIn(board, 0, (first, end) => this.ground.fill(0, first, end));
    for (const { box, weight } of bodies)
      this.rowsIn(box, FELT, (first, end) => {
        for (let i = first; i < end; i++) this.ground[i] = (this.ground[i] ?? 0) + weight;
      });
  }

  /** the cells whose middle a box holds, grown by a margin, row by row: from the first to before the last */
  private rowsIn(box: Box, margin: number, does: (first: number, end: number) => void): void {
    const from = (v: number, low: number) => Math.max(0, Math.floor((v - margin) * HALF) + 1 - low);
    const to = (v: number, low: number, size: number) => Math.min(size, Math.ceil((v + margin) * HALF) - low);
    const [first, end] = [from(box.x, this.left), to(box.x + box.width, this.left, this.wide)];
    if (first >= end) return;
    for (let row = from(box.y, this.top); row < to(box.y + box.height, this.top, this.high); row++)
      does(row * this.wide + first, row * this.wide + end);
  }

  private index(x: number, y: number): number {
    const [col, row] = [Math.round(x * HALF) - this.left, Math.round(y * HALF) - this.top];
    return col < 0 || row < 0 || col >= this.wide || row >= this.high ? -1 : row * this.wide + col;
  }

  private costAt(i: number): number {
    return i < 0 ? BEYOND : (this.ground[i] ?? 0) + ON_WIRE * Math.min(MOST_WIRES, this.busy[i] ?? 0);
  }

  /** The cheapest way with square corners, if one costs less than `most`: with what is on its cells, and so much a corner and a pitch. */
  cheapest(from: Spot, to: Spot, { corner, pitch, most }: { readonly corner: number; readonly pitch: number; readonly most: number }) {
    const { x, y, width, height } = around([from, to], WINDOW);
    const column = Math.max(this.left, Math.round(x * HALF));
    const row = Math.max(this.top, Math.round(y * HALF));
    const grid = {
      wide: Math.min(this.left + this.wide - column, Math.ceil(width * HALF) + 1),
      high: Math.min(this.top + this.high - row, Math.ceil(height * HALF) + 1),
      costOf: (c: number, r: number, sideways: boolean) =>
        this.costAt((r + row - this.top) * this.wide + c + column - this.left) +
        ((sideways ? r + row : c + column) % HALF === 0 ? ON_HOLES : 0),
    };
    const cell = ([x, y]: Spot) => [Math.round(x * HALF) - column, Math.round(y * HALF) - row] as const;
    const found = cheapestWay(grid, cell(from), cell(to), { corner, step: pitch / HALF, most });
    const turns = found?.turns.map(([c, r]): Spot => [(c + column) / HALF, (r + row) / HALF]);
    return turns && endingIn(from, to, turns);
  }

  /** What a path costs, given up as soon as that is more than `most`. */
  cost(path: WirePath, base: number, most: number): number {
    let cost = base;
    eachSpot(path, Math.max(6, HALF * roughLength(path)), (x, y, last) => {
      if (last) return true;
      cost += this.costAt(this.index(x, y));
      return cost < most;
    });
    return cost;
  }

  /** The cells that a path passes through, as numbers that other fields know too. */
  cells(path: WirePath): readonly number[] {
    const cells = new Set<number>();
    eachSpot(path, 2 * HALF * roughLength(path), (x, y) => {
      cells.add((Math.round(x * HALF) + FAR / 2) * FAR + Math.round(y * HALF) + FAR / 2);
      return true;
    });
    return [...cells];
  }

  /** One wire more, or one less, in these cells. */
  count(cells: readonly number[], by: number): void {
    for (const cell of cells) {
      const [x, y] = [Math.floor(cell / FAR) - FAR / 2, (cell % FAR) - FAR / 2];
      const i = this.index(x / HALF, y / HALF);
      if (i >= 0) this.busy[i] = (this.busy[i] ?? 0) + by;
    }
  }
}

/** The same corners with the very ends, which need not lie in the middle of a cell; undefined without a corner to make that good in. */
function endingIn(from: Spot, to: Spot, turns: readonly Spot[]): WirePath | undefined {
  const corners = turns.slice(1, -1);
  if (corners.length === 0) return undefined;
  const settle = (index: number, end: Spot, cell: Spot | undefined) => {
    const [x, y] = corners.at(index) ?? end;
    corners.splice(index, 1, cell?.[0] === x ? [end[0], y] : [x, end[1]]);
  };
  settle(0, from, turns[0]);
  settle(-1, to, turns.at(-1));
  return [from, ...corners, to];
}
