/** Wires that reach each other's pins: the one act that moves their ends where they belong. */
import type { Leg, WireEnd } from '../board/layout.ts';
import { type Change, join } from '../document/changes.ts';
import type { Circuit } from '../run/circuit/circuit.ts';

/** What stands at `is` belongs to `meant`. */
export interface Misplaced {
  readonly is: Leg;
  readonly meant: Leg;
}

/** wires: ids, in the order of `pairs`. undefined: it is no exchange of all of these, or more than one wire ends in one of the rows. */
export function movedEnds(
  { layout }: Circuit,
  pairs: readonly Misplaced[],
): { readonly change: Change; readonly wires: readonly string[] } | undefined {
  const [from, to] = [new Set(pairs.map((p) => p.is)), new Set(pairs.map((p) => p.meant))];
  if (pairs.length < 2 || from.size !== pairs.length || [...from].some((leg) => !to.has(leg))) return undefined;
  const endAt = (leg: Leg): WireEnd | undefined => {
    const ends = layout.ends.filter((e) => e.strip === leg.strip);
    return ends.length === 1 ? ends[0] : undefined;
  };
  const byWire = new Map<string, Change>();
  for (const { is, meant } of pairs) {
    const [end, place] = [endAt(is), endAt(meant)];
    if (!end || !place || byWire.has(end.wire.id)) return undefined;
    const after = { ...end.wire, [end.end]: place.wire[place.end] };
    byWire.set(end.wire.id, { op: 'replace', list: 'wires', before: end.wire, after });
  }
  return { change: join(...byWire.values()), wires: [...byWire.keys()] };
}
