/** Where a fix has room: free holes of a net, rows with nothing in them, and of two sets of holes the pair that is nearest. */
import type { PlanPart } from '../../shared/plan.ts';
import type { Leg } from '../board/layout.ts';
import type { Net } from '../board/nets.ts';
import { type Hole, holeName, holesApart, holesOf, isRailHole, stripOf } from '../board/tie-points.ts';
import type { Change } from '../document/changes.ts';
import { roomBeside } from '../document/edits/edit-context.ts';
import { place } from '../document/edits/place.ts';
import type { Ref } from '../sentence/wording.ts';
import type { FixBench } from './fix.ts';

/** The leg that a reference to a pin means. */
export function legOf({ circuit }: FixBench, ref: Ref): Leg | undefined {
  const dot = ref.id.lastIndexOf('.');
  return circuit.placed.get(ref.id.slice(0, dot))?.legs.find((l) => l.pin === ref.id.slice(dot + 1));
}

/** Free holes on any metal of a net. */
export function freeOn({ context, circuit }: FixBench, net: Net): readonly Hole[] {
  const room = roomBeside(context);
  const strips = new Set(net.strips);
  return circuit.plan.boards
    .flatMap(holesOf)
    .filter((h) => strips.has(stripOf(h)) && room.occupant(holeName(h, circuit.plan.boards)) === undefined);
}

/** Free holes of the row, or rail, that a leg stands in; any of its net if that is full. */
export function freeBeside(bench: FixBench, leg: Leg): readonly Hole[] {
  const free = freeOn(bench, bench.circuit.netOf(leg));
  const own = free.filter((h) => stripOf(h) === leg.strip);
  return own.length > 0 ? own : free;
}

/** Free holes that a supply's plus or minus is led to: rails, or whatever else if none is. */
export function freeOfSupply(bench: FixBench, high: boolean): readonly Hole[] {
  const free = bench.circuit.supplies.flatMap((s) => freeOn(bench, bench.circuit.netOf(high ? s.plus : s.minus)));
  const rails = free.filter(isRailHole);
  return rails.length > 0 ? rails : free;
}

/** As far apart as the wires of a small part are bent, and no farther than they reach [pitch]. */
const [LEAST, MOST] = [3, 12];

/** Rows in which nothing stands, the nearest to a hole that a part on two wires reaches from there first; one free hole of each. */
export function emptyRows({ context, circuit }: FixBench, from: Hole): readonly Hole[] {
  const room = roomBeside(context);
  const rows = new Map<string, Hole>();
  for (const hole of circuit.plan.boards.flatMap(holesOf)) {
    if (isRailHole(hole) || room.used(stripOf(hole)) || holesApart(from, hole) < LEAST || holesApart(from, hole) > MOST) continue;
    const before = rows.get(stripOf(hole));
    if (!before || holesApart(from, hole) < holesApart(from, before)) rows.set(stripOf(hole), hole);
  }
  return [...rows.values()].sort((a, b) => holesApart(from, a) - holesApart(from, b));
}

/** A part on two wires between two holes; undefined if it does not fit. */
export function between(
  { context, circuit }: FixBench,
  kind: string,
  params: NonNullable<PlanPart['params']>,
  [a, b]: readonly [Hole, Hole],
): Change | undefined {
  const { boards } = circuit.plan;
  const placed = place(context, { kind, at: holeName(a, boards), to: holeName(b, boards), params });
  return placed.ok ? placed.value : undefined;
}
