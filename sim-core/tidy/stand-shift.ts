/** A part shifted along its board: its legs, its strips, and every line that ends in them, by so many rows. */
import { isRailHole } from '../board/tie-points.ts';
import type { Covered } from './drawn-bench.ts';
import { isUnder } from './strip-index.ts';
import type { Movable, Stand, WiringState } from './wiring-state.ts';

/** Parts stand at least so far from each other [pitch]. */
const ROOM = 0.5;

/** strips: those in which its legs stand; lines: those that end there. Returns how to undo it; undefined if there is no room, and then nothing has changed. */
export function shiftStand(
  state: WiringState,
  stand: Stand,
  strips: ReadonlySet<number>,
  lines: readonly Movable[],
  rows: number,
): (() => void) | undefined {
  if (!hasRoom(state, stand, strips, rows)) return undefined;
  const ends = lines.flatMap((line) =>
    ([0, 1] as const).flatMap((end) => (strips.has(line.strips[end]) ? [{ line, end, hole: line.holes[end] }] : [])),
  );
  const go = (by: number, from: ReadonlySet<number>) => {
    shiftStrips(state, from, by);
    coverHoles(state, stand.body, -1);
    for (const [i, hole] of stand.legs.entries()) {
      (state.index.taken[hole] as number) -= 1;
      stand.legs[i] = beside(state, hole, by);
    }
    stand.body.left += by;
    stand.body.right += by;
    coverHoles(state, stand.body, 1);
    for (const hole of stand.legs) (state.index.taken[hole] as number) += 1;
    for (const { line, end } of ends) state.put(line, end, beside(state, line.holes[end], by));
    state.bodiesMoved();
  };
  go(rows, strips);
  return () => go(-rows, new Set([...strips].map((strip) => stripBeside(state, strip, rows))));
}

/** The hole of the same column so many rows on; −1 if the board ends before. */
function beside(state: WiringState, hole: number, rows: number): number {
  const from = state.index.holes[hole];
  if (!from || isRailHole(from)) return -1;
  return state.index.numberOf({ ...from, row: from.row + rows });
}

function stripBeside(state: WiringState, strip: number, rows: number): number {
  return state.index.stripOfHole[beside(state, state.strip(strip).holes[0] as number, rows)] ?? -1;
}

/** The strips that it comes to are empty or its own, and no other part is in the way. */
function hasRoom(state: WiringState, { legs, body }: Stand, strips: ReadonlySet<number>, rows: number): boolean {
  if (legs.some((hole) => beside(state, hole, rows) < 0)) return false;
  const standing = [...strips].reduce((sum, strip) => sum + state.strip(strip).legs, 0);
  // another part stands in a strip of it
  if (standing > legs.length) return false;
  const isEmpty = (strip: number) => state.strip(strip).legs === 0 && state.endingAt(strip).length === 0;
  for (const strip of strips) {
    const next = stripBeside(state, strip, rows);
    if (!strips.has(next) && !isEmpty(next)) return false;
  }
  return state.bodies.every((other) => other === body || (!touches(other, body, rows) && !passes(other, body, rows)));
}

const touches = (a: Covered, b: Covered, rows: number): boolean =>
  a.left < b.right + rows + ROOM && b.left + rows < a.right + ROOM && a.top < b.bottom + ROOM && b.top < a.bottom + ROOM;

/** It would come to the other side of a part beside it: parts keep their order along the board. */
const passes = (a: Covered, b: Covered, rows: number): boolean =>
  a.top < b.bottom && b.top < a.bottom && a.left < b.left !== a.left < b.left + rows;

/** What is known of these strips goes with them. */
function shiftStrips(state: WiringState, strips: ReadonlySet<number>, rows: number): void {
  const moved = [...strips].map((strip) => {
    const { net, legs, switched } = state.strip(strip);
    return { strip, to: stripBeside(state, strip, rows), net, legs, switched };
  });
  for (const { strip, net } of moved) {
    Object.assign(state.strip(strip), { net: -1, legs: 0, switched: false });
    const members = state.index.ofNet[net];
    members?.splice(members.indexOf(strip), 1);
  }
  for (const { to, net, legs, switched } of moved) {
    Object.assign(state.strip(to), { net, legs, switched });
    state.index.ofNet[net]?.push(to);
  }
}

function coverHoles(state: WiringState, body: Covered, by: 1 | -1): void {
  const { x, y, taken } = state.index;
  for (let hole = 0; hole < taken.length; hole++) if (isUnder([x[hole] as number, y[hole] as number], body)) (taken[hole] as number) += by;
}
