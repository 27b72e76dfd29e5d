/** The ground that wires are laid on, in cells of half a pitch: what stands in each, how many wires pass through it, and what a curve costs. */

import { around, type Box, type Spot } from './geometry.ts';
import { type Curve, eachSpot, roughLength } from './wire-curves.ts';

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

export interface Field {
  /** what a curve costs, given up as soon as that is more than `most` */
  cost(curve: Curve, base: number, most: number): number;
  /** the cells that a curve passes through, as numbers that other fields know too */
  cells(curve: Curve): readonly number[];
  /** one wire more, or one less, in these cells */
  count(cells: readonly number[], by: number): void;
}

const HALF = 2;
/** Of a cell's number that is the same in every field: x and y of the bench are far below this [half pitch]. */
const FAR = 10_000;

/** ends: of all wires that are to be laid on it; the ground is made no larger than those need. */
export function makeField(bodies: readonly Obstacle[], boards: readonly Box[], ends: readonly Spot[]): Field {
  const corners = [...boards, ...bodies.map((b) => b.box)].flatMap((b): Spot[] => [
    [b.x, b.y],
    [b.x + b.width, b.y + b.height],
  ]);
  const inside = around([...corners, ...ends]);
  const all = around(ends, ROUND);
  const [left, top] = [Math.round(all.x * HALF), Math.round(all.y * HALF)];
  const [wide, high] = [Math.ceil(all.width * HALF) + 1, Math.ceil(all.height * HALF) + 1];
  const ground = new Float32Array(wide * high).fill(BEYOND);
  const busy = new Int16Array(wide * high);
  /** the cells whose middle a box holds, grown by a margin, row by row: from the first to before the last */
  const rowsIn = (box: Box, margin: number, does: (first: number, end: number) => void) => {
    const from = (v: number, low: number) => Math.max(0, Math.floor((v - margin) * HALF) + 1 - low);
    const to = (v: number, low: number, size: number) => Math.min(size, Math.ceil((v + margin) * HALF) - low);
    const [first, end] = [from(box.x, left), to(box.x + box.width, left, wide)];
    if (first >= end) return;
    for (let row = from(box.y, top); row < to(box.y + box.height, top, high); row++) does(row * wide + first, row * wide + end);
  };
  rowsIn(inside, EDGE, (first, end) => ground.fill(OUTSIDE, first, end));
  for (const board of boards) rowsIn(board, 0, (first, end) => ground.fill(0, first, end));
  for (const { box, weight } of bodies)
    rowsIn(box, FELT, (first, end) => {
      for (let i = first; i < end; i++) ground[i] = (ground[i] ?? 0) + weight;
    });
  const index = (x: number, y: number): number => {
    const [col, row] = [Math.round(x * HALF) - left, Math.round(y * HALF) - top];
    return col < 0 || row < 0 || col >= wide || row >= high ? -1 : row * wide + col;
  };
  return {
    cost(curve, base, most) {
      let cost = base;
      const steps = Math.max(6, HALF * roughLength(curve));
      eachSpot(curve, steps, (x, y, last) => {
        if (last) return true;
        const i = index(x, y);
        cost += i < 0 ? BEYOND : (ground[i] ?? 0) + ON_WIRE * Math.min(MOST_WIRES, busy[i] ?? 0);
        return cost < most;
      });
      return cost;
    },
    cells(curve) {
      const cells = new Set<number>();
      eachSpot(curve, 2 * HALF * roughLength(curve), (x, y) => {
        cells.add((Math.round(x * HALF) + FAR / 2) * FAR + Math.round(y * HALF) + FAR / 2);
        return true;
      });
      return [...cells];
    },
    count(cells, by) {
      for (const cell of cells) {
        const [x, y] = [Math.floor(cell / FAR) - FAR / 2, (cell % FAR) - FAR / 2];
        const i = index(x / HALF, y / HALF);
        if (i >= 0) busy[i] = (busy[i] ?? 0) + by;
      }
    },
  };
}
